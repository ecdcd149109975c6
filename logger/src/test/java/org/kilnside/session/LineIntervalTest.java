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
        assertThat(interval.three(10_000)).isEqualTo(15_000);
    }

    @Test
    void oneGapDoesNotChangeWhatIsSeen() {
        for (long step : new long[] {1_000, 1_010, 3_600_000, 990, 1_000}) {
            interval.seen(step);
        }
        assertThat(interval.ms()).hasValue(1_000);
        assertThat(interval.three(10_000)).isEqualTo(10_000);
    }

    @Test
    void twoStepsAreEnoughAndTheShorterCounts() {
        interval.seen(60_000);
        assertThat(interval.ms()).isEmpty();
        interval.seen(7_200_000);
        assertThat(interval.ms()).hasValue(60_000);
    }

    @Test
    void untilItIsKnownALineAMinuteIsUsual() {
        assertThat(interval.three(10_000)).isEqualTo(180_000);
    }
}
