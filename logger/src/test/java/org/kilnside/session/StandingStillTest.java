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
import org.kilnside.quantity.Share;
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
        return rangAtMinute(AlarmKind.SENSOR_FROZEN, planned, setpoint, shown, minute -> Double.NaN, until);
    }

    private static Optional<Double> rangAtMinute(
            AlarmKind kind,
            boolean planned,
            boolean setpoint,
            DoubleUnaryOperator shown,
            DoubleUnaryOperator output,
            double until) {
        return rangAtMinute(kind, planned ? Optional.of(PLAN) : Optional.empty(), setpoint, shown, output, until);
    }

    /** @param output the share of full power; not a number where the controller does not say */
    private static Optional<Double> rangAtMinute(
            AlarmKind kind,
            Optional<Schedule> plan,
            boolean setpoint,
            DoubleUnaryOperator shown,
            DoubleUnaryOperator output,
            double until) {
        AlarmReplay replay = new AlarmReplay(
                FiringSettings.of(Optional.empty(), plan, Optional.empty()), Probe.UNKNOWN, Optional.empty(), 900_000);
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
                    new ControllerReport(
                            Optional.of(output.applyAsDouble(s / 60.0))
                                    .filter(share -> !share.isNaN())
                                    .map(Share::new),
                            wanted,
                            OptionalInt.empty()),
                    Origin.LIVE));
        }
        return replay.changes().stream()
                .filter(change -> change.what() == AlarmChange.What.RAISED)
                .filter(change -> change.alarm().kind() == kind)
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
        DoubleUnaryOperator stops = minute -> Math.rint(curve(Math.min(minute, 299)));
        assertThat(frozenAtMinute(false, true, stops, 320).orElseThrow()).isBetween(302.0, 305.5);
        assertThat(frozenAtMinute(true, false, stops, 320).orElseThrow()).isBetween(302.0, 305.5);
        assertThat(frozenAtMinute(false, false, stops, 320).orElseThrow()).isBetween(302.0, 305.5);
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

    /** As above, but for a hold of four hours at 85 °C on the way up, a number that never flickers. */
    private static double candled(double minute) {
        return minute < 26 ? 20 + 2.5 * minute : minute < 26 + 240 ? 85 : curve(minute - 240);
    }

    private static double askedAtMinute(DoubleUnaryOperator shown, double until) {
        return rangAtMinute(AlarmKind.NUMBER_STANDS, false, false, shown, minute -> Double.NaN, until)
                .orElseThrow();
    }

    @Test
    void aHoldOfHoursThatNobodyToldIsAskedAboutAndNotCalledFrozen() {
        DoubleUnaryOperator quarters = minute -> Math.rint(candled(minute) * 4) / 4;
        DoubleUnaryOperator whole = minute -> Math.rint(candled(minute));
        DoubleUnaryOperator wholeAndSoft = minute -> Math.rint(85 - 65 * Math.exp(-minute / 12));
        assertThat(askedAtMinute(StandingStillTest::candled, 700)).isBetween(86.0, 88.0);
        assertThat(askedAtMinute(quarters, 700)).isBetween(35.0, 38.0);
        assertThat(askedAtMinute(whole, 700)).isBetween(35.0, 38.0);
        assertThat(askedAtMinute(wholeAndSoft, 300)).isBetween(115.0, 135.0);
        for (DoubleUnaryOperator each : List.<DoubleUnaryOperator>of(StandingStillTest::candled, quarters, whole)) {
            assertThat(frozenAtMinute(false, false, each, 700)).isEmpty();
        }
        assertThat(frozenAtMinute(false, false, wholeAndSoft, 300)).isEmpty();
    }

    @Test
    void wholeDegreesThatStopInARampOnARoundNumberAreAskedAboutWithinMinutes() {
        assertThat(askedAtMinute(minute -> Math.rint(curve(Math.min(minute, 300))), 330))
                .isBetween(309.0, 312.0);
    }

    @Test
    void aHoldOfAnHourThatTheSetPointExplainsIsNeitherFrozenNorAskedAbout() {
        DoubleUnaryOperator whole = minute -> minute < 425 ? Math.rint(curve(Math.min(minute, 400))) : 1000;
        assertThat(rangAtMinute(AlarmKind.NUMBER_STANDS, false, true, whole, minute -> Double.NaN, 416))
                .isEmpty();
        assertThat(rangAtMinute(
                        AlarmKind.NUMBER_STANDS, true, false, StandingStillTest::curve, minute -> Double.NaN, 700))
                .isEmpty();
    }

    @Test
    void aNumberThatStandsInAHoldWhileTheOutputGoesToAllItHasIsFrozen() {
        DoubleUnaryOperator hold = minute -> Math.rint(Math.min(1000, 20 + 2.5 * minute));
        DoubleUnaryOperator windsUp = minute -> minute < 392 ? 0.7 : Math.min(1, 0.4 + (minute - 392) / 60.0);
        assertThat(rangAtMinute(AlarmKind.SENSOR_FROZEN, true, false, hold, minute -> 0.4, 440))
                .isEmpty();
        assertThat(rangAtMinute(AlarmKind.SENSOR_FROZEN, true, false, hold, windsUp, 460)
                        .orElseThrow())
                .isBetween(428.0, 445.0);
    }

    @Test
    void aNumberThatStandsLongAfterThePlansHoldIsFrozen() {
        DoubleUnaryOperator stays = minute -> Math.rint(curve(Math.min(minute, 400)));
        assertThat(frozenAtMinute(true, false, stays, 480).orElseThrow()).isBetween(440.0, 456.0);
    }

    @Test
    void theCrestOfAnOvershootInWholeDegreesIsNoFrozenSensor() {
        DoubleUnaryOperator crest = minute -> Math.rint(
                minute < 26
                        ? 20 + 2.5 * minute
                        : 85 + 6 * Math.exp(-(minute - 26) / 40) * Math.sin(Math.min(8, (minute - 26) / 7)));
        assertThat(frozenAtMinute(true, false, crest, 100)).isEmpty();
        assertThat(frozenAtMinute(false, false, crest, 100)).isEmpty();
    }

    @Test
    void wholeDegreesThatWentToAndFroInTheHoldAndThenStandAreFrozenAfterHalfAnHour() {
        DoubleUnaryOperator flickers =
                minute -> Math.rint(minute < 26 ? 20 + 2.5 * minute : minute < 60 ? 85 + Math.floor(minute) % 2 : 85);
        DoubleUnaryOperator shown = minute -> minute < 26 + 240 ? flickers.applyAsDouble(minute) : curve(minute - 240);
        Schedule candling = new Schedule(
                "Candled",
                List.of(
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(150), Temperature.ofCelsius(85), Duration.ofHours(4)),
                        new Segment.FreeCooling()));
        assertThat(rangAtMinute(AlarmKind.SENSOR_FROZEN, Optional.of(candling), false, shown, minute -> Double.NaN, 200)
                        .orElseThrow())
                .isBetween(88.0, 93.0);
    }

    @Test
    void aLargeKilnThatCrawlsFromDegreeToDegreeIsNoFrozenSensor() {
        DoubleUnaryOperator crawls = minute -> Math.rint(
                minute < 417
                        ? curve(minute)
                        : 18 + 900 * Math.exp(-(minute - 417) / 100) + 82 * Math.exp(-(minute - 417) / 2_000));
        assertThat(frozenAtMinute(true, false, crawls, 1_900)).isEmpty();
    }
}
