package org.kilnside.sensor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kilnside.quantity.Temperature;

class SensorUncertaintyTest {
    /** Published: IEC 60584-1:2013, as reprinted; the changes-over are printed too. */
    @ParameterizedTest
    @CsvSource({
        "K, CLASS_1, 375, 1.5, true",
        "K, CLASS_1, 1000, 4.0, true",
        "K, CLASS_2, 333, 2.5, true",
        "K, CLASS_2, 1200, 9.0, true",
        "K, CLASS_2, 1222, 9.165, false",
        "K, CLASS_1, 1222, 9.165, false",
        "K, CLASS_3, -167, 2.5, true",
        "K, CLASS_3, -200, 3.0, true",
        "N, CLASS_2, 1100, 8.25, true",
        "S, CLASS_1, 1100, 1.0, true",
        "S, CLASS_1, 1300, 1.6, true",
        "R, CLASS_2, 600, 1.5, true",
        "S, CLASS_2, 1300, 3.25, true",
        "S, CLASS_2, 1700, 4.25, false"
    })
    void aClassIsALimitAndSaysWhereItEnds(
            ThermocoupleType type, ToleranceClass tolerance, double atC, double halfWidthC, boolean within) {
        ToleranceClass.Limit limit = tolerance.limit(type, atC);
        assertThat(limit.halfWidth().kelvin()).isCloseTo(halfWidthC, within(0.01));
        assertThat(limit.withinClass()).isEqualTo(within);
    }

    @Test
    void everyTypeHasALimitEverywhereInEveryClass() {
        for (ThermocoupleType type : ThermocoupleType.values()) {
            for (ToleranceClass tolerance : ToleranceClass.values()) {
                for (double atC = -200; atC <= 1800; atC += 50) {
                    assertThat(tolerance.limit(type, atC).halfWidth().kelvin()).isGreaterThanOrEqualTo(0.5);
                }
            }
        }
    }

    @Test
    void aboveItsClassATypeKSensorIsUncertainByAtLeastNineDegrees() {
        SensorUncertainty sensor = new SensorUncertainty(
                new Probe(ThermocoupleType.K, Amplifier.MAX31855), ToleranceClass.CLASS_1, Calibration.NONE);
        assertThat(sensor.withinClass(950)).isTrue();
        assertThat(sensor.withinClass(1222)).isFalse();
        assertThat(sensor.halfWidthC(1222)).isBetween(9.0, 11.0);
        assertThat(sensor.parts(1222).get(0).source()).isEqualTo(SensorUncertainty.Source.WIRE_OUTSIDE_CLASS);
    }

    @Test
    void anAssumedColdJunctionIsASmallPartOfItsOwn() {
        SensorUncertainty sensor = new SensorUncertainty(
                new Probe(ThermocoupleType.K, Amplifier.MAX6675), ToleranceClass.CLASS_2, Calibration.NONE);
        assertThat(sensor.parts(900))
                .anySatisfy(part -> {
                    assertThat(part.source()).isEqualTo(SensorUncertainty.Source.ASSUMED_COLD_JUNCTION);
                    assertThat(part.halfWidth().kelvin()).isLessThan(1);
                })
                .hasSize(3);
    }

    /** Independent: with type S and the board 45 °C colder than assumed, 1240 °C are read as some 14 °C less. */
    @Test
    void aCorrectionThatHasToAssumeHowWarmTheBoardIsSaysSoWhereItMatters() {
        Probe probe = new Probe(ThermocoupleType.S, Amplifier.MAX31855);
        SensorUncertainty told = new SensorUncertainty(probe, ToleranceClass.CLASS_2, Calibration.NONE);
        SensorUncertainty assumed = new SensorUncertainty(probe, ToleranceClass.CLASS_2, Calibration.NONE, false);
        assertThat(told.parts(1240)).noneMatch(part -> part.source() == SensorUncertainty.Source.ASSUMED_COLD_JUNCTION);
        assertThat(assumed.parts(1240))
                .filteredOn(part -> part.source() == SensorUncertainty.Source.ASSUMED_COLD_JUNCTION)
                .singleElement()
                .satisfies(part -> assertThat(part.halfWidth().kelvin()).isBetween(4.0, 5.0));
    }

    /** Maxim 19-2235: a MAX6675 ends at 1023.75 °C; uncorrected that is truly 1017.3 °C (independent: ITS-90 in 40 digits). */
    @Test
    void aSensorEndsWhereItsChipDoes() {
        assertThat(SensorUncertainty.UNKNOWN.endsAt(1023.75)).isTrue();
        assertThat(SensorUncertainty.UNKNOWN.endsAt(1222)).isFalse();
        SensorUncertainty chip = new SensorUncertainty(
                new Probe(ThermocoupleType.K, Amplifier.MAX6675), ToleranceClass.CLASS_2, Calibration.NONE);
        assertThat(chip.endsAt(1023.75)).isFalse();
        assertThat(chip.endsAt(1017.3)).isTrue();
    }

    @Test
    void aCalibrationTakesThePlaceOfTheClassWhereItReaches() {
        Calibration calibration =
                Calibration.of(List.of(new Calibration.Point(1222, 12, 4, Calibration.By.WITNESS_CONES)));
        SensorUncertainty sensor = new SensorUncertainty(Probe.UNKNOWN, ToleranceClass.CLASS_2, calibration);
        assertThat(sensor.halfWidthC(1222)).isCloseTo(4, within(1e-9));
        assertThat(sensor.halfWidthC(1122)).isCloseTo(5, within(1e-9));
        assertThat(sensor.halfWidthC(600)).isGreaterThan(4);
        assertThat(sensor.parts(600).get(0).source()).isEqualTo(SensorUncertainty.Source.WIRE);
    }

    @Test
    void correctsByAnOffsetOrBetweenPoints() {
        assertThat(Calibration.NONE.correctedC(1000)).isEqualTo(1000);
        Calibration offset = Calibration.offset(-3, 1, Calibration.By.THERMOMETER);
        assertThat(offset.corrected(Temperature.ofCelsius(100))).isEqualTo(Temperature.ofCelsius(97));
        assertThat(offset.covers(1200)).isTrue();
        assertThat(offset.halfWidthC(1200)).isEqualTo(1);
        Calibration points = Calibration.of(List.of(
                new Calibration.Point(1000, 10, 4, Calibration.By.WITNESS_CONES),
                new Calibration.Point(100, 1, 1, Calibration.By.FIXED_POINT)));
        assertThat(points.correctedC(550)).isCloseTo(555.5, within(1e-9));
        assertThat(points.correctedC(1200)).isCloseTo(1210, within(1e-9));
        assertThat(points.correctedC(0)).isCloseTo(1, within(1e-9));
    }

    @Test
    void refusesPointsThatContradictOrSayNothing() {
        Calibration.Point point = new Calibration.Point(1000, 10, 4, Calibration.By.WITNESS_CONES);
        assertThatThrownBy(() -> Calibration.of(List.of(point, point)))
                .hasMessage("two calibration points stand at 1000.0 °C; keep the better one");
        assertThatThrownBy(() -> new Calibration.Point(1000, 10, 0, Calibration.By.THERMOMETER))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Calibration.NONE.halfWidthC(20)).isInstanceOf(IllegalStateException.class);
    }
}
