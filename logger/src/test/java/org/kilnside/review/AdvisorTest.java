package org.kilnside.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kilnside.review.HandDrawnFiring.CORNER_S;
import static org.kilnside.review.HandDrawnFiring.advised;
import static org.kilnside.review.HandDrawnFiring.celsius;
import static org.kilnside.review.HandDrawnFiring.firing;
import static org.kilnside.review.HandDrawnFiring.first;
import static org.kilnside.review.HandDrawnFiring.pack;
import static org.kilnside.review.HandDrawnFiring.question;
import static org.kilnside.review.HandDrawnFiring.review;
import static org.kilnside.review.HandDrawnFiring.the;
import static org.kilnside.review.HandDrawnFiring.trace;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.ToleranceClass;

/** What a review advises, on curves drawn by hand. Where a number is expected it is own output or arithmetic. */
class AdvisorTest {
    @Test
    void raisesATopByFifteenDegreesAtMost() {
        Review review = review(firing(1195, 60, 15));
        assertThat(review.advice().get(0).amounts().get(0)).isEqualTo(Amount.span(15));
    }

    @Test
    void advisesNoHigherTopWhereTheElementsCanGiveNoMore() {
        Trace.Builder log = new Trace.Builder();
        for (double at = 0; at <= 60_000; at += 10) {
            double asked = at < CORNER_S ? 20 + at / 24 : Math.min(1222, 1120 + (at - CORNER_S) / 60);
            double celsius = at < CORNER_S
                    ? asked
                    : at < 44_000
                            ? 1120 + 75 * (1 - Math.exp(-(at - CORNER_S) / 5000))
                            : 20 + 1173 * Math.exp(-(at - 44_000) / 21_600);
            boolean heating = at < 44_000;
            log.add(
                    Math.round(at * 1000),
                    celsius,
                    OptionalDouble.of(heating ? Math.min(1, 0.25 + at / 36_000) : 0),
                    heating ? OptionalDouble.of(asked) : OptionalDouble.empty());
        }
        Review review = Reviewer.review(question(log.view()));
        assertThat(first(review)).isIn(CauseCode.WEAK_ELEMENTS, CauseCode.MAINS_SAG);
        assertThat(review.advice())
                .extracting(Advice::kind)
                .contains(Advice.Kind.NO_MORE_TOP)
                .doesNotContain(Advice.Kind.RAISE_TOP_CAREFULLY);
    }

    /** A kiln at full output that creeps towards 1200 °C, asked for 1222 °C, and is switched off in the end. */
    private static Trace creeping(double offS) {
        Trace.Builder log = new Trace.Builder();
        double offC = crept(offS);
        for (double at = 0; at <= offS + 20_000; at += 10) {
            boolean heating = at < offS;
            log.add(
                    Math.round(at * 1000),
                    heating ? crept(at) : 20 + (offC - 20) * Math.exp(-(at - offS) / 12_000),
                    OptionalDouble.of(heating ? Math.min(1, 0.25 + at / 36_000) : 0),
                    heating
                            ? OptionalDouble.of(
                                    at < CORNER_S ? 20 + at / 24 : Math.min(1222, 1120 + (at - CORNER_S) / 60))
                            : OptionalDouble.empty());
        }
        return log.view();
    }

    private static double crept(double at) {
        return at < CORNER_S ? 20 + at / 24 : 1120 + 80 * (1 - Math.exp(-(at - CORNER_S) / 6000));
    }

    @Test
    void aKilnTooWeakForItsTopThatFiredOverItIsToldTheTopThatGivesTheCone() {
        Review review = Reviewer.review(question(creeping(62_000)).withWanted(Optional.of(Cone.parse("6"))));
        assertThat(review.shortOfWanted().orElseThrow()).isLessThan(-1);
        assertThat(first(review)).isIn(CauseCode.WEAK_ELEMENTS, CauseCode.MAINS_SAG);
        Advice advice = the(review, Advice.Kind.TOP_WHILE_WEAK);
        double topC = celsius(advice.amounts().get(0));
        assertThat(topC).isBetween(1160.0, 1195.0);
        assertThat(celsius(advice.amounts().get(1))).isBetween(topC - 20, topC - 3);
        assertThat(celsius(advice.amounts().get(2))).isBetween(topC + 3, topC + 20);
        assertThat(advice.amounts().get(3)).isEqualTo(new Amount.Named(Cone.parse("6")));
        // The same kiln, held a quarter of an hour at that top and left to itself, comes to the cone (own law).
        double thereS = CORNER_S;
        while (crept(thereS) < topC) {
            thereS += 10;
        }
        double endS = thereS + 900;
        double from = thereS;
        Trace ended = trace(
                at -> at < from ? crept(at) : at < endS ? topC : 20 + (topC - 20) * Math.exp(-(at - endS) / 12_000),
                0,
                endS + 20_000);
        assertThat(HeatWork.of(ConeTable.of(ConeSeries.SELF_SUPPORTING), ended)
                        .reached(SensorUncertainty.UNKNOWN)
                        .cone()
                        .steps()
                        .orElseThrow())
                .isCloseTo(Reviewer.wantedSteps(Cone.parse("6")), within(0.15));
    }

    @Test
    void aWeakKilnWhoseWareDidNotGetTooMuchIsToldNoLowerTop() {
        Review review = Reviewer.review(question(creeping(32_500)).withWanted(Optional.of(Cone.parse("6"))));
        assertThat(review.advice()).extracting(Advice::kind).doesNotContain(Advice.Kind.TOP_WHILE_WEAK);
    }

