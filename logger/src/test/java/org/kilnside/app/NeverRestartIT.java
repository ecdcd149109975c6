package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.command.Program;
import org.kilnside.files.PortNotes;
import org.kilnside.testing.SimulatedBoard;

/**
 * The whole program against a board whose DTR is wired to RESET. A pseudo-terminal has no DTR: the board takes every
 * opening as DTR raised, the worst case, so what is shown here is that the program says what its opening did and does
 * not open again. That DTR and RTS are held off where the system allows it, and that closing does not hang up, no
 * pseudo-terminal can show; what follows from the order of openings and uptimes is in {@code ReopeningTest}, against a
 * port made for it.
 */
class NeverRestartIT {
    @TempDir
    private Path folder;

    @Test
    void anOpeningThatRestartsTheControllerIsSaidAndNotRepeated() throws Exception {
        Path port = folder.resolve("ttyKILN");
        try (SimulatedBoard board = SimulatedBoard.with().dtrWired().link(port).start();
                Recording recording = new Recording(folder)) {
            board.temperature(21, 21);
            board.awaitFrames(3);
            recording.from(port.toString());
            recording.awaitReadings(2);
            recording.await("the sentence", () -> recording.said().contains("restarted the controller"));
            assertThat(board.restarts("dtr")).isEqualTo(1);
            long openings = board.openings();
            board.unplug();
            board.plug();

            assertThat(recording.awaitEnd()).isNotZero();
            // Long enough for the reopenings that must not come: the first would come after half a second.
            TimeUnit.SECONDS.sleep(3);
            assertThat(board.openings()).isEqualTo(openings);
            assertThat(board.restarts("dtr")).isEqualTo(1);
            assertThat(recording.said())
                    .contains("Opening " + port + " restarted the controller")
                    .contains("will not open it again by itself")
                    .contains("PORTING.md");
            assertThat(remembered(port)).isEqualTo(PortNotes.Opening.RESTARTS);
        }
    }

    @Test
    void theTrialWithAColdKilnFindsOutAndRemembers() {
        Path port = folder.resolve("ttyKILN");
        try (SimulatedBoard board = SimulatedBoard.with().dtrWired().link(port).start()) {
            board.temperature(21, 21);
            Program.Run run = tryOpening(port);
            assertThat(run.exit()).as(run.err()).isZero();
            assertThat(run.out()).contains("restarts the controller").contains("PORTING.md");
            assertThat(remembered(port)).isEqualTo(PortNotes.Opening.RESTARTS);
            assertThat(board.restarts("dtr")).isEqualTo(2);
        }
    }

    @Test
    void theTrialOfABoardThatIsNotWiredSoFindsThatItGoesOn() {
        Path port = folder.resolve("ttyKILN");
        try (SimulatedBoard board = SimulatedBoard.with().link(port).start()) {
            board.temperature(21, 21);
            Program.Run run = tryOpening(port);
            assertThat(run.exit()).as(run.err()).isZero();
            assertThat(run.out()).contains("leaves the controller running");
            assertThat(remembered(port)).isEqualTo(PortNotes.Opening.GOES_ON);
            assertThat(board.openings()).isEqualTo(2);
        }
    }

    @Test
    void theTrialOfAHotKilnIsBrokenOff() {
        Path port = folder.resolve("ttyKILN");
        try (SimulatedBoard board = SimulatedBoard.with().link(port).start()) {
            board.temperature(843, 30);
            board.awaitFrames(3);
            tryOpening(port).isRefusedWith("would end its firing", "50");
            assertThat(board.openings()).isEqualTo(1);
        }
    }

    private Program.Run tryOpening(Path port) {
        return Program.run(
                Map.of("XDG_CONFIG_HOME", folder.resolve("settings").toString()),
                List.of(),
                "ports",
                port.toString(),
                "--try-opening",
                "--language",
                "en");
    }

    private PortNotes.Opening remembered(Path port) {
        return PortNotes.in(folder.resolve("settings").resolve("kilnside"))
                .of(port.toString())
                .orElseThrow()
                .opening();
    }
}
