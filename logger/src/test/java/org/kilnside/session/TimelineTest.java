package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class TimelineTest {
    private static final Instant EVENING = Instant.parse("2026-11-25T18:00:00Z");

    private final Timeline timeline = new Timeline(1);

    private static Timeline.Stamp at(OptionalLong uptimeMs, long hostMs) {
        return new Timeline.Stamp(uptimeMs, OptionalInt.empty(), hostMs, EVENING.plusMillis(hostMs));
    }

    @Test
    void theRecordingBeginsAtZeroWhateverTheUptime() {
        assertThat(timeline.next(at(OptionalLong.of(5_000_000), 77))).isEqualTo(Timeline.Step.FIRST);
        assertThat(timeline.elapsedMs()).isZero();
    }

    @Test
    void theControllersClockCountsNotTheHosts() {
        timeline.next(at(OptionalLong.of(10_000), 0));
        assertThat(timeline.next(at(OptionalLong.of(11_000), 5_000))).isEqualTo(Timeline.Step.ON);
        assertThat(timeline.elapsedMs()).isEqualTo(1_000);
    }

    @Test
    void theWrapOfUptimeAfterFortyNineDaysGoesOnWhereItWas() {
        timeline.next(at(OptionalLong.of((1L << 32) - 500), 0));
        assertThat(timeline.next(at(OptionalLong.of(500), 1_000))).isEqualTo(Timeline.Step.ON);
        assertThat(timeline.elapsedMs()).isEqualTo(1_000);
    }

    /** PROTOCOL.md, section 5: a wrap's difference matches the time passed; all else is a restart. */
    @Test
    void aRestartOnTheLastDayBeforeTheWrapIsNoWrap() {
        timeline.next(at(OptionalLong.of((1L << 32) - 6 * 3_600_000L), 0));
        assertThat(timeline.next(at(OptionalLong.of(3_000), 10_000))).isEqualTo(Timeline.Step.RESTARTED);
        assertThat(timeline.elapsedMs()).isEqualTo(10_000);
    }

    @Test
    void aWrapDuringAGapOfHoursIsAWrapThoughTheResonatorIsOff() {
        timeline.next(at(OptionalLong.of((1L << 32) - 3_600_000), 0));
        assertThat(timeline.next(at(OptionalLong.of(9 * 3_600_000L), 10 * 3_600_000L + 150_000)))
                .isEqualTo(Timeline.Step.ON);
        assertThat(timeline.elapsedMs()).isEqualTo(10 * 3_600_000L);
    }

    @Test
    void anUptimeThatFallsIsARestartAndTheHostsClockBridgesIt() {
        timeline.next(at(OptionalLong.of(3_600_000), 0));
        assertThat(timeline.next(at(OptionalLong.of(800), 20_000))).isEqualTo(Timeline.Step.RESTARTED);
        assertThat(timeline.elapsedMs()).isEqualTo(20_000);
        timeline.next(at(OptionalLong.of(1_800), 21_000));
        assertThat(timeline.elapsedMs()).isEqualTo(21_000);
    }

    @Test
    void withoutUptimeTheHostsClockCounts() {
        timeline.next(at(OptionalLong.empty(), 100));
        timeline.next(at(OptionalLong.empty(), 1_100));
        assertThat(timeline.elapsedMs()).isEqualTo(1_000);
    }

    @Test
    void aFasterLinkCountsTheHostsClockFaster() {
        Timeline fast = new Timeline(600);
        fast.next(at(OptionalLong.empty(), 0));
        fast.next(at(OptionalLong.empty(), 100));
        assertThat(fast.elapsedMs()).isEqualTo(60_000);
    }

    @Test
    void aPastUptimeIsFoundInTheRecordingAcrossTheWrap() {
        timeline.next(at(OptionalLong.of((1L << 32) - 60_000), 0));
        timeline.next(at(OptionalLong.of(60_000), 120_000));
        assertThat(timeline.elapsedAt((1L << 32) - 30_000)).hasValue(30_000);
        assertThat(timeline.elapsedAt((1L << 32) - 90_000)).isEmpty();
    }

    @Test
    void aRecordingGoesOnAfterTheProgramWasAway() {
        timeline.resume(7_200_000, at(OptionalLong.of(9_000_000), 0));
        assertThat(timeline.next(at(OptionalLong.of(9_600_000), 600_000))).isEqualTo(Timeline.Step.ON);
        assertThat(timeline.elapsedMs()).isEqualTo(7_800_000);
    }

    @Test
    void aControllerThatRestartedInAGapIsFoundEvenWhenItsUptimeHasClimbedPastTheOldOne() {
        timeline.next(at(OptionalLong.of(3_600_000), 0));
        assertThat(timeline.next(at(OptionalLong.of(7_200_000), 3 * 3_600_000L)))
                .isEqualTo(Timeline.Step.RESTARTED);
        assertThat(timeline.elapsedMs()).isEqualTo(3 * 3_600_000L);
    }

    @Test
    void aLineThatWaitedInABufferWhileTheProgramWasSuspendedIsNoRestart() {
        timeline.next(new Timeline.Stamp(OptionalLong.of(600_000), OptionalInt.of(65_535), 0, EVENING));
        Timeline.Stamp late =
                new Timeline.Stamp(OptionalLong.of(601_000), OptionalInt.of(0), 1_200_000, EVENING.plusSeconds(1_200));
        assertThat(timeline.next(late)).isEqualTo(Timeline.Step.ON);
        assertThat(timeline.elapsedMs()).isEqualTo(1_000);
    }

    @Test
    void whileTheComputerSleptTheWallClockCountsForAControllerWithoutUptime() {
        timeline.next(new Timeline.Stamp(OptionalLong.empty(), OptionalInt.empty(), 0, EVENING));
        timeline.next(new Timeline.Stamp(OptionalLong.empty(), OptionalInt.empty(), 2_000, EVENING.plusSeconds(7_200)));
        assertThat(timeline.elapsedMs()).isEqualTo(7_200_000);
    }

    @Test
    void aWallClockThatIsSetBackDoesNotSetTheRecordingBack() {
        timeline.next(new Timeline.Stamp(OptionalLong.empty(), OptionalInt.empty(), 0, EVENING));
        timeline.next(
                new Timeline.Stamp(OptionalLong.empty(), OptionalInt.empty(), 1_000, EVENING.minusSeconds(3_600)));
        assertThat(timeline.elapsedMs()).isEqualTo(1_000);
    }

    @Test
    void theControllersUptimeIsBelievedOverAJumpOfTheWallClock() {
        timeline.next(at(OptionalLong.of(600_000), 0));
        timeline.next(
                new Timeline.Stamp(OptionalLong.of(601_000), OptionalInt.empty(), 1_000, EVENING.plusSeconds(3_601)));
        assertThat(timeline.elapsedMs()).isEqualTo(1_000);
    }
}
