package org.kilnside.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.review.HandDrawnFiring.CORNER_S;
import static org.kilnside.review.HandDrawnFiring.advised;
import static org.kilnside.review.HandDrawnFiring.first;
import static org.kilnside.review.HandDrawnFiring.question;
import static org.kilnside.review.HandDrawnFiring.ramp;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.Schedule;

/**
 * Coolings no plan and no earlier firing speaks of, stepped by hand: a kiln falls towards a room of 20 °C with a time
 * constant of 9000 s at its top that doubles on the way down. Own output (regression) where a cause is expected.
 */
class UnplannedCoolingTest {
    private static final double STEP_S = 10;
    private static final double TOP_S = CORNER_S + 102 * 60;
    private static final double LEFT_S = TOP_S + 15 * 60;

    /** K/s by which a kiln falls beyond, or less than, by itself. */
    @FunctionalInterface
    private interface Meddling {
        double fallsBy(double celsius, double alone);
    }

    private static Trace cooled(Meddling meddling, boolean heats) {
        Trace.Builder log = new Trace.Builder();
        double celsius = 1222;
        for (double at = 0; at < 90_000 && (at < LEFT_S || celsius > 100); at += STEP_S) {
            boolean falls = at > LEFT_S;
            if (at < CORNER_S) {
                celsius = 20 + at / 24;
            } else if (at < TOP_S) {
                celsius = 1120 + (at - CORNER_S) / 60;
            } else if (falls) {
                double alone = (celsius - 20) / (9000 * (1 + (1222 - celsius) / 1000));
                celsius -= meddling.fallsBy(celsius, alone) * STEP_S;
            }
            boolean held = falls && heats && meddling.fallsBy(celsius, 1) != 1;
            log.add(
                    Math.round(at * 1000),
                    celsius,
                    heats ? OptionalDouble.of(falls ? held ? 0.3 : 0 : 0.6) : OptionalDouble.empty(),
                    OptionalDouble.empty());
        }
        return log.view();
    }

    private static CauseCode cause(Meddling meddling, boolean heats) {
        return first(Reviewer.review(question(cooled(meddling, heats))));
    }

    private static boolean within(double celsius, double fromC, double toC) {
        return celsius < fromC && celsius > toC;
    }

    @Test
    void aKilnLeftToItselfCooledAsPlanned() {
        assertThat(cause((celsius, alone) -> alone, false)).isEqualTo(CauseCode.AS_PLANNED);
    }

    @Test
    void aFanOnTheWayDownShowsByWhereItBeganAndEnded() {
        assertThat(cause((celsius, alone) -> within(celsius, 1100, 700) ? 3.5 * alone : alone, false))
                .isEqualTo(CauseCode.COOLING_FAST);
    }

    @Test
    void aPlanThatLeavesTheKilnToItselfAsksForNoHeatOnTheWayDown() {
        Trace cold = cooled((celsius, alone) -> within(celsius, 1100, 700) ? 3.5 * alone : alone, false);
        assertThat(advised(Reviewer.review(question(cold))))
                .contains(Advice.Kind.LEAVE_SHUT)
                .doesNotContain(Advice.Kind.SLOW_COOLING);
        Schedule ledDown = new Schedule("Led down", List.of(ramp(150, 1120, 0), ramp(60, 1222, 15), ramp(100, 700, 0)));
        assertThat(advised(Reviewer.review(ReviewQuestion.about(GoodReadings.of(cold), ledDown))))
                .contains(Advice.Kind.SLOW_COOLING)
                .doesNotContain(Advice.Kind.LEAVE_SHUT);
    }

    @Test
    void aFanFromTheTopOnShowsByItsEnd() {
        assertThat(cause((celsius, alone) -> within(celsius, 1222, 700) ? 3.5 * alone : alone, false))
                .isEqualTo(CauseCode.COOLING_FAST);
    }

    @Test
    void aFallFasterThroughoutThanAnyKilnsIsTooFast() {
        assertThat(cause((celsius, alone) -> (celsius - 20) / 2600, false)).isEqualTo(CauseCode.COOLING_FAST);
    }

    @Test
    void aStraightFallBeforeAFreeOneWasHeldBack() {
        assertThat(cause((celsius, alone) -> within(celsius, 1050, 850) ? 60.0 / 3600 : alone, false))
                .isEqualTo(CauseCode.COOLING_SLOW);
    }

    @Test
    void heatOnTheWayDownSettlesWhichPartWasTheOddOne() {
        assertThat(cause((celsius, alone) -> within(celsius, 1200, 850) ? 70.0 / 3600 : alone, true))
                .isEqualTo(CauseCode.COOLING_SLOW);
    }
}
