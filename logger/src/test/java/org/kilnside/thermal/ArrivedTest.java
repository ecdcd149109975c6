package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import java.util.function.IntPredicate;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** What is said of the top once it is there, and while nothing tells how strong the elements are. */
class ArrivedTest {
    private static final Schedule PLAN = Programs.glaze(1180, 80);

    private static final VirtualTrial FIRING = VirtualTrial.glaze(Population.Family.LIGHT_BRICK, 2, PLAN);

    private static Arrival arrival(double askedS, boolean told, double targetC) {
        return Forecaster.forecast(
                        ForecastQuestion.about(FIRING.until(askedS, told)).withTarget(Temperature.ofCelsius(targetC)))
                .arrival()
                .orElseThrow();
    }

    @Test
    void aTemperatureTheLogHasShownIsReachedWhileTheKilnStillHeats() {
        double asked = FIRING.aboveS(1100);
        for (boolean told : new boolean[] {true, false}) {
            Arrival arrival = arrival(asked, told, 1000);
            assertThat(arrival.reaches()).isEqualTo(Reaches.YES);
            Forecast.When when = arrival.when().orElseThrow();
            assertThat(when.atS()).isBetween(FIRING.aboveS(990), FIRING.aboveS(1010));
            assertThat(when.fromS()).isEqualTo(when.toS());
        }
    }

    @Test
    void inTheHoldOfItsPlanTheTopIsReached() {
        double asked = FIRING.aboveS(FIRING.peakC() - 2) + 240;
        Forecast forecast = Forecaster.forecast(
                ForecastQuestion.about(FIRING.until(asked, true)).withPlan(PLAN));
        Arrival arrival = forecast.arrival().orElseThrow();
        assertThat(arrival.reaches()).isEqualTo(Reaches.YES);
        assertThat(arrival.when().orElseThrow().atS()).isLessThanOrEqualTo(asked);
    }

    @Test
    void withoutOutputAKilnThatKeepsItsPaceIsNotPromisedItsTop() {
        Arrival arrival = arrival(FIRING.aboveS(900), false, 1180);
        assertThat(arrival.reaches()).isEqualTo(Reaches.CANNOT_SAY_YET);
        assertThat(arrival.when()).isPresent();
        assertThat(arrival.topsOut()).isEmpty();
    }

    /** Drawn by hand: 130 K/h to 514 °C, three quarters of an hour without readings, then on from 430 °C at 125 K/h. */
    @Test
    void aKilnThatClimbsAgainAfterAnOutageHeats() {
        Trace.Builder log = new Trace.Builder();
        long minute = 0;
        for (double celsius = 18; celsius < 514; celsius += 130 / 60.0) {
            log.add(60_000 * minute++, celsius, OptionalDouble.empty(), OptionalDouble.empty());
        }
        minute += 45;
        for (double celsius = 430; celsius < 485; celsius += 125 / 60.0) {
            log.add(60_000 * minute++, celsius, OptionalDouble.empty(), OptionalDouble.empty());
        }
        Forecast forecast =
                Forecaster.forecast(ForecastQuestion.about(log.view()).withPlan(PLAN));
        assertThat(forecast.stage()).isEqualTo(Stage.HEATING);
        assertThat(forecast.arrival().orElseThrow().reaches()).isEqualTo(Reaches.CANNOT_SAY_YET);
    }

    /** Drawn by hand: from 20 °C at 150 K/h to 1200 °C, then down as a kiln left alone; of that what a span of time shows. */
    private static Arrival afterwards(double targetC, IntPredicate isInLog) {
        Trace.Builder log = new Trace.Builder();
        int topMinute = 472;
        for (int minute = 0; minute < topMinute + 600; minute++) {
            double celsius =
                    minute < topMinute ? 20 + 150 * minute / 60.0 : 20 + 1180 * Math.exp(-(minute - topMinute) / 300.0);
            if (isInLog.test(minute - topMinute)) {
                log.add(60_000L * minute, celsius, OptionalDouble.empty(), OptionalDouble.empty());
            }
        }
        Forecast forecast =
                Forecaster.forecast(ForecastQuestion.about(log.view()).withTarget(Temperature.ofCelsius(targetC)));
        assertThat(forecast.stage()).isEqualTo(Stage.COOLING);
        return forecast.arrival().orElseThrow();
    }

    @Test
    void whetherTheTopWasReachedCannotBeKnownFromALogThatBeginsInTheCoolingBelowIt() {
        for (int begin : new int[] {2, 60, 200}) {
            Arrival arrival = afterwards(1200, minute -> minute >= begin);
            assertThat(arrival.reaches()).as("from minute %d", begin).isEqualTo(Reaches.TOP_UNSEEN);
            assertThat(arrival.reaches().known()).isEmpty();
            assertThat(arrival.when()).isEmpty();
        }
        assertThat(afterwards(1000, minute -> minute >= 2).reaches()).isEqualTo(Reaches.YES);
    }

    @Test
    void aTopThatWasSeenBelowTheTargetDidNotReachIt() {
        assertThat(afterwards(1222, minute -> true).reaches()).isEqualTo(Reaches.NO);
        assertThat(afterwards(1222, minute -> minute >= -60).reaches()).isEqualTo(Reaches.NO);
    }

    @Test
    void aSilenceOverTheTopLeavesOpenWhatTheKilnCanHaveClimbedToInIt() {
        IntPredicate silentOverTheTop = minute -> minute < -30 || minute > 30;
        assertThat(afterwards(1200, silentOverTheTop).reaches()).isEqualTo(Reaches.TOP_UNSEEN);
        assertThat(afterwards(1290, silentOverTheTop).reaches()).isEqualTo(Reaches.NO);
        assertThat(afterwards(1200, minute -> minute < -30 || minute > 0).reaches())
                .isEqualTo(Reaches.TOP_UNSEEN);
    }
}
