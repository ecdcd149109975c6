package org.kilnside.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.KeptEnd;
import org.kilnside.protocol.KeptLine;
import org.kilnside.protocol.ReadingLine;
import org.kilnside.testing.SimulatedBoard;
import org.kilnside.testing.SimulatedBoard.ChipFrame;
import org.kilnside.testing.SimulatedBoard.Fault;

class ReferenceFirmwareIT {
    @Test
    void everyReadingOfTheMax31855IsWhatTheChipAnsweredToTheCode() throws Exception {
        everyReadingIsWhatTheChipAnswered(SimulatedBoard.with());
    }

    @Test
    void everyReadingOfTheMax31856IsWhatTheChipAnsweredToTheCode() throws Exception {
        everyReadingIsWhatTheChipAnswered(SimulatedBoard.with().max31856());
    }

    /** A ramp from below freezing to 1280 °C with a cold junction that warms, at 200 times real time. */
    private static void everyReadingIsWhatTheChipAnswered(SimulatedBoard.Builder described) throws Exception {
        // Opening restarts the board: from there reading and frame go side by side, whenever the port was opened.
        try (SimulatedBoard board = described.speed(200).dtrWired().start()) {
            board.temperature(-12.5, -3);
            try (Wire wire = new Wire(board.pty())) {
                wire.await(ReadingLine.class, reading -> true);
                board.temperatureOver(1280, Duration.ofMinutes(9));
                board.coldJunctionOver(48, Duration.ofMinutes(9));
                wire.await(ReadingLine.class, reading -> reading.uptimeMs() >= 600_000);
                List<ReadingLine> readings = wire.all(ReadingLine.class);
                int before = framesBeforeRestart(board);
                board.awaitFrames(before + readings.size());
                List<ChipFrame> frames = board.chipFrames();
                assertThat(readings).hasSizeGreaterThanOrEqualTo(600);
                for (int i = 0; i < readings.size(); i++) {
                    ChipFrame frame = frames.get(before + i);
                    assertThat(readings.get(i).channels())
                            .as("reading %d", i)
                            .containsExactly(new ChannelCodes(
                                    1,
                                    OptionalInt.of(frame.thermocouple()),
                                    OptionalInt.of(frame.coldJunction()),
                                    ChannelCodes.NO_FAULT));
                }
                ChannelCodes first = readings.get(0).channels().get(0);
                assertThat(first.thermocouple().getAsInt()).as("below freezing").isNegative();
                assertThat(first.coldJunction().getAsInt()).as("below freezing").isNegative();
                assertThat(wire.discarded()).isZero();
                assertThat(wire.lost()).isZero();
            }
        }
    }

    /** Frames answered before the port was opened, which restarted the board. */
    private static int framesBeforeRestart(SimulatedBoard board) {
        double restart = board.log().stream()
                .filter(line -> line.startsWith("RESET "))
                .mapToDouble(line -> Double.parseDouble(line.split(" ")[1]))
                .max()
                .orElseThrow();
        return (int) board.chipFrames().stream()
                .filter(frame -> frame.seconds() < restart)
                .count();
    }

