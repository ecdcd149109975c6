package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Calibration.By;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;

/** What the book knows of a sensor changes what a reading means, from the first reading on or in mid-firing. */
class KnownSensorTest {
    private static final SensorInPlace TEN_LOW =
            SensorInPlace.asSaid(Probe.UNKNOWN).calibrated(Calibration.offset(10, 3, By.THERMOMETER));

    private static HandFiring knowing(SensorInPlace sensor) {
        return new HandFiring(HandFiring.TALL_DRUM.withSensor(sensor));
    }

    @Test
    void everythingThatFollowsFromAReadingIsCorrectedAndTheBookKeepsTheCode() {
        HandFiring firing = knowing(TEN_LOW);
        firing.ramp(20, 700, 4_000);
        Snapshot snapshot = firing.watch.snapshot();
        assertThat(snapshot.latest().orElseThrow().temperature().orElseThrow().celsius())
                .isCloseTo(710, within(1e-9));
        assertThat(snapshot.latest().orElseThrow().shown().orElseThrow().celsius())
                .isCloseTo(700, within(1e-9));
        assertThat(snapshot.curve().temperatureC(snapshot.curve().size() - 1)).isCloseTo(710, within(0.3));
        assertThat(snapshot.peak().orElseThrow().temperature().celsius()).isCloseTo(710, within(0.3));
        assertThat(firing.book.readings.get(0).get(3_999).first().raw().thermocouple())
                .hasValue(70_000);
    }

    @Test
    void aCalibrationNotedInMidFiringGivesTheSameAsOneThatWasKnownFromTheBegin() {
        HandFiring knows = knowing(TEN_LOW);
        knows.ramp(20, 700, 4_000);
        FiringWatch known = knows.watch;
        HandFiring other = new HandFiring();
        other.ramp(20, 700, 4_000);
        FiringWatch told = other.watch;
        assertThat(told.snapshot().latest().orElseThrow().shown()).isEmpty();
        told.sensor(TEN_LOW);
        told.lookRound();
        assertThat(told.snapshot().curve().size())
                .isEqualTo(known.snapshot().curve().size());
        for (int i = 0; i < told.snapshot().curve().size(); i++) {
            assertThat(told.snapshot().curve().temperatureC(i))
                    .isEqualTo(known.snapshot().curve().temperatureC(i));
        }
        assertThat(told.snapshot().findings().cone())
                .isPresent()
                .isEqualTo(known.snapshot().findings().cone());
        List<Object> before = new ArrayList<>(other.book.events.get(0));
        told.sensor(TEN_LOW);
        told.lookRound();
        assertThat(other.book.events.get(0)).as("nothing new, nothing done").isEqualTo(before);
    }

    /** A MAX31855 that shows 1222 °C with the board at 25 °C stands at 1243 °C (computed from ITS-90). */
    @Test
    void degreesOfAControllerThatDoesNotCorrectItsChipAreCorrectedWhereThePersonSaidSo() {
        HandFiring firing = knowing(SensorInPlace.asSaid(Probe.UNKNOWN).shownBy(Optional.of(Amplifier.MAX31855)));
        firing.ramp(20, 1222, 8_000);
        Snapshot.Latest latest = firing.watch.snapshot().latest().orElseThrow();
        assertThat(latest.temperature().orElseThrow().celsius()).isCloseTo(1243, within(1.0));
        assertThat(latest.shown().orElseThrow().celsius()).isCloseTo(1222, within(1e-9));
    }

    @Test
    void aSensorTheControllerDoesNotHaveCorrectsNothing() {
        HandFiring firing = knowing(TEN_LOW);
        firing.watch.hello(new ReadingSource.ControllerHello(
                Optional.empty(),
                Optional.empty(),
                List.of(new Probe(ThermocoupleType.S, Amplifier.MAX31856)),
                OptionalInt.of(1_000),
                OptionalLong.of(1_000)));
        firing.ramp(20, 700, 4_000);
        assertThat(firing.watch
                        .snapshot()
                        .latest()
                        .orElseThrow()
                        .temperature()
                        .orElseThrow()
                        .celsius())
                .isCloseTo(700, within(1e-9));
    }
}
