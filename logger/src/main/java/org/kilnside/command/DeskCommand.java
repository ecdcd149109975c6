package org.kilnside.command;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import org.kilnside.firing.Trace;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.RecorderAddress;
import org.kilnside.session.Connection;
import org.kilnside.session.Findings;
import org.kilnside.session.FiringBook;
import org.kilnside.session.FiringSettings;
import org.kilnside.session.HostClock;
import org.kilnside.session.Snapshot;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Opens the window: attached to the recorder of the book where one is at work, else recording itself when told from where. */
@Command(
        name = "desk",
        mixinStandardHelpOptions = true,
        description = "Opens the window. Where another Kilnside is recording into the book, the window follows it;"
                + " with --from, and nobody recording, the window records itself.")
public final class DeskCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Option(
            names = "--from",
            paramLabel = "LINK",
            description = "Where the controller's lines come from, as for record.")
    private Optional<String> link = Optional.empty();

    @Mixin
    private WhatIsFired what;

    private final Surroundings.Window window;

    /** A command that can show this window. */
    public DeskCommand(Surroundings.Window window) {
        this.window = window;
    }

    @Override
    public Integer call() {
        if (!window.isPossible()) {
            throw new Complaint(
                    Complaint.ExitCode.INPUT,
                    "there is no display to open a window on: use record here, or start desk where there is a screen.");
        }
        HostClock clock = around.clock();
        Path path = what.book();
        Optional<AttachedFiring> recording = AttachedFiring.now(() -> RecorderAddress.find(path), clock);
        if (recording.isPresent()) {
            try (AttachedFiring firing = recording.get()) {
                window.show(firing, clock, around.locale(), path, false);
            }
        } else if (link.isPresent()) {
            FiringSettings settings = what.settings(around.library());
            try (Recorder recorder = Recorder.start(path, what.firing(link.get()), settings, clock, around.library())) {
                Runtime.getRuntime().addShutdownHook(new Thread(recorder::close, "close"));
                if (window.show(recorder.feed(), clock, around.locale(), path, true)) {
                    StatusLine line = new StatusLine(around.out(), around.words(), System.console() != null, 100);
                    RecordCommand.follow(recorder.feed(), clock, line);
                }
            }
        } else {
            Snapshot nothing = nobodyRecords(clock);
            try (AttachedFiring firing = AttachedFiring.whenThere(() -> RecorderAddress.find(path), clock, nothing)) {
                window.show(firing, clock, around.locale(), path, false);
            }
        }
        return Complaint.ExitCode.DONE.code();
    }

    private Snapshot nobodyRecords(HostClock clock) {
        return new Snapshot(
                0,
                OptionalLong.empty(),
                what.kiln(),
                "",
                1,
                Snapshot.Stage.NO_READING_YET,
                Optional.empty(),
                Optional.empty(),
                new Connection(
                        Connection.State.LOST,
                        clock.monotonicMs(),
                        Optional.of(around.words().text("desk.nobody_records")),
                        Connection.Counts.NONE),
                Optional.empty(),
                Snapshot.Rates.UNKNOWN,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Trace.EMPTY,
                Findings.NONE,
                List.of(),
                Optional.empty(),
                new FiringBook.DiskState(OptionalLong.empty(), 0, Optional.empty()));
    }
}
