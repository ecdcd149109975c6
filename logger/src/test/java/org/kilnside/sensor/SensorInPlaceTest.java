package org.kilnside.sensor;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class SensorInPlaceTest {
    private static final Probe PROBE = new Probe(ThermocoupleType.K, Amplifier.MAX31855);
    private final SensorInPlace known = SensorInPlace.uncalibrated(
                    PROBE, "fitted in spring", "left wall, middle shelf", ToleranceClass.CLASS_2)
            .calibrated(Calibration.offset(12, 4, Calibration.By.WITNESS_CONES));

    @Test
    void aNewSensorEndsTheCalibration() {
        SensorInPlace renewed = known.replacedBy(PROBE, "fitted in autumn", ToleranceClass.CLASS_1);
        assertThat(renewed.calibration()).isSameAs(Calibration.NONE);
        assertThat(renewed.place()).isEqualTo(known.place());
        assertThat(renewed.isSameAs(known)).isFalse();
    }

    @Test
    void aNewPlaceEndsTheCalibrationAndTheSamePlaceDoesNot() {
        assertThat(known.movedTo("lid").calibration()).isSameAs(Calibration.NONE);
        assertThat(known.movedTo("left wall, middle shelf")).isEqualTo(known);
    }

    @Test
    void aBetterCalibrationIsStillTheSameSensor() {
        SensorInPlace better = known.calibrated(Calibration.offset(11, 2, Calibration.By.WITNESS_CONES));
        assertThat(better.isSameAs(known)).isTrue();
        assertThat(better.uncertainty().halfWidthC(1222)).isEqualTo(2);
    }
}
