package org.kilnside.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.KeptEnd;
import org.kilnside.protocol.KeptLine;
import org.kilnside.protocol.ReadingLine;
import org.kilnside.testing.SimulatedBoard;
import org.kilnside.testing.SimulatedBoard.ChipFrame;

class KeptReadingsIT {
    @TempDir
    Path folder;

    @Test
    void threeHoursWithTheCableOutAreThereMinuteByMinuteToTheCode() throws Exception {
        try (SimulatedBoard board =
                SimulatedBoard.with().speed(0).link(folder.resolve("kiln")).start()) {
            board.temperature(20, 5);
            board.temperatureOver(980, Duration.ofHours(4));
            board.coldJunctionOver(40, Duration.ofHours(4));
            board.awaitFrames(600);
            board.unplug();
            int gone = board.chipFrames().size();
            board.awaitFrames(gone + 3 * 3600);
            board.speed(20);
            board.plug();
            try (Wire wire = new Wire(board.pty())) {
                ReadingLine first = wire.await(ReadingLine.class, reading -> true);
                int from = gone / 60;
                wire.ask("?K " + from);
                KeptEnd end = wire.await(KeptEnd.class, line -> true);
                List<KeptLine> kept = wire.all(KeptLine.class);
                assertThat(end.fromMinute()).isEqualTo(from);
                assertThat(end.sent()).isEqualTo(kept.size());
                assertThat(kept).extracting(KeptLine::minutesCovered).containsOnly(1);
                assertThat(kept.get(0).minute()).isEqualTo(from);
                assertThat(kept.size()).isGreaterThanOrEqualTo(180);
                assertThat(kept.get(kept.size() - 1).minute()).as("up to now").isGreaterThanOrEqualTo((int)
                        (first.uptimeMs() / 60_000));
                for (int i = 0; i < kept.size(); i++) {
                    assertThat(kept.get(i).minute()).isEqualTo(from + i);
                    isWhatTheChipAnswered(board, kept.get(i));
                }
                assertThat(wire.lost()).isZero();
            }
        }
    }

    /** Readings are taken when a minute begins: frame 60 m is the one of minute m, because the first came at 1 s. */
    private static void isWhatTheChipAnswered(SimulatedBoard board, KeptLine kept) {
        ChipFrame frame = board.chipFrames().get(kept.minute() == 0 ? 0 : 60 * kept.minute() - 1);
        ChannelCodes codes = kept.channels().get(0);
        assertThat(codes.thermocouple()).hasValue(frame.thermocouple());
        // The cold junction is kept to 1/8 °C, half its resolution.
        assertThat(codes.coldJunction().getAsInt() - frame.coldJunction()).isBetween(-1, 1);
    }

    /** Both on one board: its eight hours are simulated once. */
    @Test
    void afterSixHoursMinutesBecomeQuarterHoursAndReadingsDoNotWaitWhileAllAreSent() throws Exception {
        try (SimulatedBoard board =
                SimulatedBoard.with().speed(0).link(folder.resolve("kiln")).start()) {
            board.temperature(20, 5);
            board.temperatureOver(1100, Duration.ofHours(9));
            board.unplug();
            board.awaitFrames(8 * 3600);
            board.speed(20);
            board.plug();
            try (Wire wire = new Wire(board.pty())) {
                wire.await(ReadingLine.class, reading -> true);
                wire.ask("?K -10080");
                KeptEnd end = wire.await(KeptEnd.class, line -> true);
                List<KeptLine> kept = wire.all(KeptLine.class);
                assertThat(end.sent()).isEqualTo(kept.size());
                List<KeptLine> minutes = kept.subList(kept.size() - 360, kept.size());
                List<KeptLine> quarters = kept.subList(0, kept.size() - 360);
                assertThat(minutes).extracting(KeptLine::minutesCovered).containsOnly(1);
                assertThat(quarters).hasSizeBetween(8, 9);
                int minute = 0;
                for (KeptLine line : quarters) {
                    assertThat(line.minute()).isEqualTo(minute);
                    minute += line.minutesCovered();
                }
                assertThat(minute).as("no hole").isEqualTo(minutes.get(0).minute());
                kept.forEach(line -> isWhatTheChipAnswered(board, line));
            }
            board.unplug();
            board.speed(5);
            board.plug();
            try (Wire wire = new Wire(board.pty())) {
                readingsDoNotWaitWhileKeptOnesAreSent(wire);
            }
        }
    }

    private static void readingsDoNotWaitWhileKeptOnesAreSent(Wire wire) throws Exception {
        wire.await(ReadingLine.class, reading -> true);
        wire.ask("?K 0");
        KeptEnd end = wire.await(KeptEnd.class, line -> true);
        assertThat(end.sent()).isGreaterThanOrEqualTo(360);
        wire.await(ReadingLine.class, reading -> reading.uptimeMs() > end.uptimeMs());
        List<ReadingLine> readings = wire.all(ReadingLine.class);
        for (int i = 1; i < readings.size(); i++) {
            assertThat(readings.get(i).uptimeMs() - readings.get(i - 1).uptimeMs())
                    .isBetween(995L, 1010L);
        }
    }

