package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.BookRecorder;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.session.FiringBook.ClockTie;
import org.kilnside.session.FiringBook.FiringStart;

/** The book on the command line, with a firing whose controller's clock runs half a percent slow. */
class BookCommandTest {
    private static final Instant BEGAN = Instant.parse("2026-11-20T06:30:00Z");
    private static final double DRIFT = 1.005;

    @TempDir
    private Path folder;

    private Path path;

    @BeforeEach
    void record() {
        path = folder.resolve("firing.book");
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(new FiringStart(
                    Optional.of("Tall Drum"),
                    "serial:/dev/ttyUSB0",
                    BEGAN,
                    Optional.empty(),
                    Optional.empty(),
                    ConeSeries.USUAL));
            recorder.sensors(number, 0, List.of(Probe.UNKNOWN));
            for (long minute = 0; minute <= 20 * 60; minute++) {
                long elapsedMs = minute * 60_000;
                recorder.append(
                        number, reading(elapsedMs, minute < 600 ? 20 + minute * 1.6 : 980 - (minute - 600) * 1.5));
                if (minute % 10 == 0) {
                    recorder.clockTie(
                            number, new ClockTie(elapsedMs, OptionalLong.of(elapsedMs), onTheWall(elapsedMs)));
                }
            }
            recorder.append(number, FiringEvent.of(20 * 3_600_000L, FiringEvent.Kind.NOTE, "Bung out"));
            recorder.end(number, 20 * 3_600_000L);
        }
    }

    private static Instant onTheWall(long elapsedMs) {
        return BEGAN.plusMillis(Math.round(elapsedMs * DRIFT));
    }

    private static Reading reading(long elapsedMs, double celsius) {
        RawSignal raw = new RawSignal(OptionalInt.of((int) Math.round(celsius * 100)), OptionalInt.empty(), 0);
        return Reading.of(
                elapsedMs,
                List.of(new Channel(1, raw, Optional.of(Temperature.ofCelsius(celsius)), Optional.empty())),
                ControllerReport.NONE,
                Origin.LIVE);
    }

    private Line book(String... words) {
        String[] all = java.util.Arrays.copyOf(words, words.length + 2);
        all[words.length] = "--book";
        all[words.length + 1] = path.toString();
        return Line.run("book", new BookCommand(), all);
    }

    /** 20 h by the controller are 20 h 6 min on the wall (arithmetic): 02:36:00 the next morning, UTC. */
    @Test
    void eventsAreNamedByTheWallClockAndNotByTheControllersCount() {
        assertThat(book("show", "1", "--json").out())
                .contains("\"started\":\"2026-11-20T06:30:00Z\"")
                .contains("\"elapsed_s\":72000.0,\"time\":\"2026-11-21T02:36:00Z\",\"kind\":\"note\"");
    }

    @Test
    void theExportedTimesAreThoseOfTheWallClock() {
        assertThat(book("export", "1").out()).contains("\n72000,2026-11-21T02:36:00.000Z,");
    }
}
