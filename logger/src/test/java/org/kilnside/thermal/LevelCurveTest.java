package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.Stage;

/** Own courses: a kiln that bends over towards 1150 °C, and one that is held. */
class LevelCurveTest {
    private static final OptionalDouble UNTOLD = OptionalDouble.empty();
    private static final OptionalDouble FULL = OptionalDouble.of(1);

    private static final Schedule TO_1222 = plan(1222);

    private static Schedule plan(double topC) {
        return new Schedule(
                "to " + topC,
                List.of(
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(150), Temperature.ofCelsius(topC), Duration.ofMinutes(20)),
                        new Segment.FreeCooling()));
    }

    /** Twenty hours: by then it climbs by 3 °C an hour. */
    private static Trace bendsOver(OptionalDouble output, OptionalDouble setpointC) {
        Trace.Builder curve = new Trace.Builder();
        for (int s = 0; s <= 20 * 3600; s += 60) {
            curve.add(s * 1000L, 15 + 1135 * (1 - Math.exp(-s / 3600.0 / 3.3)), output, setpointC);
        }
        return curve.view();
    }

    /** At 100 K/h to a temperature, and there for an hour. */
    private static Trace held(double celsius, OptionalDouble output, OptionalDouble setpointC) {
        Trace.Builder curve = new Trace.Builder();
        double reachedS = (celsius - 15) * 36;
        for (int s = 0; s <= reachedS + 3600; s += 60) {
            curve.add(s * 1000L, Math.min(celsius, 15 + s / 36.0), s < reachedS ? FULL : output, setpointC);
        }
        return curve.view();
    }

    private static LevelCurve judged(ForecastQuestion question) {
        return LevelCurve.of(question, Forecaster.data(question, Course.of(question.curve())));
    }

    @Test
    void aKilnAtFullOutputBelowItsSetPointHoldsNothing() {
        ForecastQuestion question = ForecastQuestion.about(bendsOver(FULL, OptionalDouble.of(1222)));
        assertThat(judged(question)).isEqualTo(LevelCurve.AT_ITS_LIMIT);
        Forecast forecast = Forecaster.forecast(question.withPlan(TO_1222));
        assertThat(forecast.stage()).isEqualTo(Stage.HEATING);
        assertThat(forecast.remarks()).extracting(Remark::kind).contains(Remark.Kind.AT_ITS_LIMIT);
    }

    @Test
    void noSetPointBeingToldItIsTheTopItFallsShortOf() {
        ForecastQuestion question = ForecastQuestion.about(bendsOver(FULL, UNTOLD));
        assertThat(judged(question.withPlan(TO_1222))).isEqualTo(LevelCurve.AT_ITS_LIMIT);
        assertThat(judged(question.withTarget(Temperature.ofCelsius(1222)))).isEqualTo(LevelCurve.AT_ITS_LIMIT);
        assertThat(judged(question.withPlan(plan(1150)))).isEqualTo(LevelCurve.HOLDS);
    }

    @Test
    void noOutputBeingToldTheLagTells() {
        ForecastQuestion question = ForecastQuestion.about(bendsOver(UNTOLD, OptionalDouble.of(1222)));
        assertThat(judged(question)).isEqualTo(LevelCurve.AT_ITS_LIMIT);
        assertThat(judged(ForecastQuestion.about(bendsOver(UNTOLD, UNTOLD)).withPlan(TO_1222)))
                .isEqualTo(LevelCurve.AT_ITS_LIMIT);
    }

    @Test
    void aKilnBelowItsSetPointWithPowerToSpareLagsOnly() {
        ForecastQuestion question = ForecastQuestion.about(held(600, OptionalDouble.of(0.4), OptionalDouble.of(640)));
        assertThat(judged(question)).isEqualTo(LevelCurve.LAGS);
        Forecast forecast = Forecaster.forecast(question.withPlan(TO_1222));
        assertThat(forecast.stage()).isEqualTo(Stage.HEATING);
        assertThat(forecast.remarks()).extracting(Remark::kind).doesNotContain(Remark.Kind.AT_ITS_LIMIT);
    }

    @Test
    void aHoldThatTakesAllTheOutputIsAHold() {
        assertThat(judged(ForecastQuestion.about(held(1222, FULL, OptionalDouble.of(1222)))
                        .withPlan(TO_1222)))
                .isEqualTo(LevelCurve.HOLDS);
        assertThat(judged(ForecastQuestion.about(held(1222, FULL, UNTOLD)).withPlan(TO_1222)))
                .isEqualTo(LevelCurve.HOLDS);
    }

    @Test
    void aHoldBeginsWhereTheSetPointStandsAndTheKilnIsThere() {
        Trace.Builder curve = new Trace.Builder();
        for (int s = 0; s <= 9 * 3600 + 300; s += 60) {
            double wantedC = Math.min(915, 15 + s / 36.0);
            curve.add(s * 1000L, wantedC - 1, OptionalDouble.of(0.6), OptionalDouble.of(wantedC));
        }
        Trace whole = curve.view();
        assertThat(stage(whole)).isEqualTo(Stage.HOLDING);
        Trace.Builder ramp = new Trace.Builder();
        for (int i = 0; i < whole.size() - 4; i++) {
            ramp.add(whole.elapsedMs(i), whole.temperatureC(i), whole.output(i), whole.setpointC(i));
        }
        assertThat(stage(ramp.view())).isEqualTo(Stage.HEATING);
    }

    private static Stage stage(Trace log) {
        return Forecaster.forecast(ForecastQuestion.about(log)).stage();
    }

    @Test
    void aKilnHotterThanItsPlanEverHasItSeemsFiredByAnother() {
        ForecastQuestion question = ForecastQuestion.about(held(1100, OptionalDouble.of(0.6), UNTOLD));
        assertThat(Forecaster.forecast(question.withPlan(plan(1000))).remarks())
                .extracting(Remark::kind)
                .contains(Remark.Kind.HOTTER_THAN_PLANNED);
        for (double topC : new double[] {1095, 1222}) {
            assertThat(Forecaster.forecast(question.withPlan(plan(topC))).remarks())
                    .extracting(Remark::kind)
                    .doesNotContain(Remark.Kind.HOTTER_THAN_PLANNED);
        }
    }

    @Test
    void aHoldOnTheWayUpIsAHold() {
        for (OptionalDouble setpointC : List.of(UNTOLD, OptionalDouble.of(600))) {
            for (OptionalDouble output : List.of(UNTOLD, OptionalDouble.of(0.4))) {
                ForecastQuestion question = ForecastQuestion.about(held(600, output, setpointC));
                assertThat(judged(question.withTarget(Temperature.ofCelsius(1222))))
                        .as("%s %s", setpointC, output)
                        .isEqualTo(LevelCurve.HOLDS);
            }
        }
    }
}
