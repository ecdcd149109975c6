package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;

/** A number that stands still: a sensor that froze, or a kiln held where it is meant to be. Curves drawn by hand. */
class StandingStillTest {
    private static final Schedule PLAN = new Schedule(
            "Bisque",
            List.of(
                    new Segment.Ramp(
                            HeatingRate.ofKelvinPerHour(150), Temperature.ofCelsius(1000), Duration.ofMinutes(25)),
                    new Segment.FreeCooling()));

    /** 150 °C/h to 1000 °C, 25 minutes there, then down. */
    private static double curve(double minute) {
        double there = 980 / 2.5;
        return minute < there
                ? 20 + 2.5 * minute
                : minute < there + 25 ? 1000 : 20 + 980 * Math.exp(-(minute - there - 25) / 300);
    }

    private static Optional<Double> frozenAtMinute(
            boolean planned, boolean setpoint, DoubleUnaryOperator shown, double until) {
        AlarmReplay replay = new AlarmReplay(
                FiringSettings.of(Optional.empty(), planned ? Optional.of(PLAN) : Optional.empty(), Optional.empty()),
                Probe.UNKNOWN,
                Optional.empty(),
                900_000);
        for (long s = 0; s < until * 60; s += 10) {
            double celsius = shown.applyAsDouble(s / 60.0);
            Temperature it = Temperature.ofCelsius(celsius);
            int code = (int) Math.round(celsius / Amplifier.CELSIUS.thermocoupleStepC());
            Optional<Temperature> wanted = setpoint && s / 60.0 < 980 / 2.5 + 25
                    ? Optional.of(Temperature.ofCelsius(curve(s / 60.0)))
                    : Optional.empty();
            replay.take(Reading.of(
                    s * 1000,
                    List.of(new Channel(
                            1,
                            new RawSignal(OptionalInt.of(code), OptionalInt.empty(), 0),
                            Optional.of(it),
                            Optional.empty())),
                    new ControllerReport(Optional.empty(), wanted, OptionalInt.empty()),
                    Origin.LIVE));
        }
        return replay.changes().stream()
                .filter(change -> change.what() == AlarmChange.What.RAISED)
                .filter(change -> change.alarm().kind() == AlarmKind.SENSOR_FROZEN)
                .findFirst()
                .map(change -> change.elapsedMs() / 60_000.0);
    }

    @Test
    void aHoldInWholeDegreesIsNoFrozenSensorWhereTheSetPointOrThePlanExplainsIt() {
        DoubleUnaryOperator whole = minute -> Math.rint(curve(minute));
        assertThat(frozenAtMinute(false, true, whole, 600)).isEmpty();
        assertThat(frozenAtMinute(true, false, whole, 600)).isEmpty();
        assertThat(frozenAtMinute(false, true, StandingStillTest::curve, 600)).isEmpty();
    }

    @Test
    void aNumberThatStopsInARampIsFrozenWithinMinutes() {
        DoubleUnaryOperator stops = minute -> Math.rint(curve(Math.min(minute, 300)));
        assertThat(frozenAtMinute(false, true, stops, 320).orElseThrow()).isBetween(303.0, 306.0);
        assertThat(frozenAtMinute(true, false, stops, 320).orElseThrow()).isBetween(303.0, 306.0);
        assertThat(frozenAtMinute(false, false, stops, 320).orElseThrow()).isBetween(303.0, 306.0);
    }

    @Test
    void aSensorWithNoiseThatStopsInTheHoldIsFrozenWithinMinutesToo() {
        Random random = new Random(4);
        double[] last = {20};
        DoubleUnaryOperator stops = minute -> {
            last[0] = minute < 400 ? curve(minute) + 0.3 * random.nextGaussian() : last[0];
            return Math.rint(last[0] * 4) / 4;
        };
        assertThat(frozenAtMinute(false, true, stops, 415).orElseThrow()).isBetween(403.0, 406.0);
    }

    @Test
    void aNumberThatStaysWhereTheHoldWasIsFrozenWhenTheSetPointIsTakenAway() {
        DoubleUnaryOperator stays = minute -> Math.rint(curve(Math.min(minute, 400)));
        assertThat(frozenAtMinute(false, true, stays, 440).orElseThrow()).isLessThan(424);
    }
}
