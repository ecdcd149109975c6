package org.kilnside.firing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.WallClockLine.Tie;

class WallClockLineTest {
    private static final Instant EVENING = Instant.parse("2026-11-25T18:00:00Z");
    private static final long TEN_MINUTES_MS = 600_000;

    /** A day and a half, read every ten minutes of a controller whose clock runs half a percent slow. */
    private static List<Tie> slowByHalfAPercent(long setAfterMs, Duration setting) {
        Random random = new Random(5);
        List<Tie> ties = new ArrayList<>();
        for (long elapsed = 0; elapsed <= 36 * 3_600_000L; elapsed += TEN_MINUTES_MS) {
            Instant wall = EVENING.plusMillis(Math.round(elapsed * 1.005) + random.nextInt(1_000));
            ties.add(new Tie(elapsed, elapsed > setAfterMs ? wall.plus(setting) : wall));
        }
        return ties;
    }

    private static final long NEVER = Long.MAX_VALUE;

    @Test
    void aResonatorThatIsElevenMinutesOffInADayAndAHalfIsFollowed() {
        WallClockLine line = WallClockLine.through(slowByHalfAPercent(NEVER, Duration.ZERO));
        assertThat(line.rate()).isCloseTo(1.005, within(1e-4));
        // 0.5 % of 36 h are 648 s (arithmetic): without the line the last reading would be named so much too early.
        assertThat(line.at(36 * 3_600_000L))
                .isCloseTo(EVENING.plusSeconds(36 * 3_600 + 648), within(2, ChronoUnit.SECONDS));
        assertThat(line.at(18 * 3_600_000L))
                .isCloseTo(EVENING.plusSeconds(18 * 3_600 + 324), within(2, ChronoUnit.SECONDS));
        assertThat(line.zeroFor(3_600_000).plusMillis(3_600_000)).isEqualTo(line.at(3_600_000));
    }

    @Test
    void aRecorderThatRunsForMonthsStillGetsItsLine() {
        List<Tie> ties = new ArrayList<>();
        for (long elapsed = 0; elapsed <= 90L * 24 * 3_600_000; elapsed += TEN_MINUTES_MS) {
            ties.add(new Tie(elapsed, EVENING.plusMillis(Math.round(elapsed * 0.998))));
        }
        WallClockLine line = WallClockLine.through(ties);
        assertThat(line.rate()).isCloseTo(0.998, within(1e-6));
    }

    @Test
    void aClockThatIsSetForwardAnHourMovesTheTimesAndNotTheRate() {
        WallClockLine line = WallClockLine.through(slowByHalfAPercent(20 * 3_600_000L, Duration.ofHours(1)));
        assertThat(line.rate()).isCloseTo(1.005, within(1e-3));
        assertThat(line.at(36 * 3_600_000L))
                .isCloseTo(EVENING.plusSeconds(36 * 3_600 + 648 + 3_600), within(20, ChronoUnit.SECONDS));
    }

    @Test
    void aClockThatWasYearsWrongUntilItWasSetIsBelievedOnceItIsSet() {
        WallClockLine line = WallClockLine.through(slowByHalfAPercent(0, Duration.ofDays(2_000)));
        assertThat(line.at(36 * 3_600_000L))
                .isCloseTo(
                        EVENING.plusSeconds(36 * 3_600 + 648).plus(Duration.ofDays(2_000)),
                        within(20, ChronoUnit.SECONDS));
    }

    @Test
    void oneTieIsALineOfRateOne() {
        assertThat(WallClockLine.through(List.of(new Tie(0, EVENING)))).isEqualTo(WallClockLine.from(EVENING));
        assertThat(WallClockLine.from(EVENING).at(60_000)).isEqualTo(EVENING.plusSeconds(60));
    }

    @Test
    void tiesOfAQuarterOfAnHourSayNothingOnTheRate() {
        WallClockLine line =
                WallClockLine.through(List.of(new Tie(0, EVENING), new Tie(900_000, EVENING.plusSeconds(904))));
        assertThat(line.rate()).isEqualTo(1);
    }
}
