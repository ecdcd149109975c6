package org.kilnside.command;

import java.io.Console;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.kilnside.alarm.Alarm;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.NightSettings;
import org.kilnside.host.Hangup;
import org.kilnside.link.LinkNotation;
import org.kilnside.session.Connection;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.FiringSummary;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Records a firing, without a window. */
@Command(
        name = "record",
        mixinStandardHelpOptions = true,
        description = "Records a firing into the book and shows it as one line. Ctrl-C stops recording; the firing is"
                + " gone on with when you record from the same kiln again within 36 h.")
public final class RecordCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Option(
            names = "--from",
            required = true,
            paramLabel = "LINK",
            description = "Where the controller's lines come from: a port such as /dev/ttyUSB0,"
                    + " serial:/dev/ttyUSB0?baud=115200, tcp:HOST:PORT, replay:FILE?speed=60 or"
                    + " virtual:tall-drum?speed=600.")
    private String link;

    @Mixin
    private WhatIsFired what;

    @Mixin
    private ShownNumber shown;

    @Mixin
    private Sharing sharing;

    @Mixin
    private NightOptions night;

    @Mixin
    private LightingOptions lighting;

    @Override
    public Integer call() {
        FiredIn fired = what.in(around.library())
                .saying(settings -> shown.sensor().map(settings::withSensor).orElse(settings));
        String from = what.firing(link);
        HostClock clock = around.clock();
        Words words = around.words();
        Optional<Sharing.Opened> opened = sharing.asked(around);
        lighting.how();
        NightSettings kept = night.settings();
        // A terminal that is closed, or a user who logs out, ends no recording.
        Hangup.ignore();
        try (Recorder recorder =
                Recorder.start(what.book(), from, fired, clock, around.library(), words, Optional.of(kept))) {
            Thread atExit = new Thread(recorder::close, "close");
            Runtime.getRuntime().addShutdownHook(atExit);
            if (!recorder.canBeFollowed()) {
                warn(words.text("record.not_followed"));
            }
            untried(from).ifPresent(port -> warn(words.text("record.untried", port)));
            if (LinkNotation.parse(from).linePattern().isPresent() && !recorder.knowsSensor()) {
                warn(words.text("record.unknown_chip"));
            }
            opened.ifPresent(shared -> Sharing.open(shared, recorder, around));
            if (!lighting.isLeftForLater()) {
                recorder.awaitReadings();
            }
            StatusLine line = StatusLine.on(around);
            lighting.goThrough(recorder.feed(), around);
            silenceWithEnter(recorder.feed());
            Snapshot last = follow(recorder.feed(), clock, line);
            recorder.finish();
            FiringSummary.of(last, words).ifPresent(summary -> summary.asLines().forEach(around.out()::println));
            return exitCode(last);
        }
    }

    private void warn(String sentence) {
        around.err().println("kilnside: " + sentence);
        around.err().flush();
    }

    /** The serial port of a link, when nobody knows yet whether opening it restarts the controller. */
    private Optional<String> untried(String from) {
        try {
            return LinkNotation.parse(from) instanceof LinkNotation.Serial serial
                            && around.library().portNotes().of(serial.path()).isEmpty()
                    ? Optional.of(serial.path())
                    : Optional.empty();
        } catch (FileRefusedException e) {
            // The recording has begun, and must not end for want of a memory.
            warn(e.getMessage());
            return Optional.empty();
        }
    }

    private int exitCode(Snapshot last) {
        if (last.connection().state() != Connection.State.GIVEN_UP) {
            return Complaint.ExitCode.DONE.code();
        }
        throw new Complaint(
                Complaint.ExitCode.INPUT,
                last.connection().detail().orElse("the connection was given up; the log file says more."));
    }

    /** In a terminal, Enter silences what rings: whoever is there knows of it. */
    static void silenceWithEnter(LiveFeed feed) {
        Console console = System.console();
        if (console == null) {
            return;
        }
        Thread keys = new Thread(
                () -> {
                    while (console.readLine() != null) {
                        feed.latest().alarms().stream()
                                .filter(Alarm::rings)
                                .forEach(alarm -> feed.acknowledge(alarm.id()));
                    }
                },
                "enter-key");
        keys.setDaemon(true);
        keys.start();
    }

    /** Shows the firing until nothing more will come. */
    static Snapshot follow(LiveFeed feed, HostClock clock, StatusLine line) {
        CountDownLatch over = new CountDownLatch(1);
        LiveFeed.Subscription watching = feed.subscribe(snapshot -> {
            if (isOver(snapshot)) {
                over.countDown();
            }
        });
        try {
            if (isOver(feed.latest())) {
                over.countDown();
            }
            while (!over.await(200, TimeUnit.MILLISECONDS)) {
                line.show(feed.latest(), clock.monotonicMs());
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            watching.close();
        }
        line.show(feed.latest(), clock.monotonicMs());
        line.end();
        return feed.latest();
    }

    private static boolean isOver(Snapshot snapshot) {
        return switch (snapshot.connection().state()) {
            case FINISHED, CLOSED, GIVEN_UP -> true;
            case CONNECTING, RECEIVING, SILENT, LOST -> false;
        };
    }
}
