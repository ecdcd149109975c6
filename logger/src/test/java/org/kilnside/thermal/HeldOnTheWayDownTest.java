package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.OptionalDouble;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** A glaze led down and held on the way: to 760 °C at 80 K/h, there for an hour, then left alone. Virtual kiln: independent. */
class HeldOnTheWayDownTest {
    private static final Schedule PLAN = new Schedule(
            "led down and held",
            List.of(ramp(120, 600, 0), ramp(140, 1180, 10), ramp(80, 760, 60), new Segment.FreeCooling()));

    private static final VirtualTrial FIRING = VirtualTrial.glaze(Population.Family.HEAVY_BRICK, 3, PLAN);

    private static Segment ramp(double kelvinPerHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(toC),
                Duration.ofMinutes(holdMinutes));
    }

    private static void assertForecast(double askedS, boolean withOutput, double within) {
        Forecast forecast = Forecaster.forecast(
                ForecastQuestion.about(FIRING.until(askedS, withOutput)).withPlan(PLAN));
        assertThat(forecast.stage()).isEqualTo(Stage.COOLING);
        for (Forecast.Below below : forecast.below()) {
            double truthS = FIRING.belowS(below.temperature().celsius());
            Forecast.When when = below.when().orElseThrow();
            assertThat((when.atS() - truthS) / (truthS - askedS)).isBetween(-within, within);
            assertThat(truthS).isBetween(when.fromS(), when.toS());
        }
    }

    @Test
    void aHoldOnTheWayDownIsNotTakenForAClimb() {
        assertForecast(FIRING.offS() - 2400, true, 0.2);
        assertForecast(FIRING.offS() - 2400, false, 0.4);
    }

    @Test
    void aHoldWhoseTimeIsUpIsTakenToEndNow() {
        assertForecast(FIRING.offS() - 20, true, 0.2);
    }

    /** In the ramp it falls as it is led, by temperature alone: how fast it would fall left alone is another matter. */
    @Test
    void aRampTheNotedPlanLeadsDownIsNotTakenForAKilnLeftAlone() {
        Schedule slow = Programs.slowCoolGlaze(1222, 70);
        for (Population.Family family : List.of(Population.Family.LIGHT_BRICK, Population.Family.HEAVY_BRICK)) {
            VirtualTrial firing = VirtualTrial.glaze(family, 2, slow);
            for (double beforeOffS : new double[] {3 * 3600, 2 * 3600, 1800}) {
                double askedS = firing.offS() - beforeOffS;
                Forecast forecast = Forecaster.forecast(
                        ForecastQuestion.about(firing.until(askedS, false)).withPlan(slow));
                double truthS = firing.belowS(200);
                Forecast.When when = forecast.below().get(0).when().orElseThrow();
                assertThat(when.atS() / truthS)
                        .as("%s %.0f", family, beforeOffS)
                        .isBetween(0.7, 1.5);
                assertThat(truthS).as("%s %.0f", family, beforeOffS).isBetween(when.fromS(), when.toS());
            }
        }
    }

    /** Led down from the top on, so slowly that for half an hour its fall is too short to be seen as a straight line. */
    @Test
    void theFirstMinutesOfASlowRampAreNoCoolingLeftAlone() {
        Schedule slow = new Schedule(
                "slowly from the top",
                List.of(ramp(120, 600, 0), ramp(140, 1180, 10), ramp(40, 900, 0), new Segment.FreeCooling()));
        int held = 0;
        for (int kiln : new int[] {2, 3}) {
            VirtualTrial firing = VirtualTrial.glaze(Population.Family.LAYERED, kiln, slow);
            for (double celsius : new double[] {1000, 800, 600}) {
                double askedS = fallsBelowS(firing, celsius);
                Forecast forecast = Forecaster.forecast(
                        ForecastQuestion.about(firing.until(askedS, false)).withPlan(slow));
                double truthS = firing.belowS(200);
                Forecast.When when = forecast.below().get(0).when().orElseThrow();
                assertThat((when.atS() - truthS) / (truthS - askedS))
                        .as("%d %.0f", kiln, celsius)
                        .isBetween(-0.4, 0.4);
                held += when.fromS() <= truthS && truthS <= when.toS() ? 1 : 0;
            }
        }
        assertThat(held).isGreaterThanOrEqualTo(5);
    }

    /** By temperature alone, an hour after a ramp to 900 °C: the two together still look straight. */
    @Test
    void belowTheLastOfItsPlanAKilnIsLeftAlone() {
        Schedule slow = new Schedule(
                "slowly to 900",
                List.of(ramp(120, 600, 0), ramp(140, 1180, 10), ramp(60, 900, 0), new Segment.FreeCooling()));
        for (VirtualTrial firing : List.of(
                VirtualTrial.glaze(Population.Family.LIGHT_BRICK, 3, slow),
                VirtualTrial.glaze(Population.Family.HEAVY_BRICK, 5, slow))) {
            double askedS = fallsBelowS(firing, 800);
            Forecast forecast = Forecaster.forecast(
                    ForecastQuestion.about(firing.until(askedS, false)).withPlan(slow));
            double truthS = firing.belowS(200);
            Forecast.When when = forecast.below().get(0).when().orElseThrow();
            assertThat((when.atS() - truthS) / (truthS - askedS)).isBetween(-0.15, 0.15);
        }
    }

    @Test
    void withoutAPlanOnlyTheEarliestTimeOfAHeldKilnIsKnown() {
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(FIRING.until(FIRING.offS() - 1200, true)));
        assertThat(forecast.remarks()).anyMatch(each -> each.kind() == Kind.DRIVEN_COOLING);
        assertThat(forecast.below().get(0).when()).isEmpty();
        assertThat(forecast.below().get(0).notBeforeS().orElseThrow()).isLessThan(FIRING.belowS(200));
    }

    /** By temperature alone, on the ramp down: a straight line of 80 K/h, which no kiln left alone draws so high up. */
    @Test
    void aRampNobodyToldOfIsNotTakenForAKilnThatHoldsMoreThanAnyDoes() {
        double askedS = FIRING.aboveS(FIRING.peakC() - 1) + 600 + 1800;
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(FIRING.until(askedS, false)));
        assertThat(forecast.remarks()).anyMatch(each -> each.kind() == Kind.COOLS_TOO_SLOWLY);
        for (Forecast.Below below : forecast.below()) {
            assertThat(below.when()).isEmpty();
            assertThat(below.notBeforeS().orElseThrow())
                    .isBetween(askedS, FIRING.belowS(below.temperature().celsius()));
        }
        assertForecast(askedS, false, 0.4);
    }

    /** The plan that is given has it cool by itself from the top on; the kiln is led down for all that. */
    @Test
    void whoHasGivenThePlanIsNotAskedForIt() {
        Schedule givenUp =
                new Schedule("left alone", List.of(ramp(120, 600, 0), ramp(140, 1180, 10), new Segment.FreeCooling()));
        double askedS = FIRING.aboveS(FIRING.peakC() - 1) + 600 + 1800;
        for (boolean told : new boolean[] {true, false}) {
            Forecast forecast = Forecaster.forecast(
                    ForecastQuestion.about(FIRING.until(askedS, told)).withPlan(givenUp));
            assertThat(forecast.remarks())
                    .extracting(Forecast.Remark::kind)
                    .contains(told ? Kind.DRIVEN_PAST_PLAN : Kind.COOLS_SLOWLY_PAST_PLAN)
                    .doesNotContain(Kind.DRIVEN_COOLING, Kind.COOLS_TOO_SLOWLY);
            assertThat(forecast.below()).allMatch(each -> each.when().isEmpty());
        }
    }

    @Test
    void aKilnLeftAloneIsNotSaidToCoolTooSlowly() {
        for (int number = 0; number < 6; number++) {
            TrialFiring free = TrialPopulation.of(
                            TrialPopulation.Family.MIXED, number, 1, TrialPopulation.Habit.FREE_COOLING)
                    .firings()
                    .get(0);
            for (double at : new double[] {free.offS() + 1200, free.offS() + 3600, free.offS() + 4 * 3600}) {
                Forecast forecast = Forecaster.forecast(ForecastQuestion.about(free.until(at, false)));
                assertThat(forecast.remarks()).noneMatch(each -> each.kind() == Kind.COOLS_TOO_SLOWLY);
            }
        }
    }

    /** Let go at 1000 °C by hand: the plan's ramp and hold are no concern of a kiln that falls twice as fast. */
    @Test
    void aKilnThatWasSwitchedOffIsNotTakenToFollowItsPlan() {
        TrialFiring free = TrialPopulation.of(TrialPopulation.Family.BRICK, 3, 3, TrialPopulation.Habit.FREE_COOLING)
                .firings()
                .get(0);
        Schedule slow = new Schedule(
                "slowly",
                List.of(ramp(120, 600, 0), ramp(100, free.peakC(), 10), ramp(25, 400, 240), new Segment.FreeCooling()));
        double askedS = free.belowS(700);
        Forecast planned = Forecaster.forecast(
                ForecastQuestion.about(free.until(askedS, true)).withPlan(slow));
        double truthS = free.belowS(200);
        assertThat((planned.below().get(0).when().orElseThrow().atS() - truthS) / (truthS - askedS))
                .isBetween(-0.2, 0.2);
    }

    /** Nobody tells of the elements: an hour's hold, then a ramp whose straight line is an hour old. */
    @Test
    void aRampAfterAHoldIsNotTakenForAKilnThatHoldsMoreThanAnyDoes() {
        Schedule held = new Schedule(
                "held and led down",
                List.of(ramp(120, 600, 0), ramp(140, 1210, 10), ramp(9999, 1060, 60), ramp(60, 750, 0)));
        for (Population.Family family : List.of(Population.Family.LIGHT_BRICK, Population.Family.HEAVY_BRICK)) {
            for (int kiln = 0; kiln < 3; kiln++) {
                VirtualTrial firing = VirtualTrial.run(family, 33, kiln, held, 40 * 3600.0);
                double askedS = fallsBelowS(firing, 1000);
                Forecast forecast = Forecaster.forecast(ForecastQuestion.about(firing.until(askedS, false)));
                assertThat(forecast.remarks())
                        .as("%s %d", family, kiln)
                        .anyMatch(each -> each.kind() == Kind.COOLS_TOO_SLOWLY || each.kind() == Kind.DRIVEN_COOLING);
                assertThat(forecast.below()).allMatch(each -> each.when().isEmpty());
            }
        }
    }

    @Test
    void aHoldOfTwentyMinutesIsNoPartOfTheCoolingAfterIt() {
        Schedule held = new Schedule(
                "held and let go",
                List.of(ramp(120, 600, 0), ramp(140, 1210, 10), ramp(9999, 1060, 20), new Segment.FreeCooling()));
        for (int kiln = 0; kiln < 3; kiln++) {
            VirtualTrial firing = VirtualTrial.run(Population.Family.LAYERED, 33, kiln, held, Double.POSITIVE_INFINITY);
            double askedS = fallsBelowS(firing, 850);
            Forecast forecast = Forecaster.forecast(ForecastQuestion.about(firing.until(askedS, false)));
            double truthS = firing.belowS(200);
            Forecast.When when = forecast.below().get(0).when().orElseThrow();
            assertThat(truthS).isBetween(when.fromS(), when.toS());
            assertThat((when.atS() - truthS) / (truthS - askedS)).isBetween(-0.2, 0.2);
        }
    }

    private static double fallsBelowS(VirtualTrial firing, double celsius) {
        Trace log = firing.until(1e9, false);
        int i = log.indexAt(Math.round(1000 * firing.aboveS(firing.peakC() - 1)));
        while (log.temperatureC(i) > celsius) {
            i++;
        }
        return log.elapsedMs(i) / 1000.0;
    }

    /** No kiln falls by the same part in equal times, but who draws a cooling by hand draws it so. */
    @ParameterizedTest
    @ValueSource(doubles = {3, 5, 8})
    void anExponentialDrawnByHandIsForecastAsWhatItIs(double hours) {
        Trace.Builder log = new Trace.Builder();
        double atS = 0;
        for (double celsius = 15; celsius < 1222; celsius += 2.5, atS += 60) {
            log.add(Math.round(1000 * atS), celsius, OptionalDouble.empty(), OptionalDouble.empty());
        }
        double topS = atS;
        for (double celsius = 1222; celsius > 400; atS += 60) {
            celsius = 15 + 1207 * Math.exp((topS - atS) / 3600 / hours);
            log.add(Math.round(1000 * atS), celsius, OptionalDouble.empty(), OptionalDouble.empty());
        }
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(log.view()));
        for (Forecast.Below below : forecast.below()) {
            double truthS =
                    topS + 3600 * hours * Math.log(1207 / (below.temperature().celsius() - 15));
            Forecast.When when = below.when().orElseThrow();
            assertThat(when.atS() - topS).isCloseTo(truthS - topS, Percentage.withPercentage(10));
        }
    }
}
