package org.kilnside.sensor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Calibration.By;
import org.kilnside.sensor.Calibration.Point;

class CalibratedThermometerTest {
    private static final Temperature BOARD = Temperature.ofCelsius(25);

    private static CalibratedThermometer of(Probe probe, Optional<Amplifier> uncorrected, Calibration calibration) {
        return CalibratedThermometer.of(
                SensorInPlace.asSaid(probe).shownBy(uncorrected).calibrated(calibration));
    }

    /** A MAX31855 that shows 1222 °C with the board at 25 °C stands at 1243 °C (computed, ITS-90 and Maxim 19-5793). */
    @Test
    void anUncorrectedChipIsCorrectedAndItsShownNumberIsGivenBesideIt() {
        CalibratedThermometer thermometer =
                CalibratedThermometer.of(SensorInPlace.asSaid(new Probe(ThermocoupleType.K, Amplifier.MAX31855)));
        RawSignal signal = RawSignal.of(1222 * 4, 25 * 16);
        assertThat(thermometer.temperature(signal).orElseThrow().celsius()).isCloseTo(1243, within(1.0));
        assertThat(thermometer.shown(signal).orElseThrow().celsius()).isEqualTo(1222);
        assertThat(thermometer
                        .shownAt(Temperature.ofCelsius(1222), BOARD)
                        .orElseThrow()
                        .celsius())
                .as("what to key in to have 1222 °C")
                .isBetween(1202.0, 1205.0);
        assertThat(thermometer.corrects()).isFalse();
    }

    /** The same chip behind a controller that sends °C of its own: asked of the person, corrected all the same. */
    @Test
    void aControllersOwnDegreesThatAreAChipsNumberAreCorrectedToo() {
        Probe celsius = new Probe(ThermocoupleType.K, Amplifier.CELSIUS);
        CalibratedThermometer thermometer = of(celsius, Optional.of(Amplifier.MAX31855), Calibration.NONE);
        RawSignal signal = RawSignal.of(122_200, 2_500);
        assertThat(thermometer.temperature(signal).orElseThrow().celsius()).isCloseTo(1243, within(1.0));
        assertThat(thermometer.shown(signal).orElseThrow().celsius()).isEqualTo(1222);
        assertThat(thermometer.corrects()).isTrue();
        assertThat(of(celsius, Optional.empty(), Calibration.NONE).corrects()).isFalse();
        assertThat(thermometer.sensor().uncertainty().parts(1222))
                .extracting(SensorUncertainty.Part::source)
                .contains(SensorUncertainty.Source.AMPLIFIER);
    }

    @Test
    void betweenTruthAndShownNumberItGoesBothWaysWithACalibrationInBetween() {
        Calibration calibration =
                Calibration.of(List.of(new Point(0, 0, 1, By.FIXED_POINT), new Point(1200, -9, 3, By.WITNESS_CONES)));
        for (Amplifier chip : List.of(Amplifier.MAX31855, Amplifier.MAX31856)) {
            Probe probe = new Probe(ThermocoupleType.K, chip);
            CalibratedThermometer thermometer =
                    of(probe, chip.linearises() ? Optional.empty() : Optional.of(chip), calibration);
            for (double truthC = 20; truthC < 1260; truthC += 31) {
                Temperature shown = thermometer
                        .shownAt(Temperature.ofCelsius(truthC), BOARD)
                        .orElseThrow();
                assertThat(thermometer.behind(shown, BOARD).orElseThrow().celsius())
                        .isCloseTo(truthC, within(1e-6));
            }
        }
    }

    @Test
    void aControllerThatCorrectsItsChipShowsTheTemperature() {
        CalibratedThermometer thermometer =
                of(new Probe(ThermocoupleType.K, Amplifier.MAX31855), Optional.empty(), Calibration.NONE);
        RawSignal signal = RawSignal.of(1222 * 4, 25 * 16);
        assertThat(thermometer.shown(signal)).isEqualTo(thermometer.temperature(signal));
        assertThatThrownBy(() -> SensorInPlace.asSaid(Probe.UNKNOWN).shownBy(Optional.of(Amplifier.MAX31856)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("needs no correction");
    }

    @Test
    void twoCalibrationsOneAfterTheOtherAddUpAndTheirDoubtsAddAsSquares() {
        Calibration compared =
                Calibration.of(List.of(new Point(0, 1, 3, By.FIXED_POINT), new Point(1000, 11, 3, By.THERMOMETER)));
        Calibration cones = Calibration.of(
                List.of(new Point(0, 0, 4, By.WITNESS_CONES), new Point(1211, 12.11, 4, By.WITNESS_CONES)));
        Calibration both = compared.then(cones);
        for (double readingC = 0; readingC <= 1200; readingC += 50) {
            assertThat(both.correctedC(readingC))
                    .isCloseTo(cones.correctedC(compared.correctedC(readingC)), within(0.02));
        }
        assertThat(both.halfWidthC(0)).isCloseTo(5, within(1e-9));
        assertThat(compared.then(Calibration.NONE)).isSameAs(compared);
        assertThat(Calibration.NONE.then(cones)).isSameAs(cones);
        assertThat(Calibration.of(compared.points())).isEqualTo(compared).hasSameHashCodeAs(compared);
    }
}
