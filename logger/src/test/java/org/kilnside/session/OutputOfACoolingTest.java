package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;

/** A controller that tells full output on each line, through the cooling too. Curves drawn by hand. */
class OutputOfACoolingTest {
    private static final double TOP_H = 7;

    /** To 1000 °C as at full power; then left to itself, or as one says. */
    private static double curve(double hour, DoubleUnaryOperator after) {
        return hour < TOP_H ? 20 + 1150 * (1 - Math.exp(-hour / 3.6)) : after.applyAsDouble(hour - TOP_H);
    }

    private static final double TOP_C = curve(TOP_H - 1e-9, hour -> 0);

    private static List<AlarmChange> rung(DoubleUnaryOperator after, double untilH) {
        AlarmReplay replay = new AlarmReplay(
                FiringSettings.of(Optional.empty(), Optional.empty(), Optional.empty()),
                Probe.UNKNOWN,
                Optional.empty(),
                900_000);
        for (long s = 0; s < untilH * 3600; s += 10) {
            double celsius = curve(s / 3600.0, after);
            int code = (int) Math.round(celsius / Amplifier.CELSIUS.thermocoupleStepC());
            replay.take(Reading.of(
                    s * 1000,
                    List.of(new Channel(
                            1,
                            new RawSignal(OptionalInt.of(code), OptionalInt.empty(), 0),
                            Optional.of(Temperature.ofCelsius(celsius)),
                            Optional.empty())),
                    new ControllerReport(Optional.of(Share.ALL), Optional.empty(), OptionalInt.empty()),
                    Origin.LIVE));
        }
        return replay.changes();
    }

    private static List<AlarmKind> raised(List<AlarmChange> changes) {
        return changes.stream()
                .filter(change -> change.what() == AlarmChange.What.RAISED)
                .map(change -> change.alarm().kind())
                .toList();
    }

    @Test
    void aCoolingAtFullOutputSaysOnceThatTheOutputIsNone() {
        List<AlarmChange> changes = rung(hour -> 20 + (TOP_C - 20) * Math.pow(0.5, hour / 3), TOP_H + 16);
        assertThat(raised(changes))
                .doesNotContain(AlarmKind.SENSOR_LYING)
                .containsOnlyOnce(AlarmKind.OUTPUT_CONTRADICTED);
    }

    /** The wire touches in the wall: the number sinks from there to the room's while the kiln takes all it can. */
    @Test
    void aSensorThatReadsLowOverAKilnAtFullPowerRingsAllTheSame() {
        for (double fallsToC : new double[] {30, 120, 300, 600}) {
            List<AlarmChange> changes = rung(hour -> 20 + (fallsToC - 20) * Math.pow(0.5, hour / 3), TOP_H + 6);
            assertThat(raised(changes)).as("%s", fallsToC).doesNotContain(AlarmKind.OUTPUT_CONTRADICTED);
            assertThat(changes.stream()
                            .map(AlarmChange::alarm)
                            .filter(alarm -> alarm.kind().withdrawsNumber() && !alarm.isOver()))
                    .as("%s", fallsToC)
                    .isNotEmpty();
        }
    }
}
