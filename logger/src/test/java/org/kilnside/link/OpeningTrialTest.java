package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.files.PortNotes;
import org.kilnside.files.PortNotes.Opening;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.link.OpeningTrial.Answer;
import org.kilnside.link.OpeningTrial.Outcome;

/** The trial with a cold kiln, against a port that shows what DTR does, on a clock moved by hand. */
class OpeningTrialTest {
    private static final long HOUR = 3_600_000;

    private final HandMovedClock clock = new HandMovedClock();
    private final Lines lines = new Lines();
    private final ScriptedPort port = new ScriptedPort(clock);

    @TempDir
    private Path settings;

    private Answer tried() throws InterruptedException {
        LinkSurroundings around = new LinkSurroundings(clock, clock, ProfileLibrary.of(settings), false);
        port.afterTheLastStep = () -> clock.advance(1_000);
        return new OpeningTrial(port, around, ProtocolLines.saying(around.words())).run(OpeningTrial.PATIENCE);
    }

    @Test
    void aControllerWhoseUptimeGoesOnMayBeOpenedAgain() throws InterruptedException {
        port.says(lines.hello(HOUR))
                .silentFor(5_500)
                .says(lines.reading(HOUR + 5_500, 21))
                .silentFor(500)
                .silentFor(500)
                .says(lines.reading(HOUR + 9_500, 21))
                .silentFor(6_000);

        Answer answer = tried();
        assertThat(answer.outcome()).isEqualTo(Outcome.GOES_ON);
        assertThat(answer.beforeMs()).hasValue(HOUR + 5_500);
        assertThat(answer.afterMs()).hasValue(HOUR + 9_500);
        assertThat(port.openedAtMs).hasSize(2);
        assertThat(port.isOpen()).isFalse();
        assertThat(PortNotes.in(settings).of("/dev/ttyTEST").orElseThrow().opening())
                .isEqualTo(Opening.GOES_ON);
    }

    @Test
    void anUptimeThatFellAfterTheSecondOpeningIsRemembered() throws InterruptedException {
        port.says(lines.hello(HOUR))
                .says(lines.reading(HOUR + 500, 21))
                .silentFor(6_000)
                .silentFor(2_000)
                .says(lines.restart().hello(5))
                .says(lines.reading(1_005, 21))
                .silentFor(6_000);

        assertThat(tried().outcome()).isEqualTo(Outcome.RESTARTS);
        assertThat(PortNotes.in(settings).of("/dev/ttyTEST").orElseThrow().opening())
                .isEqualTo(Opening.RESTARTS);
    }

    @Test
    void aBoardThatTheFirstOpeningRestartedIsFoundOutByItsResetPin() throws InterruptedException {
        port.silentFor(1_800)
                .says(lines.hello(4, 1000, OptionalInt.of(2)))
                .says(lines.reading(1_004, 20))
                .silentFor(5_000)
                // The lines stayed up on closing: the second opening makes no step.
                .says(lines.reading(9_000, 20))
                .silentFor(6_000);

        assertThat(tried().outcome()).isEqualTo(Outcome.RESTARTS);
    }

    @Test
    void aWarmKilnIsNotOpenedASecondTime() throws InterruptedException {
        port.says(lines.hello(HOUR)).says(lines.reading(HOUR + 500, 843)).silentFor(6_000);

        Answer answer = tried();
        assertThat(answer.outcome()).isEqualTo(Outcome.NOT_COLD);
        assertThat(answer.temperature().orElseThrow().celsius()).isEqualTo(843);
        assertThat(port.openedAtMs).hasSize(1);
        assertThat(PortNotes.in(settings).of("/dev/ttyTEST")).isEmpty();
    }

    @Test
    void withoutATemperatureNobodyKnowsThatTheKilnIsCold() throws InterruptedException {
        port.says(lines.hello(HOUR)).silentFor(80_000);

        assertThat(tried().outcome()).isEqualTo(Outcome.NO_TEMPERATURE);
        assertThat(port.openedAtMs).hasSize(1);
    }

    @Test
    void aSilentPortTellsNothing() throws InterruptedException {
        port.silentFor(80_000);

        assertThat(tried().outcome()).isEqualTo(Outcome.SILENT);
    }

    @Test
    void aPortThatCannotBeOpenedSaysWhy() throws InterruptedException {
        port.refusesToOpen(LinkTroubleException.passing("There is no port /dev/ttyTEST."));

        Answer answer = tried();
        assertThat(answer.outcome()).isEqualTo(Outcome.NOT_OPENED);
        assertThat(answer.trouble()).hasValue("There is no port /dev/ttyTEST.");
    }
}
