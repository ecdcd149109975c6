package org.kilnside.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kilnside.review.HandDrawnFiring.CORNER_S;
import static org.kilnside.review.HandDrawnFiring.firing;
import static org.kilnside.review.HandDrawnFiring.first;
import static org.kilnside.review.HandDrawnFiring.question;
import static org.kilnside.review.HandDrawnFiring.review;
import static org.kilnside.review.HandDrawnFiring.trace;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;

/** Which cause a review names, on curves drawn by hand. Where a number is expected it is own output or arithmetic. */
class ReviewerTest {
    @Test
    void aFiringThatFollowedItsPlanIsAsPlanned() {
        Review review = review(firing(1222, 60, 15));
        assertThat(first(review)).isEqualTo(CauseCode.AS_PLANNED);
        assertThat(review.shortOfPlan().orElseThrow()).isCloseTo(0, within(0.05));
        assertThat(review.advice()).extracting(Advice::kind).contains(Advice.Kind.LOOK_AT_GLAZE, Advice.Kind.TEST_TILE);
    }

    @Test
    void thePartsAddUpWhateverWasDone() {
        for (double topC : List.of(1100.0, 1195.0, 1222.0, 1240.0)) {
            for (double rate : List.of(40.0, 60.0, 140.0)) {
                for (double hold : List.of(0.0, 15.0, 60.0)) {
                    Review review = review(firing(topC, rate, hold));
                    double sum = review.shares().stream()
                            .mapToDouble(Review.Cost::cones)
                            .sum();
                    assertThat(sum)
                            .as("%s °C, %s °C/h, %s min", topC, rate, hold)
                            .isCloseTo(review.shortOfPlan().orElseThrow(), within(1e-9));
                    for (int perCone : List.of(10, 100)) {
                        long parts = review.sharesInSteps(perCone).stream()
                                .mapToLong(cost -> Math.round(cost.cones() * perCone))
                                .sum();
                        assertThat(parts)
                                .as("%s °C, %s °C/h, %s min in steps of 1/%s", topC, rate, hold, perCone)
                                .isEqualTo(Math.round(review.shortOfPlan().orElseThrow() * perCone));
                    }
                }
            }
        }
    }

    @Test
    void namesWhatThePlanHadOtherwise() {
        assertThat(first(review(firing(1205, 60, 15)))).isEqualTo(CauseCode.TOP_LOW);
        assertThat(first(review(firing(1222, 60, 1)))).isEqualTo(CauseCode.HOLD_SHORT);
        assertThat(first(review(firing(1222, 180, 15)))).isEqualTo(CauseCode.RAMP_FAST);
        assertThat(first(review(firing(1222, 25, 15)))).isEqualTo(CauseCode.RAMP_SLOW);
        assertThat(first(review(firing(1240, 60, 15)))).isEqualTo(CauseCode.OVER_FIRED_TOP);
        assertThat(first(review(firing(1222, 60, 50)))).isEqualTo(CauseCode.OVER_FIRED_HOLD);
        assertThat(first(review(firing(1195, 60, 0)))).isEqualTo(CauseCode.ENDED_EARLY);
    }

    @Test
    void tellsAPowerCutByTheControllerThatStillAsked() {
        Trace.Builder log = new Trace.Builder();
        DoubleUnaryOperator curve = firing(1190, 60, 0);
        double cutS = CORNER_S + 70 * 60;
        for (double at = 0; at <= 45_000; at += 10) {
            double asked = at < CORNER_S ? 20 + at / 24 : Math.min(1222, 1120 + (at - CORNER_S) / 60);
            log.add(
                    Math.round(at * 1000),
                    curve.applyAsDouble(at),
                    OptionalDouble.of(at < cutS ? 0.7 : 1),
                    OptionalDouble.of(asked));
        }
        assertThat(first(Reviewer.review(question(log.view())))).isEqualTo(CauseCode.POWER_CUT);
    }

    @Test
    void theWantedConeIsHeldApartFromThePlans() {
        Review review = Reviewer.review(
                question(trace(firing(1222, 60, 15), 0, 50_000)).withWanted(Optional.of(Cone.parse("6"))));
        assertThat(review.shortOfPlan().orElseThrow()).isCloseTo(0, within(0.05));
        assertThat(review.shortOfWanted().orElseThrow()).isLessThan(-0.5);
    }

    @Test
    void aSetpointThatStandsForEverAfterwardsIsNoCut() {
        DoubleUnaryOperator curve = firing(1222, 60, 1);
        Trace.Builder log = new Trace.Builder();
        for (double at = 0; at <= 50_000; at += 10) {
            log.add(
                    Math.round(at * 1000),
                    curve.applyAsDouble(at),
                    OptionalDouble.empty(),
                    OptionalDouble.of(at < CORNER_S ? 20 + at / 24 : Math.min(1222, 1120 + (at - CORNER_S) / 60)));
        }
        assertThat(first(Reviewer.review(question(log.view())))).isEqualTo(CauseCode.HOLD_SHORT);
    }

    @Test
    void aKilnThatIsHeatedOnceMoreAfterAFallWasInterrupted() {
        DoubleUnaryOperator curve = firing(1190, 60, 0);
        double cutS = CORNER_S + 70 * 60;
        double backS = cutS + 3600;
        double backC = curve.applyAsDouble(backS);
        Trace.Builder log = new Trace.Builder();
        for (double at = 0; at <= 60_000; at += 10) {
            double celsius = at < backS
                    ? curve.applyAsDouble(at)
                    : at < backS + 3600
                            ? backC + (at - backS) / 3600 * 60
                            : 20 + (backC + 40) * Math.exp(-(at - backS - 3600) / 21_600);
            log.add(Math.round(at * 1000), celsius);
        }
        assertThat(first(Reviewer.review(question(log.view())))).isEqualTo(CauseCode.POWER_CUT);
    }
}
