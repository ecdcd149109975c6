package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** What is taken for granted where no plan is given: by own courses, and by virtual kilns, independent of the model. */
class PaceAheadTest {
    private static final DoubleUnaryOperator UNTOLD = hour -> Double.NaN;

    /** So many hours at a rate, K/h, with the set-point and the output a function of the hour. */
    private static FiringData climb(
            double hours, DoubleUnaryOperator celsius, DoubleUnaryOperator setpointC, DoubleUnaryOperator output) {
        Trace.Builder curve = new Trace.Builder();
        for (int s = 0; s <= hours * 3600; s += 60) {
            double hour = s / 3600.0;
            curve.add(s * 1000L, celsius.applyAsDouble(hour), told(output, hour), told(setpointC, hour));
        }
        return FiringData.of(Course.of(curve.view()), OptionalDouble.of(15));
    }

    private static OptionalDouble told(DoubleUnaryOperator what, double hour) {
        double value = what.applyAsDouble(hour);
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    private static double endsInHours(FiringData data, double aimC) {
        return (PaceAhead.of(data, aimC).ahead().endsS(data.nowS) - data.nowS) / 3600;
    }

    @Test
    void theSetPointsLastRampGoesOnThoughTheKilnLagsAndWavers() {
        FiringData data = climb(
                6, hour -> 15 + 120 * hour - 4 * hour + 3 * Math.sin(9 * hour), hour -> 15 + 120 * hour, hour -> 0.5);
        PaceAhead pace = PaceAhead.of(data, 1000);
        assertThat(pace.taken()).isEqualTo(Remark.Kind.SETPOINT_GOES_ON);
        assertThat(endsInHours(data, 1000)).isCloseTo((1000 - data.nowC) / 120, within(0.05));
    }

    @Test
    void aHoldOnTheWayUpIsFollowedByARampLikeTheOneBefore() {
        FiringData data =
                climb(5.5, hour -> Math.min(600, 15 + 117 * hour), hour -> Math.min(600, 15 + 117 * hour), hour -> 0.4);
        assertThat(endsInHours(data, 1000)).isCloseTo(400 / 117.0, within(0.05));
    }

    @Test
    void withoutASetPointThePresentPaceGoesOn() {
        FiringData data = climb(5, hour -> hour < 4 ? 15 + 60 * hour : 255 + 140 * (hour - 4), UNTOLD, hour -> 0.6);
        assertThat(PaceAhead.of(data, 1000).taken()).isEqualTo(Remark.Kind.PACE_GOES_ON);
        assertThat(endsInHours(data, 1000)).isCloseTo((1000 - data.nowC) / 140, within(0.05));
    }

    @Test
    void aSetPointThatWasSetToTheTopAtOnceLeadsNothing() {
        FiringData data = climb(5, hour -> 15 + 110 * hour, hour -> 1000, hour -> 0.6);
        assertThat(PaceAhead.of(data, 1000).taken()).isEqualTo(Remark.Kind.PACE_GOES_ON);
        assertThat(endsInHours(data, 1000)).isCloseTo((1000 - data.nowC) / 110, within(0.05));
    }

    @Test
    void onlyAKilnAtFullOutputThatDoesNotKeepUpIsTakenToGiveAllItHas() {
        DoubleUnaryOperator ramp = hour -> 15 + 120 * hour;
        DoubleUnaryOperator full = hour -> 1;
        assertThat(PaceAhead.of(climb(6, ramp, hour -> ramp.applyAsDouble(hour) + 30, full), 1222)
                        .taken())
                .isEqualTo(Remark.Kind.FULL_OUTPUT_GOES_ON);
        assertThat(PaceAhead.of(climb(6, ramp, ramp, full), 1222).taken()).isEqualTo(Remark.Kind.SETPOINT_GOES_ON);
        // All on at this very moment is a relay's turn, and no more.
        DoubleUnaryOperator pulses = hour -> Math.round(hour * 60) % 3 == 0 ? 1 : 0;
        assertThat(PaceAhead.of(climb(6, ramp, UNTOLD, pulses), 1222).taken()).isEqualTo(Remark.Kind.PACE_GOES_ON);
    }

    /** Common practice: cones want the last 100 °C slow. */
    @Test
    void theLastHundredDegreesToAStonewareTopAreSlow() {
        FiringData data = climb(6, hour -> 15 + 150 * hour, hour -> 15 + 150 * hour, hour -> 0.5);
        assertThat(endsInHours(data, 1040)).isCloseTo((1040 - data.nowC) / 150, within(0.05));
        assertThat(endsInHours(data, 1222)).isCloseTo((1122 - data.nowC) / 150 + 100 / 80.0, within(0.05));
        FiringData slow = climb(20, hour -> 15 + 50 * hour, hour -> 15 + 50 * hour, hour -> 0.5);
        assertThat(endsInHours(slow, 1222)).isCloseTo((1222 - slow.nowC) / 50, within(0.1));
        FiringData nearly = climb(8, hour -> 15 + 145 * hour, hour -> 15 + 145 * hour, hour -> 0.5);
        assertThat(endsInHours(nearly, 1222)).isCloseTo((1222 - nearly.nowC) / 145, within(0.05));
    }

    /** The interval is to hold what another last ramp makes of it; full power was taken for granted, 30 % early. */
    @Test
    void theTimeToATopWithoutAPlanHoldsWhateverTheLastRampIs() {
        int held = 0;
        int asked = 0;
        double off = 0;
        for (double lastRate : new double[] {60, 80, 110}) {
            Schedule plan = Programs.glaze(1200, lastRate);
            for (Population.Family family : List.of(Population.Family.LIGHT_BRICK, Population.Family.HEAVY_BRICK)) {
                VirtualTrial firing = VirtualTrial.glaze(family, 2, plan);
                double truthS = firing.aboveS(1197);
                for (double nowC : new double[] {700, 1000, 1090}) {
                    double nowS = firing.aboveS(nowC);
                    Forecast forecast = Forecaster.forecast(
                            ForecastQuestion.about(firing.until(nowS, true)).withTarget(Temperature.ofCelsius(1200)));
                    Forecast.When when = forecast.arrival().orElseThrow().when().orElseThrow();
                    asked++;
                    held += when.fromS() <= truthS && truthS <= when.toS() ? 1 : 0;
                    off += Math.abs(when.atS() - truthS) / (truthS - nowS) / 18;
                    assertThat(forecast.remarks())
                            .extracting(Remark::kind)
                            .containsAnyOf(
                                    Remark.Kind.SETPOINT_GOES_ON,
                                    Remark.Kind.PACE_GOES_ON,
                                    Remark.Kind.FULL_OUTPUT_GOES_ON);
                }
            }
        }
        assertThat(held).isGreaterThanOrEqualTo(asked - 1);
        assertThat(off).isLessThan(0.2);
    }
}
