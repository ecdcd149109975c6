package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Share;

/** A kiln that is off, fell fast, and climbs; curves drawn by hand, a line each half minute. */
class StuckRelayWatchTest {
    private static final int SHUT_MIN = 25;

    /** Minutes after the lid was shut at which a relay is said to stick; −1 = never within an hour. */
    private static double seenAfterMin(DoubleUnaryOperator aboveLowestC) {
        return seenAfterMin(SHUT_MIN, minute -> 950 + 12 * (SHUT_MIN - minute), aboveLowestC);
    }

    private static double seenAfterMin(int climbsMin, DoubleUnaryOperator fallsC, DoubleUnaryOperator aboveLowestC) {
        Beats beats = new Beats();
        StuckRelayWatch watch = new StuckRelayWatch(() -> AlarmLimits.USUAL);
        for (double minute = 0; minute < climbsMin + 60; minute += 0.5) {
            double after = minute - climbsMin;
            double celsius = after < 0
                    ? fallsC.applyAsDouble(minute)
                    : fallsC.applyAsDouble(climbsMin) + aboveLowestC.applyAsDouble(after);
            ControllerReport off = new ControllerReport(Optional.of(Share.NONE), Optional.empty(), OptionalInt.empty());
            if (beats.add(Math.round(minute * 60_000), celsius, off)
                    && watch.lookWhileOff(beats, beats.nowMs(), StuckRelayWatch.fellFast(beats))
                            .isPresent()) {
                return after;
            }
        }
        return -1;
    }

    @Test
    void theReboundOfAKilnThatWasShutAgainIsNoStuckRelay() {
        assertThat(seenAfterMin(minutes -> 14 * (1 - Math.exp(-minutes / 2)) - 0.9 * minutes))
                .isEqualTo(-1);
        assertThat(seenAfterMin(minutes -> Math.min(16, 7 * minutes) - 0.9 * Math.max(0, minutes - 2.5)))
                .isEqualTo(-1);
    }

    @Test
    void aRelayThatSticksAfterAFastFallIsStillSeenWithinTenMinutes() {
        assertThat(seenAfterMin(minutes -> 3 * minutes)).isBetween(3.0, 10.0);
    }

    /** A kiln of fibre falls as fast with its lid shut, ever more slowly. */
    @Test
    void aRelayThatSticksInAFastFallUnderAShutLidIsSeenWithinMinutes() {
        assertThat(seenAfterMin(60, minute -> 20 + 1180 * Math.exp(-minute / 100), minutes -> 3 * minutes))
                .isBetween(2.0, 5.0);
    }
}
