package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class LineIntervalTest {
    private final LineInterval interval = new LineInterval();

    @Test
    void whatTheControllerSaysHolds() {
        interval.seen(1_000);
        interval.seen(1_000);
        interval.said(5_000);
        assertThat(interval.ms()).hasValue(5_000);
        assertThat(interval.gapAfterMs(10_000)).isEqualTo(15_000);
    }

    @Test
    void oneGapDoesNotChangeWhatIsSeen() {
        for (long step : new long[] {1_000, 1_010, 3_600_000, 990, 1_000}) {
            interval.seen(step);
        }
        assertThat(interval.ms()).hasValue(1_000);
        assertThat(interval.gapAfterMs(10_000)).isEqualTo(10_000);
    }

    @Test
    void twoStepsAreEnoughAndTheShorterCounts() {
        interval.seen(60_000);
        assertThat(interval.ms()).isEmpty();
        interval.seen(7_200_000);
        assertThat(interval.ms()).hasValue(60_000);
    }

    @Test
    void untilItIsKnownALineEachTenMinutesIsNoGap() {
        assertThat(interval.awaitedMs()).isEmpty();
        assertThat(interval.gapAfterMs(10_000)).isEqualTo(660_000);
        interval.seen(600_000);
        assertThat(interval.awaitedMs()).isEmpty();
        assertThat(interval.gapAfterMs(10_000)).isEqualTo(660_000);
    }

    @Test
    void ofTheFirstFewStepsTheLongestIsAwaitedButNoGapIsTakenForOne() {
        interval.seen(1_000);
        interval.seen(300_000);
        assertThat(interval.awaitedMs()).hasValue(300_000);
        assertThat(interval.staleAfterMs(1)).isEqualTo(10_000);
        interval.seen(7_200_000);
        assertThat(interval.awaitedMs()).hasValue(600_000);
        interval.seen(300_000);
        interval.seen(300_000);
        assertThat(interval.awaitedMs()).hasValue(300_000);
    }
}