    @Test
    void neverAdvisesAHigherTopWhereTheShelvesDiffer() {
        Review review = Reviewer.review(question(trace(firing(1222, 60, 15), 0, 50_000))
                .withWitness(List.of(pack("top", 90, 90, 90), pack("bottom", 80, 20, 0))));
        assertThat(first(review)).isEqualTo(CauseCode.UNEVEN);
        assertThat(review.advice())
                .extracting(Advice::kind)
                .contains(Advice.Kind.EVEN_OUT)
                .doesNotContain(Advice.Kind.RAISE_TOP_CAREFULLY);
    }

    @Test
    void advisesInTheNumbersTheControllerShowsAndSaysWhatTheyStandFor() {
        SensorUncertainty chip = new SensorUncertainty(
                new Probe(ThermocoupleType.K, Amplifier.MAX31855), ToleranceClass.CLASS_2, Calibration.NONE);
        Review review =
                Reviewer.review(question(trace(firing(1243, 60, 15), 0, 50_000)).withSensor(chip));
        Advice lower = the(review, Advice.Kind.LOWER_TOP);
        assertThat(celsius(lower.amounts().get(1))).isCloseTo(1207.5, within(1.5));
        Advice both = the(review, Advice.Kind.SHOWN_AND_TRUE);
        assertThat(celsius(both.amounts().get(0))).isCloseTo(1207.5, within(1.5));
        assertThat(celsius(both.amounts().get(1))).isCloseTo(1228, within(0.5));
    }

    @Test
    void neverRaisesATopPastTheLimitOfTheKiln() {
        ReviewQuestion low = question(trace(firing(1205, 60, 15), 0, 50_000));
        Review review = Reviewer.review(low.withLimit(Optional.of(Temperature.ofCelsius(1212))));
        assertThat(celsius(
                        the(review, Advice.Kind.RAISE_TOP_CAREFULLY).amounts().get(1)))
                .isCloseTo(1212, within(0.1));
        assertThat(advised(review)).contains(Advice.Kind.AT_THE_LIMIT);
        Review there = Reviewer.review(low.withLimit(Optional.of(Temperature.ofCelsius(1205))));
        assertThat(advised(there)).contains(Advice.Kind.AT_THE_LIMIT).doesNotContain(Advice.Kind.RAISE_TOP_CAREFULLY);
    }

    @Test
    void leavesATopThatGaveTheLoadItsCone() {
        Review review = Reviewer.review(
                question(trace(firing(1206, 60, 15), 0, 50_000)).withWanted(Optional.of(Cone.parse("6"))));
        assertThat(first(review)).isEqualTo(CauseCode.TOP_LOW);
        assertThat(advised(review))
                .contains(Advice.Kind.LOAD_HAS_ITS_CONE)
                .doesNotContain(Advice.Kind.RAISE_TOP_CAREFULLY, Advice.Kind.REFIRE_FULL);
    }

    @Test
    void lowersAnOverFiredTopAndNeverAdvisesToFireAgain() {
        Review review = review(firing(1240, 60, 15));
        assertThat(review.shortOfPlan().orElseThrow()).isNegative();
        assertThat(advised(review))
                .contains(Advice.Kind.LOWER_TOP, Advice.Kind.LOOK_FOR_OVERFIRING)
                .doesNotContain(Advice.Kind.REFIRE_FULL, Advice.Kind.RAISE_TOP_CAREFULLY);
    }

    @Test
    void neverRaisesATopPastWhatTheWareBearsNorPastTheLowerOfTwoLimits() {
        ReviewQuestion low = question(trace(firing(1205, 60, 15), 0, 50_000));
        Review ware = Reviewer.review(low.withLimit(Optional.of(Temperature.ofCelsius(1280)))
                .withWareLimit(Optional.of(Temperature.ofCelsius(1212))));
        assertThat(celsius(the(ware, Advice.Kind.RAISE_TOP_CAREFULLY).amounts().get(1)))
                .isCloseTo(1212, within(0.1));
        assertThat(advised(ware)).contains(Advice.Kind.AT_THE_LIMIT_OF_THE_WARE);
        Review kiln = Reviewer.review(low.withLimit(Optional.of(Temperature.ofCelsius(1210)))
                .withWareLimit(Optional.of(Temperature.ofCelsius(1212))));
        assertThat(celsius(the(kiln, Advice.Kind.RAISE_TOP_CAREFULLY).amounts().get(1)))
                .isCloseTo(1210, within(0.1));
        assertThat(advised(kiln))
                .contains(Advice.Kind.AT_THE_LIMIT)
                .doesNotContain(Advice.Kind.AT_THE_LIMIT_OF_THE_WARE);
    }

    @Test
    void doesNotSendAFiringEndedEarlyToATopTheWareDoesNotBear() {
        Review review = Reviewer.review(question(trace(firing(1185, 60, 0), 0, 50_000))
                .withWareLimit(Optional.of(Temperature.ofCelsius(1215))));
        assertThat(first(review)).isEqualTo(CauseCode.ENDED_EARLY);
        assertThat(celsius(the(review, Advice.Kind.AT_THE_LIMIT_OF_THE_WARE)
                        .amounts()
                        .get(0)))
                .isCloseTo(1215, within(0.1));
        assertThat(advised(review)).doesNotContain(Advice.Kind.LET_IT_FINISH);
    }
}
