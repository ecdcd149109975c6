package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.Book;
import org.kilnside.book.BookCheck;
import org.kilnside.command.Program;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.SensorFault;
import org.kilnside.session.FiringBook;
import org.kilnside.testing.SimulatedBoard;
import org.kilnside.testing.SimulatedBoard.ChipFrame;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

/**
 * The main path, whole: the virtual kiln warms the amplifier of a simulated board; the real firmware reads it and
 * sends lines over a pseudo-terminal; the program, in a process of its own, records them; and the book has, to the
 * code, what the amplifier was given.
 */
class FirmwareToBookIT {
    /** A firing short enough to be fired whole in a minute at 150 times: 480 °C in an hour, and twenty minutes of cooling. */
    private static final Schedule SHORT = new Schedule(
            "Short",
            List.of(
                    new Segment.Ramp(
                            HeatingRate.ofKelvinPerHour(480), Temperature.ofCelsius(480), Duration.ofMinutes(5)),
                    new Segment.FreeCooling()));

    private static final int FIRING_S = 5_000;

    @TempDir
    private Path folder;

    @Test
    void theBookHasWhatTheAmplifierSaidOfAWholeFiringToTheCode() throws Exception {
        Path book = folder.resolve("firings.book");
        try (SimulatedBoard board = SimulatedBoard.with().speed(0.5).start()) {
            warmByTheVirtualKiln(board);
            Process recorder = record(book, board.pty());
            awaitReadings(book, 1);
            board.speed(150);
            board.awaitFrames(FIRING_S / 2);
            board.awaitFrames(FIRING_S - 30);
            stop(recorder);

            List<ChipFrame> frames = board.chipFrames();
            int matched = assertSame(book, frames);
            // On a machine that is busy a few lines may be lost on the wire, which promises no delivery; they count as
            // lost.
            assertThat(matched).isGreaterThan(FIRING_S * 98 / 100);
            assertThat(peakOf(frames) * Amplifier.MAX31855.thermocoupleStepC()).isGreaterThan(440);
            try (Book opened = Book.open(book)) {
                assertThat(opened.firing(1).curve().size()).isGreaterThan(FIRING_S * 98 / 100);
            }
            assertThat(BookCheck.of(book).findings()).isEmpty();
        }
    }

    @Test
    void aCableThatIsPulledForTenMinutesIsNoticedAndTheGapFilledFromWhatTheFirmwareKept() throws Exception {
        Path book = folder.resolve("firings.book");
        Path port = folder.resolve("ttyKILN");
        try (SimulatedBoard board = SimulatedBoard.with().speed(20).link(port).start()) {
            board.temperature(20, 21);
            board.temperatureOver(420, Duration.ofHours(1));
            Process recorder = record(book, port);
            awaitReadings(book, 120);
            board.unplug();
            awaitEvent(book, Kind.CONNECTION_LOST);
            TimeUnit.SECONDS.sleep(30);
            board.plug();
            awaitEvent(book, Kind.CONNECTION_BACK);
            awaitEvent(book, Kind.GAP_FILLED);
            stop(recorder);

            List<Reading> readings = readings(book);
            assertThat(readings.stream().filter(reading -> reading.origin() == Origin.FILLED_IN))
                    .as("a kept reading a minute for the ten minutes that were missing")
                    .hasSizeGreaterThanOrEqualTo(9);
            for (int i = 1; i < readings.size(); i++) {
                assertThat(readings.get(i).elapsedMs() - readings.get(i - 1).elapsedMs())
                        .as("pause before reading %d", i)
                        .isLessThanOrEqualTo(62_000);
            }
            assertThat(board.restarts("dtr") + board.restarts("pin")).isZero();
        }
    }

    @Test
    void aSensorFaultAndAPressOfResetAreInTheRecord() throws Exception {
        Path book = folder.resolve("firings.book");
        try (SimulatedBoard board = SimulatedBoard.with().speed(10).start()) {
            board.temperature(480, 30);
            Process recorder = record(book, board.pty());
            awaitReadings(book, 30);
            board.fault(SimulatedBoard.Fault.OPEN_CIRCUIT);
            awaitEvent(book, Kind.SENSOR_FAULT);
            board.fault(SimulatedBoard.Fault.NONE);
            awaitEvent(book, Kind.SENSOR_BACK);
            board.reset();
            awaitEvent(book, Kind.CONTROLLER_RESTARTED);
            stop(recorder);
            List<Reading> readings = readings(book);
            assertThat(readings)
                    .anySatisfy(reading -> assertThat(reading)
                            .isInstanceOfSatisfying(
                                    Reading.Faulted.class,
                                    faulted -> assertThat(faulted.faults()).containsExactly(SensorFault.OPEN_CIRCUIT)));
            Reading.Measured last = (Reading.Measured) readings.get(readings.size() - 1);
            // The amplifier shows 480 °C; type K corrected for what the chip does not linearise (own output).
            assertThat(last.temperature().celsius()).isCloseTo(480, within(8.0));
        }
    }

