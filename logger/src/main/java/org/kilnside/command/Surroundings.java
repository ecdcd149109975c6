package org.kilnside.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.host.Places;
import org.kilnside.host.SystemClock;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;
import org.kilnside.wording.Language;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What every command has around it (a mixin): where to print, which language, where the person's own files lie. */
public class Surroundings {
    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Option(
            names = "--language",
            paramLabel = "en|nl|de",
            description = "The language to speak: en, nl or de (this computer's own, unless given).")
    private Optional<String> language = Optional.empty();

    PrintWriter out() {
        return spec.commandLine().getOut();
    }

    PrintWriter err() {
        return spec.commandLine().getErr();
    }

    void usage() {
        spec.commandLine().usage(err());
    }

    Locale locale() {
        return language.map(Surroundings::spoken).orElseGet(Locale::getDefault);
    }

    Words words() {
        return Words.of(locale(), Preferences.of(locale()));
    }

    ProfileLibrary library() {
        return ProfileLibrary.of(Places.settings());
    }

    HostClock clock() {
        return new SystemClock();
    }

    private static Locale spoken(String tag) {
        for (Language known : Language.values()) {
            if (known.locale().getLanguage().equals(tag)) {
                // The country of this computer stays: it decides on °F and the 12-hour clock.
                return new Locale.Builder()
                        .setLanguage(tag)
                        .setRegion(Locale.getDefault().getCountry())
                        .build();
            }
        }
        throw new Complaint(
                Complaint.ExitCode.USAGE,
                "--language knows en, nl and de, found " + tag + ": choose one of the three.");
    }

    /** A window that shows a live firing; the desktop fills this port. */
    public interface Window {
        /** Whether this computer has a display to show a window on. */
        boolean isPossible();

        /**
         * Opens the window and returns when it has been closed.
         *
         * @return whether recording is to go on without a window
         */
        boolean show(Desk desk);

        /** Asks the person one question; empty when there is no answer. */
        Optional<String> ask(String question);
    }

    /**
     * What a window is opened on.
     *
     * @param feed the firing it shows
     * @param locale the person's language and country
     * @param book the book whose firings it shows
     * @param library the person's plans, kilns and line patterns
     * @param role the recorder's role, which the window may take; empty where it only looks on
     */
    public record Desk(
            LiveFeed feed,
            HostClock clock,
            Locale locale,
            Path book,
            ProfileLibrary library,
            Optional<RecorderRole> role) {}

    /** The book the person means: the one named, else the usual one. */
    static Path book(Optional<Path> named) {
        return named.orElseGet(Places::book);
    }
}
