package org.kilnside.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.review.HandDrawnFiring.advised;
import static org.kilnside.review.HandDrawnFiring.bent;
import static org.kilnside.review.HandDrawnFiring.firing;
import static org.kilnside.review.HandDrawnFiring.first;
import static org.kilnside.review.HandDrawnFiring.kinds;
import static org.kilnside.review.HandDrawnFiring.pack;
import static org.kilnside.review.HandDrawnFiring.question;
import static org.kilnside.review.HandDrawnFiring.review;
import static org.kilnside.review.HandDrawnFiring.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.ToleranceClass;

/** What cones and sensor tell a review, on curves drawn by hand. Where a number is expected it is own output or arithmetic. */
class SensorSuspectsTest {
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

    @Test
    void aCorrectedLogAboveItsSetpointIsAnAmplifierNobodyCorrects() {
        SensorUncertainty chip = new SensorUncertainty(
                new Probe(ThermocoupleType.K, Amplifier.MAX31855), ToleranceClass.CLASS_2, Calibration.NONE);
        Review review =
                Reviewer.review(question(trace(firing(1243, 60, 15), 0, 50_000)).withSensor(chip));
        assertThat(first(review)).isEqualTo(CauseCode.AMPLIFIER_UNCORRECTED);
    }

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

    /** A cold kiln cannot be colder than a room by as much as cones say the sensor reads low, unless it does so everywhere. */
    @Test
    void theColdKilnsFirstNumberTellsASensorLowByTheSameEverywhere() {
        DoubleUnaryOperator ware = firing(1242, 60, 15);
        Trace truth = trace(ware, 0, 50_000);
        List<WitnessPack> cones =
                List.of(new WitnessPack("middle", List.of(bent("7", truth), bent("8", truth), bent("9", truth))));
        Trace everywhere = trace(at -> ware.applyAsDouble(at) - 20, 0, 50_000);
        Trace byPart = trace(at -> ware.applyAsDouble(at) * 1222 / 1242, 0, 50_000);
        assertThat(first(Reviewer.review(question(everywhere).withWitness(cones))))
                .isEqualTo(CauseCode.SENSOR_READS_LOW);
        assertThat(Reviewer.review(question(byPart).withWitness(cones)).causes().stream()
                        .limit(2)
                        .map(Review.Cause::code))
                .containsExactlyInAnyOrder(CauseCode.AMPLIFIER_UNCORRECTED, CauseCode.SENSOR_READS_LOW);
    }

    @Test
    void readingsMissingForLongJustBelowTheTopAreNamedWhereNothingElseIsOdd() {
        DoubleUnaryOperator curve = firing(1222, 60, 15);
        Trace.Builder log = new Trace.Builder();
        for (double at = 0; at <= 50_000; at += 10) {
            double celsius = curve.applyAsDouble(at);
            if (at > 40_000 || celsius < 1170 || celsius > 1210) {
                log.add(Math.round(at * 1000), celsius);
            }
        }
        Review review = Reviewer.review(question(log.view()));
        assertThat(first(review)).isEqualTo(CauseCode.SENSOR_FAULT);
        assertThat(review.shortOfPlan().orElseThrow()).isCloseTo(0, org.assertj.core.api.Assertions.within(0.1));
    }

    @Test
    void aSensorThatWasRightAtThisHeatBeforeIsNoBoard() {
        Trace ware = trace(firing(1243, 60, 15), 0, 50_000);
        List<WitnessPack> cones =
                List.of(new WitnessPack("middle", List.of(bent("7", ware), bent("8", ware), bent("9", ware))));
        Review review = Reviewer.review(question(trace(firing(1222, 60, 15), 0, 50_000))
                .withWitness(cones)
                .withOffsets(List.of(new WitnessOffset(-1, 5, 1222, false), new WitnessOffset(4, 5, 1222, false))));
        assertThat(first(review)).isEqualTo(CauseCode.SENSOR_READS_LOW);
        assertThat(review.causes()).extracting(Review.Cause::code).doesNotContain(CauseCode.AMPLIFIER_UNCORRECTED);
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
}
