package org.kilnside.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.host.Places;
import org.kilnside.session.HostClock;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.FiringSummary;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Fires the virtual kiln: a whole bisque and its cooling in about 90 seconds, through every room of the program. */
@Command(
        name = "demo",
        mixinStandardHelpOptions = true,
        description = "Fires the built-in virtual kiln: a whole bisque firing of Tall Drum and its cooling, sped up to"
                + " about 90 seconds, in a window, or here with --headless or where there is no display."
                + " No real kiln is touched.")
public final class DemoCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Option(names = "--headless", description = "Show it here in the terminal.")
    private boolean headless;

    @Option(
            names = "--speed",
            paramLabel = "N",
            defaultValue = "1400",
            description = "Kiln time over real time (${DEFAULT-VALUE}, unless given).")
    private double speed;

    @Option(
            names = "--book",
            paramLabel = "FILE",
            description = "The book to write it in (a book of its own for demos, unless given).")
    private Optional<Path> book = Optional.empty();

    private final Surroundings.Window window;

    /** A demo that can show this window. */
    public DemoCommand(Surroundings.Window window) {
        this.window = window;
    }

    @Override
    public Integer call() {
        if (!(speed >= 1 && speed <= 10_000)) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE, "--speed takes a number from 1 to 10000, found " + speed + ".");
        }
        boolean inWindow = !headless && window.isPossible();
        if (inWindow) {
            around.speakWith(window);
        }
        Words words = around.words();
        PrintWriter out = around.out();
        HostClock clock = around.clock();
        Path path = book.orElseGet(() -> Places.book().resolveSibling("demo.book"));
        FiredIn fired = WhatIsFired.in(around.library(), Optional.of("Tall Drum"), Optional.of("bisque"));
        String link = "virtual:tall-drum?speed=" + number(speed) + "&plan=bisque";
        out.println(words.text("demo.begins", number(speed)));
        out.flush();
        try (Recorder recorder = Recorder.start(path, link, fired, clock, around.library(), words, Optional.empty())) {
            Runtime.getRuntime().addShutdownHook(new Thread(recorder::close, "close"));
            Snapshot last;
            if (inWindow) {
                window.show(new Surroundings.Desk(
                        recorder.feed(), clock, around.locale(), words, path, around.library(), Optional.empty()));
                last = recorder.feed().latest();
            } else {
                StatusLine line = new StatusLine(out, words, System.console() != null, 120);
                last = RecordCommand.follow(recorder.feed(), clock, line);
            }
            recorder.finish();
            FiringSummary.of(last, words).ifPresent(summary -> summary.asLines().forEach(out::println));
            last.firing().ifPresent(firing -> out.println(words.text("demo.in_the_book", firing, path)));
            out.println(words.text("demo.caution"));
            out.flush();
            return Complaint.ExitCode.DONE.code();
        }
    }

    private static String number(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