    /** Every live reading in the book against the frame the chip answered at that uptime; how many there are. */
    private static int assertSame(Path book, List<ChipFrame> frames) {
        long uptimeAtZero = uptimeAtZero(book);
        Map<Long, ChipFrame> bySecond = new HashMap<>();
        frames.forEach(frame -> bySecond.put(Math.round(frame.seconds()), frame));
        int count = 0;
        for (Reading reading : readings(book)) {
            if (reading.origin() != Origin.LIVE) {
                continue;
            }
            ChipFrame frame = bySecond.get(Math.round((uptimeAtZero + reading.elapsedMs()) / 1000.0));
            assertThat(frame)
                    .as("frame of the reading at %d ms", reading.elapsedMs())
                    .isNotNull();
            assertThat(reading.first().raw().thermocouple())
                    .as("thermocouple code, frame %d", frame.number())
                    .hasValue(frame.thermocouple());
            assertThat(reading.first().raw().coldJunction())
                    .as("cold-junction code, frame %d", frame.number())
                    .hasValue(frame.coldJunction());
            assertThat(reading.first().raw().faultBits()).isEqualTo(frame.faultBits());
            count++;
        }
        return count;
    }

    private static long uptimeAtZero(Path book) {
        try (Book opened = Book.open(book)) {
            FiringBook.ClockTie tie = opened.firing(1).clockTies().get(0);
            return tie.uptimeMs().orElseThrow() - tie.elapsedMs();
        }
    }

    private static int peakOf(List<ChipFrame> frames) {
        return frames.stream().mapToInt(ChipFrame::thermocouple).max().orElseThrow();
    }

    /** Gives the board the curve of a virtual firing beforehand, a corner every five seconds of its own time. */
    private static void warmByTheVirtualKiln(SimulatedBoard board) {
        VirtualFiring firing = VirtualFiring.of(VirtualKilns.TALL_DRUM, SHORT).start();
        for (int s = 0; s < FIRING_S; s++) {
            VirtualFiring.Moment moment = firing.next();
            if (s % 5 == 0) {
                // What the chip shows is what its codes say; the codes of the virtual sensor go through unchanged.
                board.temperatureAt(
                        s,
                        moment.signals().get(0).thermocouple().getAsInt() * Amplifier.MAX31855.thermocoupleStepC(),
                        moment.signals().get(0).coldJunction().getAsInt() * Amplifier.MAX31855.coldJunctionStepC());
            }
        }
    }

    private Process record(Path book, Path port) throws IOException {
        return Program.start(
                Map.of(),
                List.of(),
                folder.resolve("out"),
                folder.resolve("err"),
                "record",
                "--from",
                port.toString(),
                "--kiln",
                "Tall Drum",
                "--book",
                book.toString());
    }

    /** As a system does it when it shuts down, or a person with Ctrl-C. */
    private static void stop(Process recorder) throws InterruptedException {
        recorder.destroy();
        assertThat(recorder.waitFor(20, TimeUnit.SECONDS)).isTrue();
    }

    private static List<Reading> readings(Path book) {
        try (Book opened = Book.open(book)) {
            List<Reading> readings = new ArrayList<>();
            opened.readings(1, readings::add);
            return readings;
        }
    }

    private void awaitReadings(Path book, int count) throws Exception {
        await(
                "readings",
                () -> java.nio.file.Files.exists(book)
                        && hasFiring(book)
                        && readings(book).size() >= count);
    }

    private void awaitEvent(Path book, Kind kind) throws Exception {
        await(kind.toString(), () -> {
            try (Book opened = Book.open(book)) {
                return opened.firing(1).events().stream().map(FiringEvent::kind).anyMatch(kind::equals);
            }
        });
    }

    private static boolean hasFiring(Path book) {
        try (Book opened = Book.open(book)) {
            return !opened.firings().isEmpty();
        }
    }

    private interface Condition {
        boolean holds() throws Exception;
    }

    private void await(String what, Condition condition) throws Exception {
        long until = System.nanoTime() + 90_000_000_000L;
        while (!condition.holds()) {
            assertThat(System.nanoTime())
                    .as("waited 90 s for %s; the recorder said: %s", what, Program.said(folder.resolve("err")))
                    .isLessThan(until);
            TimeUnit.MILLISECONDS.sleep(100);
        }
    }
}
