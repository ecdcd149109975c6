package org.kilnside.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.RandomAccessFile;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.protocol.ReadingLine;
import org.kilnside.testing.SimulatedBoard;

/** What a cable does to a board: DTR on its RESET, and being pulled out. */
class CableIT {
    @TempDir
    Path folder;

    @Test
    void openingThePortRestartsABoardWithDtrWiredToResetAndNoOther() throws Exception {
        try (SimulatedBoard wired = SimulatedBoard.with().speed(20).dtrWired().start();
                SimulatedBoard sound = SimulatedBoard.with().speed(20).start()) {
            for (int opening = 1; opening <= 3; opening++) {
                for (SimulatedBoard board : List.of(wired, sound)) {
                    try (Wire wire = new Wire(board.pty())) {
                        wire.await(ReadingLine.class, reading -> true);
                    }
                    long closings = opening;
                    board.awaitLog(
                            "so many closings",
                            line -> board.log().stream()
                                            .filter(said -> said.startsWith("CLOSED "))
                                            .count()
                                    >= closings);
                }
                assertThat(wired.restarts("dtr")).isEqualTo(opening);
            }
            assertThat(sound.openings()).isEqualTo(3);
            assertThat(sound.restarts("dtr")).isZero();
        }
    }

    @Test
    void theShortestOpeningCounts() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.with().dtrWired().start()) {
            for (int opening = 1; opening <= 20; opening++) {
                new RandomAccessFile(board.pty().toFile(), "rw").close();
                long restarts = opening;
                board.awaitLog("so many restarts", line -> board.restarts("dtr") >= restarts);
            }
            assertThat(board.openings()).isEqualTo(20);
            assertThat(board.restarts("dtr")).isEqualTo(20);
        }
    }

    @Test
    void aReaderSeesThePortVanishWhenTheCableIsPulled() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.with()
                        .speed(20)
                        .link(folder.resolve("kiln"))
                        .start();
                Wire wire = new Wire(board.pty())) {
            wire.await(ReadingLine.class, reading -> true);
            board.unplug();
            wire.awaitEnd();
            assertThat(folder.resolve("kiln")).doesNotExist();
            board.plug();
            try (Wire again = new Wire(board.pty())) {
                again.await(ReadingLine.class, reading -> true);
            }
            assertThat(board.restarts("dtr")).isZero();
        }
    }
}
