package org.kilnside.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kilnside.review.HandDrawnFiring.CORNER_S;
import static org.kilnside.review.HandDrawnFiring.PLAN;
import static org.kilnside.review.HandDrawnFiring.advised;
import static org.kilnside.review.HandDrawnFiring.firing;
import static org.kilnside.review.HandDrawnFiring.first;
import static org.kilnside.review.HandDrawnFiring.kinds;
import static org.kilnside.review.HandDrawnFiring.question;
import static org.kilnside.review.HandDrawnFiring.ramp;
import static org.kilnside.review.HandDrawnFiring.review;
import static org.kilnside.review.HandDrawnFiring.seen;
import static org.kilnside.review.HandDrawnFiring.trace;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorUncertainty;

/** What a review makes of poor input, on curves drawn by hand. Where a number is expected it is own output or arithmetic. */
class PoorInputTest {
    @Test
    void aMissingTopIsALowerBoundAndSaidSo() {
        DoubleUnaryOperator curve = firing(1222, 60, 15);
        Trace.Builder log = new Trace.Builder();
        double topS = CORNER_S + 102 * 60;
        for (double at = 0; at <= 50_000; at += 10) {
            if (at < topS - 1200 || at > topS + 2400) {
                log.add(Math.round(at * 1000), curve.applyAsDouble(at));
            }
        }
        Review review = Reviewer.review(question(log.view()));
        assertThat(first(review)).isEqualTo(CauseCode.SENSOR_FAULT);
        assertThat(review.extent()).isEqualTo(Extent.TOP_HIDDEN);
        assertThat(review.shortOfPlan().orElseThrow()).isCloseTo(0, within(0.5));
        assertThat(review.to().orElseThrow()).isGreaterThan(0.5);
        assertThat(kinds(review)).contains(Remark.Kind.TOP_HIDDEN);
    }

    @Test
    void saysWhatPoorInputLeavesOut() {
        DoubleUnaryOperator curve = firing(1222, 60, 15);
        double leftS = CORNER_S + 102 * 60 + 900;
        assertThat(kinds(Reviewer.review(question(trace(curve, 9_120, 50_000)))))
                .contains(Remark.Kind.BEGINS_WARM);
        assertThat(kinds(Reviewer.review(question(trace(curve, 0, leftS))))).contains(Remark.Kind.NO_COOLING);
        assertThat(kinds(Reviewer.review(question(trace(curve, 0, 28_000))))).contains(Remark.Kind.ENDS_HEATING);
        assertThat(kinds(review(at -> Math.min(998, firing(998.0 + 122, 60, 0).applyAsDouble(at)))))
                .contains(Remark.Kind.PLAN_OF_ANOTHER_FIRING);
        assertThat(advised(review(at -> Math.min(998, firing(998.0 + 122, 60, 0).applyAsDouble(at)))))
                .containsExactly(Advice.Kind.NAME_ITS_PLAN);
        Review contradicting = Reviewer.review(question(trace(curve, 0, 50_000))
                .withWitness(List.of(new WitnessPack("middle", List.of(seen("5", 10), seen("7", 90))))));
        assertThat(kinds(contradicting)).contains(Remark.Kind.PACK_CONTRADICTS_ITSELF);
        Review elsewhere = Reviewer.review(question(trace(curve, 0, 50_000))
                .withWitness(List.of(new WitnessPack("middle", List.of(seen("01", 10), seen("1", 0))))));
        assertThat(kinds(elsewhere)).contains(Remark.Kind.CONES_CONTRADICT_CURVE);
        Review otherSeries = Reviewer.review(question(trace(curve, 0, 50_000))
                .withWitness(List.of(new WitnessPack("middle", List.of(seen("06", 90), seen("05", 30))))));
        assertThat(kinds(otherSeries))
                .contains(Remark.Kind.CONES_CONTRADICT_CURVE)
                .doesNotContain(Remark.Kind.NO_WITNESS);
        Review impossible = Reviewer.review(question(trace(curve, 0, 50_000))
                .withWitness(List.of(new WitnessPack(
                        "middle", List.of(seen("4", 40), seen("5", 40), seen("6", 40), seen("8", 40))))));
        assertThat(kinds(impossible)).contains(Remark.Kind.PACK_FITS_NOTHING);
    }

    @Test
    void aLogWithoutCoolingComesToTheSameAsOneWithIt() {
        DoubleUnaryOperator curve = firing(1205, 60, 15);
        double leftS = CORNER_S + 85 * 60 + 900;
        double whole = review(curve).shortOfPlan().orElseThrow();
        double cut =
                Reviewer.review(question(trace(curve, 0, leftS))).shortOfPlan().orElseThrow();
        assertThat(cut).isCloseTo(whole, within(0.1));
    }

    @Test
    void whereNoCoolingWasSeenAPlansConeIsTheOneThatIsToldBeforeTheLighting() {
        double leftS = CORNER_S + 102 * 60 + 900;
        ConeReached told = PlanHeat.of(
                        ConeTable.of(ConeSeries.SELF_SUPPORTING),
                        PLAN.curveFrom(Temperature.ofCelsius(20)),
                        SensorUncertainty.UNKNOWN)
                .whole();
        assertThat(steps(Reviewer.review(question(trace(firing(1222, 60, 15), 0, leftS)))))
                .isCloseTo(told.cone().steps().orElseThrow(), within(0.03));
    }

