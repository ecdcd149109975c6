package org.kilnside.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Arrays;
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
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What every command has around it (a mixin): where to print, which language, where the person's own files lie. */
public class Surroundings {
    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    private Optional<Language> asked = Optional.empty();

    private Optional<Language> lastChosen = Optional.empty();

    /** Refused while the command line is read, before a command has looked at anything else. */
    @Option(
            names = "--language",
            paramLabel = "en|nl|de",
            description =
                    "The language to speak: en, nl or de (this computer's own, unless given; with a window, the one last chosen there).")
    void ask(String tag) {
        asked = Optional.of(named(tag)
                .orElseThrow(() -> new ParameterException(
                        spec.commandLine(),
                        "--language knows en, nl and de, found \"" + tag + "\": choose one of the three")));
    }

    PrintWriter out() {
        return spec.commandLine().getOut();
    }

    PrintWriter err() {
        return spec.commandLine().getErr();
    }

    void usage() {
        spec.commandLine().usage(err());
    }

    /**
     * The language of everything this run says, in the terminal and in its window, and the country. What the command line
     * asks for goes before what was last chosen in the window, and that before the computer's own.
     */
    Locale locale() {
        return asked.or(() -> lastChosen).map(Surroundings::spoken).orElseGet(Locale::getDefault);
    }

    /** This run is to open a window, which has a language of its own: they speak the same. */
    void speakWith(Window window) {
        lastChosen = window.lastLanguage();
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

    /** The country of this computer stays: it decides on °F and the 12-hour clock. */
    private static Locale spoken(Language language) {
        return new Locale.Builder()
                .setLanguage(language.locale().getLanguage())
                .setRegion(Locale.getDefault().getCountry())
                .build();
    }

    private static Optional<Language> named(String tag) {
        return Arrays.stream(Language.values())
                .filter(known -> known.locale().getLanguage().equals(tag))
                .findFirst();
    }

    /** A window that shows a live firing; the desktop fills this port. */
    public interface Window {
        /** Whether this computer has a display to show a window on. */
        boolean isPossible();

        /** The language last chosen in it; empty when it never was. */
        Optional<Language> lastLanguage();

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
     * @param locale the language this run begins in, and the person's country
     * @param words in which this run speaks outside the window: they follow what is chosen in it
     * @param book the book whose firings it shows
     * @param library the person's plans, kilns and line patterns
     * @param role the recorder's role, which the window may take; empty where it only looks on
     */
    public record Desk(
            LiveFeed feed,
            HostClock clock,
            Locale locale,
            Words words,
            Path book,
            ProfileLibrary library,
            Optional<RecorderRole> role) {}

    /** The book the person means: the one named, else the usual one. */
    static Path book(Optional<Path> named) {
        return named.orElseGet(Places::book);
    }
}
