package org.kilnside.command;

import java.io.Console;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.files.NightSettings;
import org.kilnside.host.Hangup;
import org.kilnside.host.Places;
import org.kilnside.host.TestedAlarm;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.LinkNotation;
import org.kilnside.link.RecorderAddress;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.session.Connection;
import org.kilnside.session.HostClock;
import org.kilnside.session.Snapshot;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Follows a recording without a window, and rings: for the bedroom, or a small board with a bell on it. */
@Command(
        name = "watch",
        mixinStandardHelpOptions = true,
        description = "Follows a recording without a window and rings when something is wrong, or when nothing more is"
                + " heard of it.")
public final class WatchCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Mixin
    private Attaching attaching;

    @Option(
            names = "--book",
            paramLabel = "FILE",
            description = "Without --attach: the book whose recording on this computer is followed (this system's usual"
                    + " place, unless given).")
    private Optional<Path> book = Optional.empty();

    @Mixin
    private NightOptions night;

    @Override
    public Integer call() {
        NightSettings kept = night.settings();
        HostClock clock = around.clock();
        Optional<LinkNotation.Attach> recorder = attaching.recorder(Optional.empty());
        Path path = Surroundings.book(book);
        RecorderPlace place = recorder.isPresent()
                ? attaching.place(recorder.get(), around, around.words(), WatchCommand::ask)
                : RecorderPlace.here(() -> RecorderAddress.find(path), around.words());
        StatusLine line = StatusLine.on(around);
        try (AttachedFiring firing = AttachedFiring.whenThere(place, clock, notYet(around, clock, Optional.empty()))) {
            Hangup.ignore();
            try (NightWatch watch =
                    NightWatch.overCopy(firing, clock, kept, new TestedAlarm(Places.settings()), around.words())) {
                RecordCommand.silenceWithEnter(watch);
                RecordCommand.follow(watch, clock, line);
            }
        }
        return Complaint.ExitCode.DONE.code();
    }

    /** Asks in the terminal; nobody answers where there is none. */
    static Optional<String> ask(String question) {
        Console console = System.console();
        return console == null
                ? Optional.empty()
                : Optional.ofNullable(console.readLine("%s ", question)).filter(answer -> !answer.isBlank());
    }

    /** What to show before the recorder has been found. */
    static Snapshot notYet(Surroundings around, HostClock clock, Optional<String> kiln) {
        return Snapshot.before(
                kiln,
                new Connection(
                        Connection.State.CONNECTING,
                        clock.monotonicMs(),
                        Optional.of(around.words().text("attach.looking")),
                        Connection.Counts.NONE));
    }
}
