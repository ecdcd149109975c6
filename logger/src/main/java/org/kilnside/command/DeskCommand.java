package org.kilnside.command;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.book.Book;
import org.kilnside.book.BookException;
import org.kilnside.book.FiringSummary;
import org.kilnside.files.LastRecording;
import org.kilnside.host.Hangup;
import org.kilnside.host.Places;
import org.kilnside.host.TestedAlarm;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.LinkNotation;
import org.kilnside.link.RecorderAddress;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.session.Connection;
import org.kilnside.session.FiringSettings;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.Words;
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

    @Mixin
    private Sharing sharing;

    @Mixin
    private Attaching attaching;

    @Mixin
    private NightOptions night;

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
        around.speakWith(window);
        Words words = around.words();
        HostClock clock = around.clock();
        Optional<LinkNotation.Attach> elsewhere = attaching.recorder(link);
        if (elsewhere.isPresent()) {
            RecorderPlace there = attaching.place(elsewhere.get(), around, words, window::ask);
            Snapshot nothing = WatchCommand.notYet(around, clock, what.kiln());
            try (AttachedFiring firing = AttachedFiring.whenThere(there, clock, nothing)) {
                try (NightWatch watch = NightWatch.overCopy(
                        firing, clock, night.settings(), new TestedAlarm(Places.settings()), words)) {
                    window.show(desk(watch, clock, words, what.book(), Optional.empty()));
                }
            }
            return Complaint.ExitCode.DONE.code();
        }
        Path path = what.book();
        RecorderPlace here = RecorderPlace.here(() -> RecorderAddress.find(path), words);
        Optional<AttachedFiring> recording = AttachedFiring.now(here, clock);
        Optional<Sharing.Opened> opened = recording.isEmpty() ? sharing.asked(around) : Optional.empty();
        AttachedFiring following =
                recording.orElseGet(() -> AttachedFiring.whenThere(here, clock, nobodyRecords(clock)));
        TestedAlarm tested = new TestedAlarm(Places.settings());
        NightWatch watch = isCutShort(path, clock)
                ? NightWatch.overCopy(following, clock, night.settings(), tested, words)
                : NightWatch.overPerhaps(following, clock, night.settings(), tested, words);
        try (RecorderRole role = new RecorderRole(
                path,
                clock,
                around.library(),
                LastRecording.in(Places.settings()),
                new Recorder.Night(night.settings(), words),
                new RecorderRole.Following(watch, () -> {
                    watch.close();
                    following.close();
                }),
                recorder -> {
                    opened.ifPresent(shared -> Sharing.open(shared, recorder, around));
                    Hangup.ignore();
                })) {
            if (recording.isEmpty() && link.isPresent()) {
                role.take(new LastRecording.Remembered(what.firing(link.get()), what.kiln(), what.plan()));
            }
            Runtime.getRuntime().addShutdownHook(new Thread(role::close, "close"));
            if (window.show(desk(role.feed(), clock, words, path, Optional.of(role)))) {
                RecordCommand.follow(role.feed(), clock, StatusLine.on(around, words));
            }
        }
        return Complaint.ExitCode.DONE.code();
    }

    private Surroundings.Desk desk(
            LiveFeed feed, HostClock clock, Words words, Path path, Optional<RecorderRole> role) {
        return new Surroundings.Desk(feed, clock, around.locale(), words, path, around.library(), role);
    }

    /** Whether the book's last firing was left without an end so lately that its kiln may be hot: somebody should record it. */
    static boolean isCutShort(Path path, HostClock clock) {
        try (Book book = Book.open(path)) {
            List<FiringSummary> firings = book.firings();
            if (firings.isEmpty()) {
                return false;
            }
            FiringSummary last = firings.get(firings.size() - 1);
            Instant until = last.startedAt().plus(last.duration());
            return !last.ended() && until.plus(FiringSettings.A_FIRING_LONG).isAfter(clock.wallClock());
        } catch (BookException e) {
            // None yet, or one the window has something to say about.
            return false;
        }
    }

    private Snapshot nobodyRecords(HostClock clock) {
        return Snapshot.before(
                what.kiln(),
                new Connection(
                        Connection.State.LOST,
                        clock.monotonicMs(),
                        Optional.of(around.words().text("desk.nobody_records")),
                        Connection.Counts.NONE));
    }
}
