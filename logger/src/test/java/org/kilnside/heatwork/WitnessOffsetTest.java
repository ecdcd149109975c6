package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

/** Independent: the ware is fired on a curve of its own, the sensor reads it wrong by a known amount. */
class WitnessOffsetTest {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);
    private static final double TRUE_C = 1222;

    @Test
    void conesDownAndUprightGiveTheErrorOfTheSensorWithinTheirRange() {
        WitnessOffset offset = WitnessOffset.of(
                        TABLE, read(-12), List.of(asFired("5"), asFired("6"), asFired("7"), asFired("8")))
                .orElseThrow();
        assertThat(offset.correctionK()).isCloseTo(12, within(offset.halfWidthK()));
        assertThat(offset.halfWidthK()).isBetween(3.0, 8.0);
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
                        List.of(new WitnessCone(
                                Cone.parse("6"), WitnessCone.Bend.PAST, OptionalLong.of(truth.elapsedMs(i - 1)))))
                .orElseThrow();
        assertThat(seen.correctionK()).isCloseTo(12, within(1.0));
        assertThat(seen.halfWidthK()).isLessThan(5);
    }

    @Test
    void aFlatConeAloneIsALowerBoundAndGivesNoOffset() {
        assertThat(WitnessOffset.of(TABLE, read(0), List.of(witness("6", WitnessCone.Bend.PAST))))
                .isEmpty();
        assertThat(WitnessOffset.of(TABLE, read(0), List.of())).isEmpty();
        assertThat(WitnessOffset.of(TABLE, Trace.EMPTY, List.of(witness("6", WitnessCone.Bend.DOWN))))
                .isEmpty();
    }

    @Test
    void conesThatContradictOneAnotherAreSaidTo() {
        WitnessOffset offset = WitnessOffset.of(
                        TABLE,
                        read(0),
                        List.of(witness("8", WitnessCone.Bend.PAST), witness("5", WitnessCone.Bend.UPRIGHT)))
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
        assertThat(WitnessOffset.mean(steady).correctionK()).isCloseTo(10.5, within(1e-9));
        assertThat(WitnessOffset.mean(steady).halfWidthK()).isLessThan(2.5);
        assertThat(WitnessOffset.driftKPerFiring(steady)).isEmpty();
        assertThat(WitnessOffset.driftKPerFiring(growing).orElseThrow()).isCloseTo(3, within(1e-9));
        assertThat(WitnessOffset.driftKPerFiring(growing.subList(0, 3))).isEmpty();
        assertThatThrownBy(() -> WitnessOffset.mean(List.of())).isInstanceOf(IllegalArgumentException.class);
    }

    /** What a sensor with this error reads while the ware goes to cone 6. */
    private static Trace read(double errorK) {
        return Curves.from(20).ramp(150, 1120).ramp(60, TRUE_C).ramp(200, 700).every(10_000, at -> errorK);
    }

    /** How a cone looks after the true firing. */
    private static WitnessCone asFired(String cone) {
        double share = HeatWork.of(TABLE, read(0)).share(Cone.parse(cone)).orElseThrow();
        WitnessCone.Bend bend = share > 1.1
                ? WitnessCone.Bend.PAST
                : share > 0.92
                        ? WitnessCone.Bend.DOWN
                        : share > 0.7
                                ? WitnessCone.Bend.HALF
                                : share > 0.48 ? WitnessCone.Bend.BEGUN : WitnessCone.Bend.UPRIGHT;
        return witness(cone, bend);
    }

    private static WitnessCone witness(String cone, WitnessCone.Bend bend) {
        return new WitnessCone(Cone.parse(cone), bend, OptionalLong.empty());
    }
}
