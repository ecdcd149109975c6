package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class UptimeTest {
    private static final long WRAP_MS = 1L << 32;
    private static final long DAY_MS = 86_400_000;

    private final Uptime uptime = new Uptime();

    @Test
    void aFallIsARestart() {
        assertThat(uptime.restarted(5_000_000, 0)).isFalse();
        assertThat(uptime.restarted(5_001_000, 1_000)).isFalse();
        assertThat(uptime.restarted(120, 3_000)).isTrue();
        assertThat(uptime.sinceStartMs()).isEqualTo(120);
        assertThat(uptime.restarted(1_120, 4_000)).isFalse();
    }

    @Test
    void theWrapAfterFortyNineDaysIsBridged() {
        uptime.restarted(WRAP_MS - 600, 10_000);
        assertThat(uptime.restarted(400, 11_000)).isFalse();
        assertThat(uptime.sinceStartMs()).isEqualTo(WRAP_MS + 400);
    }

    @Test
    void theWrapIsBridgedAcrossAGapOfHoursWithADriftingResonator() {
        uptime.restarted(WRAP_MS - 3_600_000, 0);
        assertThat(uptime.restarted(7_200_000 - 40_000, 10_800_000)).isFalse();
        assertThat(uptime.sinceStartMs()).isEqualTo(WRAP_MS + 7_160_000);
    }

    @Test
    void aRestartOnTheLastDayBeforeTheWrapIsNoWrap() {
        uptime.restarted(WRAP_MS - DAY_MS / 2, 0);
        assertThat(uptime.restarted(2_000, 5_000)).isTrue();
    }

    @Test
    void aFallFromLongBeforeTheWrapIsNoWrapEvenWhenTheTimesAgree() {
        uptime.restarted(WRAP_MS - 2 * DAY_MS, 0);
        assertThat(uptime.restarted(1_000, 2 * DAY_MS + 1_000)).isTrue();
    }

    @Test
    void aControllerThatHasRunForLessTimeThanWasMissedRestartedThoughItsUptimeRose() {
        uptime.restarted(3_600_000, 0);
        assertThat(uptime.restarted(7_200_000, 3 * 3_600_000L)).isTrue();
        assertThat(uptime.restarted(7_201_000, 3 * 3_600_000L + 1_000)).isFalse();
    }

    @Test
    void aLineThatWaitedInABufferFollowsOn() {
        uptime.restarted(600_000, 0);
        assertThat(uptime.restarted(601_000, true, 1_200_000)).isFalse();
    }
}
