package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.testing.SimulatedBoard;
import org.kilnside.testing.SimulatedBoard.ChipFrame;

/** Three hours missed, with the real firmware and the whole program: the curve is complete afterwards. */
class LongGapIT {
    private static final int THREE_HOURS_S = 10_800;

    @TempDir
    private Path folder;

    @Test
    void aCableThatWasOutForThreeHours() throws Exception {
        Path port = folder.resolve("ttyKILN");
        try (SimulatedBoard board = SimulatedBoard.with().speed(20).link(port).start();
                Recording recording = new Recording(folder)) {
            warm(board);
            recording.from(port.toString()).awaitReadings(120);
            board.unplug();
            recording.awaitEvent(Kind.CONNECTION_LOST);
            letThreeHoursGoBy(board);
            board.plug();
            recording.awaitEvent(Kind.CONNECTION_BACK);
            recording.awaitEvent(Kind.GAP_FILLED);
            recording.stop();
            isComplete(recording, board);
            assertThat(board.restarts("dtr") + board.restarts("pin")).isZero();
        }
    }

    @Test
    void aProgramThatWasKilledAndStartedAgainThreeHoursLater() throws Exception {
        Path port = folder.resolve("ttyKILN");
        try (SimulatedBoard board = SimulatedBoard.with().speed(20).link(port).start();
                Recording recording = new Recording(folder)) {
            warm(board);
            recording.from(port.toString()).awaitReadings(120);
            recording.kill();
            letThreeHoursGoBy(board);
            recording.from(port.toString());
            recording.awaitEvent(Kind.RECORDING_RESUMED);
            recording.awaitEvent(Kind.GAP_FILLED);
            recording.stop();
            isComplete(recording, board);
        }
    }

    private static void warm(SimulatedBoard board) {
        board.temperature(20, 21);
        board.temperatureOver(420, Duration.ofHours(4));
    }

    /** As fast as the board can; nobody is connected. */
    private static void letThreeHoursGoBy(SimulatedBoard board) {
        int frames = board.chipFrames().size();
        board.speed(0);
        board.awaitFrames(frames + THREE_HOURS_S, Duration.ofMinutes(3));
        board.speed(20);
    }

    private static void isComplete(Recording recording, SimulatedBoard board) {
        List<Reading> readings = recording.readings();
        List<Reading> filled = readings.stream()
                .filter(reading -> reading.origin() == Origin.FILLED_IN)
                .toList();
        assertThat(filled).as("a kept reading a minute for three hours").hasSizeGreaterThanOrEqualTo(178);
        for (int i = 1; i < readings.size(); i++) {
            assertThat(readings.get(i).elapsedMs() - readings.get(i - 1).elapsedMs())
                    .as("pause before reading %d", i)
                    .isBetween(0L, 62_000L);
        }
        // The board's own record says what the amplifier showed at each moment: independent of wire and book.
        List<ChipFrame> frames = board.chipFrames();
        Reading last = readings.get(readings.size() - 1);
        double zero = frames.get(frames.size() - 1).seconds() - last.elapsedMs() / 1000.0;
        for (Reading reading : filled) {
            double at = zero + reading.elapsedMs() / 1000.0;
            ChipFrame frame = frames.stream()
                    .filter(one -> one.seconds() >= at)
                    .findFirst()
                    .orElseThrow();
            assertThat(reading.first().raw().thermocouple().orElseThrow())
                    .as("code of the amplifier at %.0f s of its own time", at)
                    .isCloseTo(frame.thermocouple(), within(6));
        }
    }
}
