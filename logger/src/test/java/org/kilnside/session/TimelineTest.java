package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class TimelineTest {
    private final Timeline timeline = new Timeline(1);

    @Test
    void theRecordingBeginsAtZeroWhateverTheUptime() {
        assertThat(timeline.next(OptionalLong.of(5_000_000), 77)).isEqualTo(Timeline.Step.FIRST);
        assertThat(timeline.elapsedMs()).isZero();
    }

    @Test
    void theControllersClockCountsNotTheHosts() {
        timeline.next(OptionalLong.of(10_000), 0);
        assertThat(timeline.next(OptionalLong.of(11_000), 5_000)).isEqualTo(Timeline.Step.ON);
        assertThat(timeline.elapsedMs()).isEqualTo(1_000);
    }

    @Test
    void theWrapOfUptimeAfterFortyNineDaysGoesOnWhereItWas() {
        timeline.next(OptionalLong.of((1L << 32) - 500), 0);
        assertThat(timeline.next(OptionalLong.of(500), 1_000)).isEqualTo(Timeline.Step.ON);
        assertThat(timeline.elapsedMs()).isEqualTo(1_000);
    }

    @Test
    void anUptimeThatFallsIsARestartAndTheHostsClockBridgesIt() {
        timeline.next(OptionalLong.of(3_600_000), 0);
        assertThat(timeline.next(OptionalLong.of(800), 20_000)).isEqualTo(Timeline.Step.RESTARTED);
        assertThat(timeline.elapsedMs()).isEqualTo(20_000);
        timeline.next(OptionalLong.of(1_800), 21_000);
        assertThat(timeline.elapsedMs()).isEqualTo(21_000);
    }

    @Test
    void withoutUptimeTheHostsClockCounts() {
        timeline.next(OptionalLong.empty(), 100);
        timeline.next(OptionalLong.empty(), 1_100);
        assertThat(timeline.elapsedMs()).isEqualTo(1_000);
    }

    @Test
    void aFasterLinkCountsTheHostsClockFaster() {
        Timeline fast = new Timeline(600);
        fast.next(OptionalLong.empty(), 0);
        fast.next(OptionalLong.empty(), 100);
        assertThat(fast.elapsedMs()).isEqualTo(60_000);
    }

    @Test
    void aPastUptimeIsFoundInTheRecordingAcrossTheWrap() {
        timeline.next(OptionalLong.of((1L << 32) - 60_000), 0);
        timeline.next(OptionalLong.of(60_000), 120_000);
        assertThat(timeline.elapsedAt((1L << 32) - 30_000)).hasValue(30_000);
        assertThat(timeline.elapsedAt((1L << 32) - 90_000)).isEmpty();
    }

    @Test
    void aRecordingGoesOnAfterTheProgramWasAway() {
        timeline.resume(7_200_000, OptionalLong.of(9_000_000), 0);
        assertThat(timeline.next(OptionalLong.of(9_600_000), 600_000)).isEqualTo(Timeline.Step.ON);
        assertThat(timeline.elapsedMs()).isEqualTo(7_800_000);
    }
}
