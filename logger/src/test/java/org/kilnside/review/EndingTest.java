package org.kilnside.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.review.HandDrawnFiring.CORNER_S;
import static org.kilnside.review.HandDrawnFiring.PLAN;
import static org.kilnside.review.HandDrawnFiring.firing;
import static org.kilnside.review.HandDrawnFiring.first;
import static org.kilnside.review.HandDrawnFiring.question;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

/** How heating ended, on curves drawn by hand. Own output (regression). */
class EndingTest {
    private static final double GONE_S = CORNER_S + 60 * 60;
    private static final double GIVEN_UP_S = GONE_S + 3 * 3600;

    private static double asked(double at) {
        return at < CORNER_S ? 20 + at / 24 : Math.min(1222, 1120 + (at - CORNER_S) / 60);
    }

    private static Trace log(DoubleUnaryOperator curve, boolean output) {
        Trace.Builder log = new Trace.Builder();
        for (double at = 0; at <= 60_000; at += 10) {
            log.add(
                    Math.round(at * 1000),
                    curve.applyAsDouble(at),
                    output ? OptionalDouble.of(at < GONE_S ? 0.8 : at < GIVEN_UP_S ? 1 : 0) : OptionalDouble.empty(),
                    at < GIVEN_UP_S ? OptionalDouble.of(asked(at)) : OptionalDouble.empty());
        }
        return log.view();
    }

    /** Up to 1180 °C as planned, then down towards a temperature, and free once the controller gives up. */
    private static DoubleUnaryOperator towards(double restC) {
        double at1180 = 1180;
        DoubleUnaryOperator gaveWay = at -> restC + (at1180 - restC) * Math.exp(-(at - GONE_S) / 2400);
        double leftC = gaveWay.applyAsDouble(GIVEN_UP_S);
        return at -> at < GONE_S
                ? asked(at)
                : at < GIVEN_UP_S
                        ? gaveWay.applyAsDouble(at)
                        : 20 + (leftC - 20) * Math.exp(-(at - GIVEN_UP_S) / 12_000);
    }

    private static Ending ending(Trace log, boolean output) {
        Bins bins = Bins.of(log);
        return Ending.of(bins, TopPhase.of(bins, 25), PLAN.top().celsius(), true, output);
    }

    @Test
    void aKilnThatComesToRestAtFullOutputHasSomeOfItsPowerLeft() {
        Trace log = log(towards(1120), true);
        assertThat(ending(log, true).how()).isEqualTo(Ending.How.GAVE_WAY);
        assertThat(ending(log, true).askedUntilS()).isGreaterThan(GIVEN_UP_S - 900);
        assertThat(first(Reviewer.review(question(log)))).isNotEqualTo(CauseCode.POWER_CUT);
        assertThat(first(Reviewer.review(question(log))))
                .isIn(CauseCode.MAINS_SAG, CauseCode.ONE_PHASE_LOST, CauseCode.WEAK_ELEMENTS);
    }

    @Test
    void theSetpointAloneTellsItToo() {
        assertThat(ending(log(towards(1120), false), false).how()).isEqualTo(Ending.How.GAVE_WAY);
    }

    @Test
    void aKilnThatFallsFreelyAtFullOutputHasNone() {
        DoubleUnaryOperator fell = at -> at < GONE_S ? asked(at) : 20 + 1160 * Math.exp(-(at - GONE_S) / 12_000);
        Trace log = log(fell, true);
        assertThat(ending(log, true).how()).isEqualTo(Ending.How.STILL_ASKING);
        assertThat(first(Reviewer.review(question(log)))).isEqualTo(CauseCode.POWER_CUT);
    }

    @Test
    void aSetpointGivenAtItsEndSaysNothingOfAKilnThatHangsBack() {
        DoubleUnaryOperator curve = firing(1200, 60, 4);
        Trace.Builder log = new Trace.Builder();
        for (double at = 0; at <= 50_000; at += 10) {
            double ended = CORNER_S + 84 * 60;
            OptionalDouble goal = at < ended ? OptionalDouble.of(at < CORNER_S ? 1120 : 1200) : OptionalDouble.empty();
            log.add(Math.round(at * 1000), curve.applyAsDouble(at), OptionalDouble.empty(), goal);
        }
        assertThat(Reviewer.review(question(log.view())).causes())
                .extracting(Review.Cause::code)
                .doesNotContain(CauseCode.WEAK_ELEMENTS, CauseCode.ONE_PHASE_LOST, CauseCode.MAINS_SAG)
                .contains(CauseCode.TOP_LOW);
    }
}