    /** Independent of the review's own lines: the integral over the readings, as they came. */
    @Test
    void aFiringsConeIsTheOneThatIsToldOfItsLog() {
        Trace log = trace(firing(1222, 60, 15), 0, 50_000);
        ConeReached told =
                HeatWork.of(ConeTable.of(ConeSeries.SELF_SUPPORTING), log).reached(SensorUncertainty.UNKNOWN);
        assertThat(Reviewer.review(question(log))
                        .reached()
                        .orElseThrow()
                        .steps()
                        .orElseThrow())
                .isCloseTo(told.cone().steps().orElseThrow(), within(0.03));
    }

    @Test
    void aPlanBelowEveryConeHasNothingToBeShortOf() {
        Schedule candling = new Schedule("Candling", List.of(ramp(60, 85, 240)));
        Review review = Reviewer.review(ReviewQuestion.about(
                GoodReadings.of(trace(at -> 20 + Math.min(65, at / 60), 0, 20_000)), candling));
        assertThat(review.shortOfPlan()).isEmpty();
        assertThat(review.planReaches()).isEmpty();
        assertThat(kinds(review)).contains(Remark.Kind.PLAN_WITHOUT_CONE);
    }

    @Test
    void aKilnThatWasNotHeatedHasNoFiringToReview() {
        List.of(trace(at -> 15 + Math.sin(at / 500), 0, 18_000), trace(at -> 15 + at / 60, 0, 120))
                .forEach(log -> {
                    Review review = Reviewer.review(question(log));
                    assertThat(review.extent()).isEqualTo(Extent.NO_FIRING);
                    hasNoVerdict(review);
                    assertThat(review.causes()).isEmpty();
                    assertThat(review.advice()).isEmpty();
                    assertThat(review.remarks()).isEmpty();
                });
    }

    @Test
    void aLogThatEndsWhileItDriesIsNoFinishedFiring() {
        Trace candling = trace(at -> Math.min(90, 15 + at / 60), 0, 36_000);
        Review review = Reviewer.review(question(candling));
        assertThat(review.extent()).isEqualTo(Extent.ENDS_ON_THE_WAY);
        hasNoVerdict(review);
        assertThat(review.causes()).isEmpty();
        assertThat(review.advice()).isEmpty();
        assertThat(kinds(review)).contains(Remark.Kind.ENDS_HEATING).doesNotContain(Remark.Kind.PLAN_OF_ANOTHER_FIRING);
    }

    @Test
    void aPlansConeIsItsOwnHoweverLittleOfTheFiringWasSeen() {
        double whole = steps(review(firing(1222, 60, 15)));
        assertThat(steps(Reviewer.review(question(trace(at -> Math.min(90, 15 + at / 60), 0, 36_000)))))
                .isCloseTo(whole, within(0.05));
        assertThat(steps(Reviewer.review(question(trace(firing(1222, 60, 15), 52_000, 60_000)))))
                .isCloseTo(whole, within(0.1));
    }

    @Test
    void whereNothingSeenBringsAConeDownNoShortfallIsNamed() {
        DoubleUnaryOperator curve = firing(1222, 60, 15);
        Trace.Builder asleep = new Trace.Builder();
        for (double at = 0; at <= 90_000; at += 10) {
            if (curve.applyAsDouble(at) < 500) {
                asleep.add(
                        Math.round(at * 1000),
                        curve.applyAsDouble(at),
                        OptionalDouble.of(at < CORNER_S ? 0.7 : 0),
                        OptionalDouble.of(curve.applyAsDouble(at)));
            }
        }
        Review gap = Reviewer.review(question(asleep.view()));
        assertThat(kinds(gap)).contains(Remark.Kind.TOP_HIDDEN).doesNotContain(Remark.Kind.NO_CONTROLLER);
        for (Review review : List.of(
                gap,
                Reviewer.review(question(trace(curve, 54_000, 70_000))),
                Reviewer.review(question(trace(curve, 54_000, 54_400))))) {
            assertThat(review.extent()).isEqualTo(Extent.NO_CONE_NAMED);
            assertThat(kinds(review)).doesNotContain(Remark.Kind.ENDS_HEATING);
            hasNoVerdict(review);
            assertThat(first(review)).isEqualTo(CauseCode.SENSOR_FAULT);
            assertThat(advised(review)).doesNotContain(Advice.Kind.REFIRE_FULL);
        }
    }

    private static void hasNoVerdict(Review review) {
        assertThat(review.shortOfPlan()).isEmpty();
        assertThat(review.from()).isEmpty();
        assertThat(review.to()).isEmpty();
        assertThat(review.shortOfWanted()).isEmpty();
        assertThat(review.reached()).isEmpty();
        assertThat(review.shares()).isEmpty();
    }

    private static double steps(Review review) {
        return review.planReaches().orElseThrow().steps().orElseThrow();
    }

    @Test
    void ofALogThatBeginsOnTheWayDownNothingIsSaidButThatTheTopIsMissing() {
        Review review = Reviewer.review(question(trace(firing(1222, 60, 15), 36_000, 50_000)));
        assertThat(review.causes()).hasSize(1);
        assertThat(first(review)).isEqualTo(CauseCode.SENSOR_FAULT);
        assertThat(review.from().orElseThrow()).isNegative();
        assertThat(advised(review)).doesNotContain(Advice.Kind.REFIRE_FULL);
    }
}
