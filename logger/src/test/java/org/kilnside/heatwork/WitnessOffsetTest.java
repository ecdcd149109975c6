package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.Calibration;

/** Independent: the ware is fired on a curve of its own, the sensor reads it wrong by a known amount. */
class WitnessOffsetTest {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);
    private static final double TRUE_C = 1222;

    @Test
    void conesDownAndUprightGiveTheErrorOfTheSensorWithinTheirRange() {
        WitnessOffset offset = WitnessOffset.of(
                        TABLE, read(-12), shelf(asFired("5"), asFired("6"), asFired("7"), asFired("8")))
                .orElseThrow();
        assertThat(offset.correctionK()).isCloseTo(12, within(offset.halfWidthK()));
        assertThat(offset.halfWidthK()).isBetween(3.0, 9.0);
        assertThat(offset.disagree()).isFalse();
        assertThat(offset.asCalibration().correctedC(1210)).isCloseTo(1210 + offset.correctionK(), within(1e-9));
    }

    @Test
    void aConeSeenGoingDownIsWorthMoreThanAnAngle() {
        Trace curve = read(-12);
        Trace truth = read(0);
        HeatWork work = new HeatWork(TABLE);
        int i = 0;
        do {
            work.add(truth.elapsedMs(i), truth.temperatureC(i));
            i++;
        } while (work.share(Cone.parse("6")).orElseThrow() < 1);
        WitnessOffset seen = WitnessOffset.of(
                        TABLE,
                        curve,
                        shelf(new WitnessCone(
                                Cone.parse("6"), OptionalDouble.empty(), OptionalLong.of(truth.elapsedMs(i - 1)))))
                .orElseThrow();
        assertThat(seen.correctionK()).isCloseTo(12, within(1.0));
        assertThat(seen.halfWidthK()).isLessThan(6);
    }

    @Test
    void aFlatConeAloneIsALowerBoundAndGivesNoOffset() {
        assertThat(WitnessOffset.of(TABLE, read(0), shelf(witness("6", 120)))).isEmpty();
        assertThat(WitnessOffset.of(TABLE, read(0), List.of())).isEmpty();
        assertThat(WitnessOffset.of(TABLE, Trace.EMPTY, shelf(witness("6", 60))))
                .isEmpty();
    }

    @Test
    void aPackThatContradictsItselfGivesNone() {
        assertThat(WitnessOffset.of(TABLE, read(0), shelf(witness("8", 120), witness("5", 0))))
                .isEmpty();
    }

    @Test
    void shelvesThatDifferAreSaidToAndLeaveAWideRange() {
        WitnessOffset offset = WitnessOffset.of(
                        TABLE,
                        read(0),
                        List.of(
                                new WitnessPack("top", List.of(witness("7", 90), witness("8", 60), witness("9", 0))),
                                new WitnessPack("bottom", List.of(witness("5", 60), witness("6", 5)))))
                .orElseThrow();
        assertThat(offset.disagree()).isTrue();
        assertThat(offset.halfWidthK()).isGreaterThan(15);
    }

    @Test
    void anglesAreReadFromUprightToDown() {
        assertThat(WitnessCone.Bend.ofDegrees(0)).isEqualTo(WitnessCone.Bend.UPRIGHT);
        assertThat(WitnessCone.Bend.ofDegrees(20)).isEqualTo(WitnessCone.Bend.BEGUN);
        assertThat(WitnessCone.Bend.ofDegrees(90)).isEqualTo(WitnessCone.Bend.DOWN);
        assertThat(WitnessCone.Bend.ofDegrees(120)).isEqualTo(WitnessCone.Bend.PAST);
        assertThatThrownBy(() -> WitnessCone.Bend.ofDegrees(-1)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void severalFiringsNarrowTheOffsetAndAGrowingOneIsDrift() {
        List<WitnessOffset> steady = new ArrayList<>();
        List<WitnessOffset> growing = new ArrayList<>();
        for (int firing = 0; firing < 8; firing++) {
            steady.add(new WitnessOffset(10 + firing % 2, 5, 1222, false));
            growing.add(new WitnessOffset(4 + 3 * firing, 5, 1222, false));
        }
        assertThat(WitnessOffset.after(steady).correctionK()).isCloseTo(10.5, within(1e-9));
        assertThat(WitnessOffset.after(steady).halfWidthK()).isLessThan(2.5);
        assertThat(WitnessOffset.driftKPerFiring(steady)).isEmpty();
        assertThat(WitnessOffset.driftKPerFiring(growing).orElseThrow()).isCloseTo(3, within(1e-9));
        assertThat(WitnessOffset.driftKPerFiring(growing.subList(0, 3))).isEmpty();
        assertThat(WitnessOffset.after(growing).correctionK()).isCloseTo(25, within(1e-9));
        assertThat(WitnessOffset.at(growing, 0).correctionK()).isCloseTo(4, within(1e-9));
        assertThatThrownBy(() -> WitnessOffset.after(List.of())).isInstanceOf(IllegalArgumentException.class);
    }

    /** What a sensor with this error reads while the ware goes to cone 6. */
    private static Trace read(double errorK) {
        return Curves.from(20).ramp(150, 1120).ramp(60, TRUE_C).ramp(200, 700).every(10_000, at -> errorK);
    }

    /** Bisque cones tell of bisque heat, glaze cones of glaze heat: neither says anything of the other. */
    @Test
    void bisqueAndGlazeFiringsMakeACalibrationWithAPointEach() {
        List<WitnessOffset> firings = List.of(
                new WitnessOffset(1, 6, 1000, false),
                new WitnessOffset(20, 6, 1222, false),
                new WitnessOffset(22, 6, 1230, false));
        Calibration known = WitnessOffset.calibration(firings, 2);
        assertThat(known.correctedC(1000)).isCloseTo(1001, within(1e-9));
        assertThat(known.correctedC(1226)).isCloseTo(1247, within(1e-9));
        assertThat(WitnessOffset.calibration(firings, 0).points()).hasSize(3);
    }

    /** How a cone looks after the true firing, bending in proportion to its heat work. */
    private static WitnessCone asFired(String cone) {
        double share = HeatWork.of(TABLE, read(0)).share(Cone.parse(cone)).orElseThrow();
        return witness(cone, Math.min(100, 5 * Math.rint(90 * share / 5)));
    }

    private static List<WitnessPack> shelf(WitnessCone... cones) {
        return List.of(new WitnessPack("middle", List.of(cones)));
    }

    private static WitnessCone witness(String cone, double degrees) {
        return new WitnessCone(Cone.parse(cone), OptionalDouble.of(degrees), OptionalLong.empty());
    }
}
