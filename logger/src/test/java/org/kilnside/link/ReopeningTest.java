package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.files.PortNotes;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.session.Connection.State;

/**
 * A port that shows what DTR does, which a pseudo-terminal cannot: it has no such line. What happens on the board when
 * the line is pulled is tested with the simulated board.
 */
class ReopeningTest {
    private static final long HOURS = 3_600_000;

    private final HandMovedClock clock = new HandMovedClock();
    private final Heard heard = new Heard();
    private final Lines lines = new Lines();
    private final ScriptedPort port = new ScriptedPort(clock);

    @TempDir
    private Path settings;

    private void run() {
        LinkSurroundings around = new LinkSurroundings(clock, clock, ProfileLibrary.of(settings), false);
        LinkReader link = new LinkReader("serial:/dev/ttyTEST", port, around, ProtocolLines.saying(around.words()));
        port.afterTheLastStep = link::close;
        link.run(heard);
    }

    @Test
    void aRestartThatFollowsAReopeningIsTheLastReopening() {
        port.says(lines.hello(5 * HOURS))
                .says(lines.reading(5 * HOURS + 1_000, 800))
                .ends()
                // The port is opened, DTR pulls RESET, the boot loader waits two seconds.
                .silentFor(2_000)
                .says(lines.restart().hello(5, 1000, OptionalInt.of(2)))
                .silentFor(1_000)
                .says(lines.reading(1_005, 799))
                .then(() -> assertThat(heard.last().detail())
                        .hasValueSatisfying(text -> assertThat(text)
                                .contains("Opening /dev/ttyTEST restarted the controller")
                                .contains("PORTING.md")))
                .ends();
        run();

        assertThat(port.openedAtMs).as("once, and once again").hasSize(2);
        assertThat(heard.last().state()).isEqualTo(State.GIVEN_UP);
        assertThat(heard.last().detail().orElseThrow())
                .contains("will not open it again by itself")
                .contains("PORTING.md");
    }

    @Test
    void theReadingsOfTheRestartedControllerAreStillTaken() {
        port.says(lines.hello(5 * HOURS))
                .ends()
                .silentFor(100)
                .says(lines.restart().hello(5))
                .says(lines.reading(1_005, 799))
                .says(lines.reading(2_005, 798));
        run();

        assertThat(heard.arrivals).hasSize(2);
    }

    @Test
    void aControllerThatWentOnRunningMayBeOpenedAgainAndAgain() {
        port.says(lines.hello(5 * HOURS))
                .ends()
                .silentFor(500)
                .says(lines.reading(5 * HOURS + 1_000, 800))
                .ends()
                .silentFor(500)
                .says(lines.reading(5 * HOURS + 2_500, 801));
        run();

        assertThat(port.openedAtMs).hasSize(3);
        assertThat(heard.last().state()).isEqualTo(State.CLOSED);
        assertThat(heard.last().detail()).isEmpty();
    }

    @Test
    void aControllerThatWasWithoutPowerWhileItsCableWasOutIsNotHeldAgainstTheOpening() {
        port.says(lines.hello(5 * HOURS))
                .ends()
                .silentFor(100)
                // It has been running for 40 s when the port is opened.
                .says(lines.restart().hello(40_000))
                .ends()
                .silentFor(100)
                .says(lines.reading(42_000, 100));
        run();

        assertThat(port.openedAtMs).hasSize(3);
        assertThat(heard.last().detail()).isEmpty();
    }

    @Test
    void aRestartLongAfterTheOpeningIsNotHeldAgainstIt() {
        port.says(lines.hello(5 * HOURS))
                .ends()
                .says(lines.reading(5 * HOURS + 1_000, 800))
                .silentFor(60_000)
                .says(lines.restart().hello(5, 1000, OptionalInt.of(8)))
                .ends()
                .says(lines.reading(2_000, 790));
        run();

        assertThat(port.openedAtMs).hasSize(3);
    }

    @Test
    void theWrapOfTheUptimeIsNoRestart() {
        long wrap = 1L << 32;
        port.says(lines.hello(wrap - 700))
                .ends()
                .silentFor(500)
                .says(lines.reading(300, 800))
                .ends();
        run();

        assertThat(port.openedAtMs).hasSize(3);
        assertThat(heard.last().state()).isEqualTo(State.CLOSED);
    }

    @Test
    void aFirstOpeningThatPulledTheResetPinIsTheLastByItself() {
        port.silentFor(1_800)
                .says(lines.hello(4, 1000, OptionalInt.of(2)))
                .says(lines.reading(1_004, 20))
                .ends();
        run();

        assertThat(port.openedAtMs).hasSize(1);
        assertThat(heard.last().state()).isEqualTo(State.GIVEN_UP);
    }

    @Test
    void aControllerSwitchedOnJustAfterTheFirstOpeningIsNoneOfItsDoing() {
        port.silentFor(1_800)
                .says(lines.hello(4, 1000, OptionalInt.of(1)))
                .ends()
                .says(lines.reading(2_004, 20));
        run();

        assertThat(port.openedAtMs).hasSize(2);
    }

    @Test
    void aRestartThatFollowedAnOpeningIsRememberedForThePort() {
        port.silentFor(1_800)
                .says(lines.hello(4, 1000, OptionalInt.of(2)))
                .says(lines.reading(1_004, 20))
                .ends();
        run();

        assertThat(PortNotes.in(settings).of("/dev/ttyTEST"))
                .hasValueSatisfying(note -> assertThat(note.opening()).isEqualTo(PortNotes.Opening.RESTARTS));
    }

    @Test
    void aPortRememberedToRestartItsControllerIsOpenedWhenAskedAndNeverByItself() {
        remember();
        // The lines stayed up, so this opening made no step and restarted nothing.
        port.says(lines.hello(5 * HOURS))
                .says(lines.reading(5 * HOURS + 1_000, 800))
                .ends();
        run();

        assertThat(port.openedAtMs).hasSize(1);
        assertThat(heard.arrivals).hasSize(1);
        assertThat(heard.last().state()).isEqualTo(State.GIVEN_UP);
        assertThat(heard.last().detail().orElseThrow())
                .contains("The connection to /dev/ttyTEST is gone")
                .contains("Opening /dev/ttyTEST is known to restart the controller (seen 2026-11-20)")
                .contains("PORTING.md");
    }

    @Test
    void aRecorderThatWaitsForARememberedPortStillOpensItOnce() {
        remember();
        port.refusesToOpen(LinkTroubleException.passing("There is no port."))
                .says(lines.hello(5 * HOURS))
                .says(lines.reading(5 * HOURS + 1_000, 800))
                .ends();
        LinkSurroundings around = new LinkSurroundings(clock, clock, ProfileLibrary.of(settings), true);
        LinkReader link = new LinkReader("serial:/dev/ttyTEST", port, around, ProtocolLines.saying(around.words()));
        port.afterTheLastStep = link::close;
        link.run(heard);

        assertThat(heard.arrivals).hasSize(1);
        assertThat(heard.last().state()).isEqualTo(State.GIVEN_UP);
    }

    private void remember() {
        PortNotes.in(settings)
                .remember("/dev/ttyTEST", new PortNotes.Note(PortNotes.Opening.RESTARTS, LocalDate.of(2026, 11, 20)));
    }
}