    /** A day and two hours: some 40 s of computing, so among the long soaks. */
    @Test
    @EnabledIfSystemProperty(named = "kilnside.long", matches = "true")
    void aWholeDayIsKeptAndNoMore() throws Exception {
        try (SimulatedBoard board =
                SimulatedBoard.with().speed(0).link(folder.resolve("kiln")).start()) {
            board.temperature(20, 5);
            board.temperatureOver(1200, Duration.ofHours(26));
            board.unplug();
            board.awaitFrames(26 * 3600, Duration.ofMinutes(5));
            board.speed(20);
            board.plug();
            try (Wire wire = new Wire(board.pty())) {
                wire.await(ReadingLine.class, reading -> true);
                wire.ask("?K -10080");
                wire.await(KeptEnd.class, line -> true);
                List<KeptLine> kept = wire.all(KeptLine.class);
                int reach = kept.get(kept.size() - 1).minute() - kept.get(0).minute() + 1;
                assertThat(reach).isBetween(1440, 1455);
                assertThat(kept).hasSizeBetween(360 + 72, 360 + 73);
                kept.forEach(line -> isWhatTheChipAnswered(board, line));
            }
        }
    }

    @Test
    void aPressOfResetLosesNothingAndCountsBackwards() throws Exception {
        try (SimulatedBoard board =
                SimulatedBoard.with().speed(0).link(folder.resolve("kiln")).start()) {
            board.temperatureOver(700, Duration.ofMinutes(40));
            board.unplug();
            board.awaitFrames(30 * 60 + 10);
            board.speed(20);
            board.reset();
            board.plug();
            try (Wire wire = new Wire(board.pty())) {
                wire.await(ReadingLine.class, reading -> true);
                wire.ask("?H");
                Hello hello = wire.await(Hello.class, line -> true);
                assertThat(hello.resetCauseBits()).hasValue(2);
                assertThat(hello.keptMinutes().getAsInt()).isGreaterThanOrEqualTo(31);
                wire.ask("?K -1440");
                KeptEnd end = wire.await(KeptEnd.class, line -> true);
                List<KeptLine> kept = wire.all(KeptLine.class);
                assertThat(end.sent()).isEqualTo(kept.size()).isGreaterThanOrEqualTo(31);
                List<KeptLine> before =
                        kept.stream().filter(line -> line.minute() < 0).toList();
                assertThat(before.get(before.size() - 1).minute())
                        .as("the minute before boot")
                        .isEqualTo(-1);
                for (KeptLine line : before) {
                    int minuteOfThatBoot = before.size() + line.minute();
                    ChipFrame frame = board.chipFrames().get(minuteOfThatBoot == 0 ? 0 : 60 * minuteOfThatBoot - 1);
                    assertThat(line.channels().get(0).thermocouple()).hasValue(frame.thermocouple());
                }
            }
        }
    }

    @Test
    void withThePowerGoneTheyAreGoneAndItSaysSo() throws Exception {
        try (SimulatedBoard board =
                SimulatedBoard.with().speed(0).link(folder.resolve("kiln")).start()) {
            board.unplug();
            board.awaitFrames(10 * 60);
            board.speed(20);
            board.cyclePower();
            board.plug();
            try (Wire wire = new Wire(board.pty())) {
                wire.await(ReadingLine.class, reading -> true);
                wire.ask("?K -1440");
                assertThat(wire.await(KeptEnd.class, line -> true).sent()).isZero();
                wire.ask("?H");
                Hello hello = wire.await(Hello.class, line -> true);
                assertThat(hello.keptMinutes()).hasValue(0);
                assertThat(hello.resetCauseBits()).hasValue(1);
            }
        }
    }

    @Test
    void aProgramThatStandsStillIsRestartedByItsWatchdogAndKeepsItsReadings() throws Exception {
        try (SimulatedBoard board =
                SimulatedBoard.with().speed(0).link(folder.resolve("kiln")).start()) {
            board.temperature(700, 30);
            board.unplug();
            board.awaitFrames(10 * 60 + 5);
            board.stall();
            board.awaitLog("a restart by the watchdog", line -> line.endsWith(" watchdog"));
            board.speed(20);
            board.plug();
            try (Wire wire = new Wire(board.pty())) {
                wire.await(ReadingLine.class, reading -> true);
                wire.ask("?H");
                Hello hello = wire.await(Hello.class, line -> true);
                assertThat(hello.resetCauseBits()).hasValue(8);
                assertThat(hello.keptMinutes().getAsInt()).isGreaterThanOrEqualTo(11);
            }
        }
    }
}
