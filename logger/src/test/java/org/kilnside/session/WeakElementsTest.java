package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.ReferenceFunction;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.Thermometer;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.SensorSpec;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

/**
 * A kiln whose elements are worn until it no longer reaches a top takes power as one with a wire of the wrong type does. Its
 * number is right all the same, and sooner or later that shows. The virtual kiln's physics are not the alarms' own.
 */
class WeakElementsTest {
    private static final Schedule GLAZE = Programs.glaze(1222, 70);

    private final AlarmReplay replay = new AlarmReplay(
            FiringSettings.of(Optional.of("Tall Drum"), Optional.of(GLAZE), Optional.empty()),
            SensorSpec.typeK(Amplifier.MAX31856).probe(),
            Optional.empty(),
            900_000);
    private double highestC;
    private Optional<VirtualFiring> firing = Optional.empty();

    private static VirtualFiring worn(double resistance) {
        return VirtualFiring.of(VirtualKilns.TALL_DRUM, GLAZE)
                .load(Load.biscuit(18, 14))
                .sensors(SensorSpec.typeK(Amplifier.MAX31856))
                .elementResistance(resistance)
                .controller(ControllerSpec.waiting())
                .interval(10)
                .seed(4)
                .start();
    }

    private void fire(double resistance, double untilC) {
        VirtualFiring kiln = firing.orElseGet(() -> worn(resistance));
        firing = Optional.of(kiln);
        Thermometer thermometer = Thermometer.of(kiln.probes().get(0));
        for (long atMs = 0; atMs < 30 * 3_600_000L && highestC < untilC; ) {
            VirtualFiring.Moment now = kiln.next();
            atMs = now.elapsedMs();
            Optional<Temperature> shown = thermometer.temperature(now.signals().get(0));
            highestC = Math.max(highestC, shown.map(Temperature::celsius).orElse(0.0));
            replay.take(SimulatedWatch.reading(now, shown, thermometer, ControllerSpec.Reports.ALL));
        }
    }

    private List<AlarmKind> raised() {
        return replay.changes().stream()
                .filter(change -> change.what() == AlarmChange.What.RAISED)
                .map(change -> change.alarm().kind())
                .toList();
    }

    @ParameterizedTest
    @ValueSource(doubles = {2, 3, 3.5, 4})
    void weakElementsThatFallShortByLittleAreNoWrongWire(double resistance) {
        fire(resistance, 450);
        assertThat(raised()).doesNotContain(AlarmKind.SENSOR_LYING);
        assertThat(replay.isNumberWithdrawn()).isFalse();
    }

    @Test
    void aNumberThatClimbsToWhereNoWrongWireTakesItIsBelievedAgain() {
        fire(4.5, 390);
        assertThat(raised()).contains(AlarmKind.SENSOR_LYING);
        fire(4.5, 450);
        assertThat(replay.isNumberWithdrawn()).isFalse();
    }

    /** Published (ITS-90): what the voltage of a number is in a wire of platinum, hotter than any wire kiln gets. */
    @Test
    void noKilnIsAsHotAsAPlatinumWireWouldHaveToBeToShowFourHundredDegrees() {
        double millivolts = ReferenceFunction.of(ThermocoupleType.K).emfMv(400);
        for (ThermocoupleType wire : List.of(ThermocoupleType.S, ThermocoupleType.R, ThermocoupleType.B)) {
            ReferenceFunction table = ReferenceFunction.of(wire);
            double trueC = millivolts > table.highestMv() ? 1820 : table.temperatureC(millivolts);
            assertThat(trueC).as("%s", wire).isGreaterThan(1400);
        }
    }
}