    @Test
    void aReadingComesEachSecondAndAHelloEachMinuteAndWhenAsked() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.with().speed(200).dtrWired().start();
                Wire wire = new Wire(board.pty())) {
            wire.await(ReadingLine.class, reading -> reading.uptimeMs() >= 150_000);
            // A computer that is busy looks late: meanwhile the board goes on.
            board.speed(1);
            assertThat(wire.all(ReadingLine.class).stream().limit(150).map(ReadingLine::uptimeMs))
                    .as("to the ms, by the controller's own clock")
                    .containsExactlyElementsOf(LongStream.rangeClosed(1, 150)
                            .mapToObj(second -> second * 1000)
                            .toList());
            List<Hello> hellos = wire.all(Hello.class).stream()
                    .filter(hello -> hello.uptimeMs() <= 150_000)
                    .toList();
            assertThat(hellos).hasSize(3);
            assertThat(hellos.get(0).sequence()).isZero();
            assertThat(hellos.get(0).uptimeMs()).isLessThan(100);
            assertThat(hellos.get(1).uptimeMs()).isBetween(60_000L, 60_100L);
            assertThat(hellos.get(0).version()).isEqualTo(1);
            assertThat(hellos.get(0).firmware()).contains("reference-1.0");
            assertThat(hellos.get(0).channelCount()).hasValue(1);
            assertThat(hellos.get(0).lineIntervalMs()).hasValue(1000);
            assertThat(hellos.get(0).channels().get(0).amplifier()).contains("MAX31855");
            assertThat(hellos.get(0).channels().get(0).thermocouple()).contains("K");

            wire.ask("?H");
            // Not one of those that come as a minute begins.
            wire.await(Hello.class, hello -> hello.uptimeMs() > 150_000 && hello.uptimeMs() % 60_000 > 100);
        }
    }

    @Test
    void whatIsNoRequestIsIgnoredAndReadingsGoOn() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.with().speed(50).start();
                Wire wire = new Wire(board.pty())) {
            wire.await(ReadingLine.class, reading -> true);
            wire.ask("x".repeat(300) + "\n?U 1000\n?K 5x\n\0?\n?H1");
            long then = wire.await(ReadingLine.class, reading -> reading.uptimeMs() >= 5000)
                    .uptimeMs();
            wire.await(ReadingLine.class, reading -> reading.uptimeMs() >= then + 10_000);
            assertThat(wire.lost()).isZero();
            assertThat(wire.discarded()).isZero();
            assertThat(board.restarts("watchdog")).isZero();
        }
    }

    @Test
    void everyFaultOfTheMax31855IsReported() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.with().speed(50).start();
                Wire wire = new Wire(board.pty())) {
            reports(board, wire, Fault.OPEN_CIRCUIT, 1);
            reports(board, wire, Fault.SHORT_TO_GROUND, 2);
            reports(board, wire, Fault.SHORT_TO_SUPPLY, 4);
            reports(board, wire, Fault.NO_ANSWER, 64);
            reports(board, wire, Fault.STUCK_LOW, 64);
            reports(board, wire, Fault.NONE, 0);
        }
    }

    @Test
    void everyFaultOfTheMax31856IsReported() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.with().max31856().speed(50).start();
                Wire wire = new Wire(board.pty())) {
            reports(board, wire, Fault.OPEN_CIRCUIT, 1);
            reports(board, wire, Fault.OUT_OF_RANGE, 8);
            reports(board, wire, Fault.COLD_JUNCTION_OUT_OF_RANGE, 16);
            reports(board, wire, Fault.INPUT_VOLTAGE, 32);
            reports(board, wire, Fault.NO_ANSWER, 64);
            reports(board, wire, Fault.STUCK_LOW, 64);
            reports(board, wire, Fault.NONE, 0);
        }
    }

    private static void reports(SimulatedBoard board, Wire wire, Fault fault, int bits) throws Exception {
        board.fault(fault);
        int before = wire.all(ReadingLine.class).size();
        ReadingLine reading = wire.await(
                ReadingLine.class,
                line -> wire.all(ReadingLine.class).indexOf(line) >= before
                        && line.channels().get(0).faultBits().equals(OptionalInt.of(bits)));
        assertThat(reading.channels().get(0).thermocouple().isPresent())
                .as("a chip that does not answer has no code")
                .isEqualTo(bits != 64);
    }

    @Test
    void onANoisyBusItSaysWhatCameAndNeverStops() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.with().speed(200).dtrWired().start();
                Wire wire = new Wire(board.pty())) {
            board.temperature(800, 25);
            board.fault(Fault.NOISE);
            wire.await(ReadingLine.class, reading -> reading.uptimeMs() >= 300_000);
            int before = framesBeforeRestart(board);
            List<ReadingLine> readings = wire.all(ReadingLine.class);
            board.awaitFrames(before + readings.size());
            int spoilt = 0;
            for (int i = 0; i < readings.size(); i++) {
                ChannelCodes said = readings.get(i).channels().get(0);
                long word = Long.parseLong(board.chipFrames().get(before + i).bytes(), 16);
                if (said.faultBits().equals(OptionalInt.of(64))) {
                    spoilt++;
                } else {
                    assertThat(said.thermocouple()).hasValue((int) word >> 18);
                    assertThat(said.coldJunction()).hasValue((short) word >> 4);
                }
            }
            assertThat(spoilt).as("frames whose fixed bits were wrong").isBetween(1, readings.size() - 1);
        }
    }

    @Test
    void uptimeGoesThroughItsWrap() throws Exception {
        try (SimulatedBoard board =
                        SimulatedBoard.with().uptimeAboutToWrap().speed(50).start();
                Wire wire = new Wire(board.pty())) {
            ReadingLine after = wire.await(
                    ReadingLine.class, reading -> reading.uptimeMs() > 20_000 && reading.uptimeMs() < 200_000);
            List<ReadingLine> readings = wire.all(ReadingLine.class);
            int last = readings.indexOf(after);
            for (int i = 1; i <= last; i++) {
                long step = (readings.get(i).uptimeMs() - readings.get(i - 1).uptimeMs()) & 0xFFFF_FFFFL;
                assertThat(step).isEqualTo(1000);
            }
            assertThat(readings.get(0).uptimeMs()).isGreaterThan(4_294_900_000L);

            // It began 40 s before the wrap: two minutes later, one of those kept lies before it.
            wire.await(ReadingLine.class, reading -> reading.uptimeMs() > 100_000 && reading.uptimeMs() < 200_000);
            wire.ask("?K -10");
            wire.await(KeptEnd.class, line -> true);
            assertThat(wire.all(KeptLine.class)).extracting(KeptLine::minute).startsWith(-1, 0, 1);
        }
    }

    @Test
    void twoBoardsRunSideBySide() throws Exception {
        try (SimulatedBoard one = SimulatedBoard.with().speed(50).start();
                SimulatedBoard other =
                        SimulatedBoard.with().max31856().speed(50).start();
                Wire first = new Wire(one.pty());
                Wire second = new Wire(other.pty())) {
            one.temperature(100, 20);
            other.temperature(200, 20);
            first.await(
                    ReadingLine.class,
                    line -> line.channels().get(0).thermocouple().equals(OptionalInt.of(400)));
            second.await(
                    ReadingLine.class,
                    line -> line.channels().get(0).thermocouple().equals(OptionalInt.of(25_600)));
            assertThat(one.pty()).isNotEqualTo(other.pty());
        }
    }
}
