package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.Thermometer;

/** What a controller's set-point is held against: trade-facts, a type K shown 1222 °C by a MAX31855 is truly 1243 °C. */
class SteeringNumberTest {
    private static final Probe CHIP = new Probe(ThermocoupleType.K, Amplifier.MAX31855);

    private static List<Reading> held(Probe probe, double codeC, double setpointC) {
        List<Reading> readings = new ArrayList<>();
        RawSignal signal = RawSignal.of(
                code(codeC, probe.amplifier().thermocoupleStepC()),
                code(25, probe.amplifier().coldJunctionStepC()));
        Thermometer thermometer = Thermometer.of(probe);
        for (int i = 0; i < 600; i++) {
            readings.add(Reading.of(
                    1000L * i,
                    List.of(new Channel(1, signal, thermometer.temperature(signal), thermometer.coldJunction(signal))),
                    new ControllerReport(
                            Optional.empty(), Optional.of(Temperature.ofCelsius(setpointC)), OptionalInt.empty()),
                    Origin.LIVE));
        }
        return readings;
    }

    private static int code(double celsius, double stepC) {
        return (int) Math.round(celsius / stepC);
    }

    private static Trace followed(SensorInPlace sensor, List<Reading> readings) {
        return FollowedFiring.of(Optional.empty(), Optional.of(sensor), readings)
                .curve();
    }

    private static double lastSetpointC(Trace curve) {
        return curve.setpointC(curve.size() - 1).orElseThrow();
    }

    @Test
    void aControllerOnItsSetpointByTheChipsNumberIsNotTwentyDegreesAboveIt() {
        Trace curve = followed(SensorInPlace.asSaid(CHIP), held(CHIP, 1222, 1222));
        assertThat(curve.temperatureC(curve.size() - 1)).isCloseTo(1243.4, within(0.2));
        assertThat(lastSetpointC(curve)).isCloseTo(1243.4, within(0.2));
    }

    @Test
    void aControllerThatCorrectsForItselfKeepsItsSetpoint() {
        Trace curve = followed(SensorInPlace.asSaid(CHIP), held(CHIP, 1222, 1243));
        assertThat(lastSetpointC(curve)).isCloseTo(1243, within(0.01));
    }

    @Test
    void whereItWasSaidThatItPassesOnAChipsNumberTheSetpointIsOneFromTheBegin() {
        Probe own = new Probe(ThermocoupleType.K, Amplifier.CELSIUS);
        Trace curve =
                followed(SensorInPlace.asSaid(own).shownBy(Optional.of(Amplifier.MAX31855)), held(own, 1222, 1222));
        assertThat(curve.setpointC(0).orElseThrow()).isCloseTo(1243.4, within(0.3));
    }

    @Test
    void aCalibrationMovesTheSetpointWithTheTemperature() {
        Probe own = new Probe(ThermocoupleType.K, Amplifier.CELSIUS);
        SensorInPlace low =
                SensorInPlace.asSaid(own).calibrated(Calibration.offset(9, 3, Calibration.By.WITNESS_CONES));
        Trace curve = followed(low, held(own, 1222, 1222));
        assertThat(curve.temperatureC(0)).isCloseTo(1231, within(0.01));
        assertThat(lastSetpointC(curve)).isCloseTo(1231, within(0.01));
    }

    @Test
    void belowTheTemperaturesWhereTheTwoDifferNothingIsDecided() {
        Trace curve = followed(SensorInPlace.asSaid(CHIP), held(CHIP, 500, 500));
        assertThat(lastSetpointC(curve)).isCloseTo(500, within(0.01));
    }
}
