package org.kilnside.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeSeries;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.ToleranceClass;

/** Curves drawn by hand: 150 °C/h to 1120 °C, then to the top. Where a number is expected it is own output or arithmetic. */
class ReviewerTest {
    private static final double CORNER_S = 26_400;
    private static final Schedule PLAN =
            new Schedule("Glaze", List.of(ramp(150, 1120, 0), ramp(60, 1222, 15), new Segment.FreeCooling()));

    private static Segment ramp(double rate, double toC, double minutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(rate),
                Temperature.ofCelsius(toC),
                Duration.ofSeconds(Math.round(minutes * 60)));
    }

    /** A firing that goes to a top at a last rate, stays and cools as a kiln of usual size. */
    private static DoubleUnaryOperator firing(double topC, double rate, double holdMinutes) {
        double topS = CORNER_S + (topC - 1120) / rate * 3600;
        double leftS = topS + holdMinutes * 60;
        return at -> {
            if (at < CORNER_S) {
                return 20 + at / 24;
            }
            if (at < topS) {
                return 1120 + (at - CORNER_S) * rate / 3600;
            }
            return at < leftS ? topC : 20 + (topC - 20) * Math.exp(-(at - leftS) / 21_600);
        };
    }

    private static Trace trace(DoubleUnaryOperator curve, double fromS, double toS) {
        Trace.Builder log = new Trace.Builder();
        for (double at = fromS; at <= toS; at += 10) {
            log.add(Math.round(at * 1000), curve.applyAsDouble(at));
        }
        return log.view();
    }

    private static Review review(DoubleUnaryOperator curve) {
        return Reviewer.review(question(trace(curve, 0, 50_000)));
    }

    private static ReviewQuestion question(Trace log) {
        return ReviewQuestion.about(GoodReadings.of(log), PLAN);
    }

    private static CauseCode first(Review review) {
        return review.causes().get(0).code();
    }

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
                            .isCloseTo(review.shortOfPlan().orElseThrow(), within(0.03));
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
    void onlyWitnessConesShowASensorThatReadsHigh() {
        ReviewQuestion question = question(trace(firing(1222, 60, 15), 0, 50_000));
        Review review = Reviewer.review(question.withWitness(List.of(pack("middle", 60, 15, 0))));
        assertThat(first(Reviewer.review(question))).isEqualTo(CauseCode.AS_PLANNED);
        assertThat(first(review)).isEqualTo(CauseCode.SENSOR_READS_HIGH);
        assertThat(review.shortOfPlan().orElseThrow()).isGreaterThan(0.8);
        assertThat(review.shares().get(0).code()).isEqualTo(CauseCode.SENSOR_READS_HIGH);
    }

    @Test
    void anOffsetKnownBeforeCountsWithoutCones() {
        SensorUncertainty known = new SensorUncertainty(
                Probe.UNKNOWN, ToleranceClass.CLASS_2, Calibration.offset(-15, 4, Calibration.By.WITNESS_CONES));
        DoubleUnaryOperator shown = firing(1222, 60, 15);
        Review review = Reviewer.review(
                question(trace(at -> shown.applyAsDouble(at) - 15, 0, 50_000)).withSensor(known));
        assertThat(first(review)).isEqualTo(CauseCode.SENSOR_READS_HIGH);
        assertThat(review.shortOfPlan().orElseThrow()).isGreaterThan(0.7);
    }

    /** Computed from ITS-90: an uncorrected MAX31855 that shows 1222 °C stands at about 1243 °C. */
    @Test
    void aCorrectedLogAboveItsSetpointIsAnAmplifierNobodyCorrects() {
        SensorUncertainty chip = new SensorUncertainty(
                new Probe(ThermocoupleType.K, Amplifier.MAX31855), ToleranceClass.CLASS_2, Calibration.NONE);
        Review review =
                Reviewer.review(question(trace(firing(1243, 60, 15), 0, 50_000)).withSensor(chip));
        assertThat(first(review)).isEqualTo(CauseCode.AMPLIFIER_UNCORRECTED);
    }

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
        assertThat(review.atLeast()).isTrue();
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
    void aPlanBelowEveryConeHasNothingToBeShortOf() {
        Schedule candling = new Schedule("Candling", List.of(ramp(60, 85, 240)));
        Review review = Reviewer.review(ReviewQuestion.about(
                GoodReadings.of(trace(at -> 20 + Math.min(65, at / 60), 0, 20_000)), candling));
        assertThat(review.shortOfPlan()).isEmpty();
        assertThat(review.planReaches()).isEmpty();
        assertThat(kinds(review)).contains(Remark.Kind.PLAN_WITHOUT_CONE);
    }

    @Test
    void theWantedConeIsHeldApartFromThePlans() {
        Review review = Reviewer.review(
                question(trace(firing(1222, 60, 15), 0, 50_000)).withWanted(Optional.of(Cone.parse("6"))));
        assertThat(review.shortOfPlan().orElseThrow()).isCloseTo(0, within(0.05));
        assertThat(review.shortOfWanted().orElseThrow()).isLessThan(-0.5);
    }

    /** Computed from ITS-90: what a MAX31855 shows at 1228 °C, 15 °C below where it stood, is about 1207 °C. */
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

    /** An offset of the size of the board's error is either; a bisque firing's cones tell which. */
    @Test
    void tellsABoardFromASensorThatReadsLowByConesOfABisqueFiring() {
        Trace ware = trace(firing(1243, 60, 15), 0, 50_000);
        ReviewQuestion question = question(trace(firing(1222, 60, 15), 0, 50_000))
                .withWitness(
                        List.of(new WitnessPack("middle", List.of(bent("7", ware), bent("8", ware), bent("9", ware)))));
        Review alone = Reviewer.review(question);
        assertThat(alone.causes().stream().limit(2).map(Review.Cause::code))
                .containsExactlyInAnyOrder(CauseCode.SENSOR_READS_LOW, CauseCode.AMPLIFIER_UNCORRECTED);
        assertThat(advised(alone)).contains(Advice.Kind.TELL_BOARD_FROM_SENSOR);
        Review board = Reviewer.review(question.withOffsets(List.of(new WitnessOffset(0, 6, 1005, false))));
        assertThat(first(board)).isEqualTo(CauseCode.AMPLIFIER_UNCORRECTED);
        Review sensor = Reviewer.review(question.withOffsets(List.of(new WitnessOffset(18, 6, 1005, false))));
        assertThat(first(sensor)).isEqualTo(CauseCode.SENSOR_READS_LOW);
        assertThat(Reviewer.review(question.withWitness(List.of())).causes())
                .extracting(Review.Cause::code)
                .doesNotContain(CauseCode.SENSOR_READS_LOW, CauseCode.AMPLIFIER_UNCORRECTED);
    }

    @Test
    void namesADriftOfTheSensor() {
        List<WitnessOffset> offsets = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            offsets.add(new WitnessOffset(-4 * i, 6, 1222, false));
        }
        Review review =
                Reviewer.review(question(trace(firing(1222, 60, 15), 0, 50_000)).withOffsets(offsets));
        assertThat(kinds(review)).contains(Remark.Kind.SENSOR_DRIFTS);
    }

    /** The set-point a controller that has ended goes on giving tells nothing of a power cut. */
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

    /** How a cone looks after a firing, bending in proportion to its heat work. */
    private static WitnessCone bent(String cone, Trace ware) {
        double share = HeatWork.of(ConeTable.of(ConeSeries.SELF_SUPPORTING), ware)
                .share(Cone.parse(cone))
                .orElseThrow();
        return seen(cone, Math.min(95, 90 * share));
    }

    private static List<Advice.Kind> advised(Review review) {
        return review.advice().stream().map(Advice::kind).toList();
    }

    private static Advice the(Review review, Advice.Kind kind) {
        return review.advice().stream()
                .filter(each -> each.kind() == kind)
                .findFirst()
                .orElseThrow();
    }

    private static double celsius(Amount amount) {
        return ((Amount.Degrees) amount).temperature().celsius();
    }

    private static List<Remark.Kind> kinds(Review review) {
        return new ArrayList<>(review.remarks().stream().map(Remark::kind).toList());
    }

    /** Cones 6, 7 and 8. */
    private static WitnessPack pack(String shelf, double six, double seven, double eight) {
        return new WitnessPack(shelf, List.of(seen("6", six), seen("7", seven), seen("8", eight)));
    }

    private static WitnessCone seen(String cone, double degrees) {
        return new WitnessCone(Cone.parse(cone), OptionalDouble.of(degrees), OptionalLong.empty());
    }
}
