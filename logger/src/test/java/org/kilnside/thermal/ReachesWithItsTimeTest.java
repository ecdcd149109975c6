package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** Whoever hears that the top will be reached hears when, with an interval. Virtual kilns are independent of the model. */
class ReachesWithItsTimeTest {
    private static Optional<Arrival> arrival(VirtualTrial firing, double askedC, Schedule plan) {
        double asked = firing.aboveS(askedC);
        return Double.isNaN(asked) || askedC > plan.top().celsius() - 20
                ? Optional.empty()
                : Forecaster.forecast(ForecastQuestion.about(firing.until(asked, true))
                                .withPlan(plan))
                        .arrival();
    }

    @Test
    void aKilnSaidToReachItsTopIsToldWhenWithAnIntervalFromNowOn() {
        int said = 0;
        for (Population.Family family : Population.Family.values()) {
            for (int kiln = 0; kiln < 2; kiln++) {
                VirtualTrial firing = VirtualTrial.of(family, 31, kiln, 0, false);
                for (double askedC :
                        new double[] {700, 1000, firing.plan().top().celsius() - 50}) {
                    Optional<Arrival> arrival = arrival(firing, askedC, firing.plan());
                    if (arrival.isPresent() && arrival.get().reaches() == Reaches.YES) {
                        said++;
                        When when = arrival.get().when().orElseThrow();
                        assertThat(List.of(firing.aboveS(askedC), when.fromS(), when.atS(), when.toS()))
                                .as("%s %d at %.0f °C", family, kiln, askedC)
                                .isSorted();
                    }
                }
            }
        }
        assertThat(said).isGreaterThan(12);
    }

    /** A kiln that lags and creeps up to its top at last: it lets go of no ramp a few kelvins under what is asked for. */
    @Test
    void aPlannedRampIsFollowedUpToTheVeryTemperatureAskedFor() {
        WallSlab slab = new WallSlab(WallKind.BRICK.shape(), WallSlab.USUAL_CELLS);
        slab.use(new KilnParameters(20_000, 2.7, 0.6, 0.25, 0.25, 0.82, 0.75, 0.015, 0.045, 2300, 15));
        slab.startUniform(15);
        for (double celsius = 20; celsius <= 1000; celsius += 5) {
            slab.drive(150, celsius);
        }
        PlanAhead plan =
                new PlanAhead(List.of(new PlanAhead.Corner(3600, 1112), new PlanAhead.Corner(3600 + 110 * 36, 1222)));
        PlanRun run = PlanRun.follow(slab, plan, 0, true, 1222);
        assertThat(run.arrivalS()).isGreaterThan(2.1 * 3600).isLessThan(8 * 3600);
        assertThat(slab.chamberC()).isGreaterThanOrEqualTo(1221);
    }

    /** Drawn by hand: 100 K/h and ever less, at full output; the set-point has been at the plan's top for half an hour. */
    @Test
    void whereTheSetPointIsAtTheTopAndTheKilnIsNotAllItHasIsAskedOfIt() {
        Schedule plan = Programs.glaze(1180, 80);
        Trace.Builder log = new Trace.Builder();
        double celsius = 18;
        for (long minute = 0; celsius < 1120; minute++) {
            double rate = 170 * Math.min(1, 1.05 - celsius / 1400);
            celsius += rate / 60;
            log.add(
                    60_000 * minute,
                    celsius,
                    OptionalDouble.of(Math.min(1, 0.35 + celsius / 900)),
                    OptionalDouble.of(Math.min(1180, 18 + 170 * minute / 60.0)));
        }
        Trace curve = log.view();
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(curve).withPlan(plan));
        PlanAhead ahead = PlanAlignment.ahead(
                plan, Course.of(curve), FiringData.of(Course.of(curve), OptionalDouble.empty()).phases);
        assertThat(ahead.corners().get(0).temperatureC()).isEqualTo(1180);
        assertThat(ahead.corners().get(0).elapsedS()).isBetween(forecast.askedS() - 1, forecast.askedS() + 1);
        assertThat(forecast.arrival().orElseThrow().when()).isPresent();
        // It has stood there longer than the plan's hold: it waits.
        assertThat(runsAhead(forecast)).isFalse();
    }

    private static boolean runsAhead(Forecast forecast) {
        return forecast.remarks().stream().anyMatch(each -> each.kind() == Forecast.Remark.Kind.SETPOINT_RUNS_AHEAD);
    }

    /** Elements worn to four fifths and less: the kiln lags, and its controller waits or does not. */
    @Test
    void onlyOfAControllerThatDoesNotWaitItIsSaidThatItsPlanMayEndBeforeTheTop() {
        Schedule plan = Programs.glaze(1200, 80);
        for (boolean waits : new boolean[] {true, false}) {
            VirtualTrial firing = VirtualTrial.run(
                    new Population(Population.Family.HEAVY_BRICK, 41)
                            .specimen(5)
                            .glazeFiring(plan, 0)
                            .interval(10)
                            .elementResistance(1.5)
                            .controller(waits ? ControllerSpec.waiting() : ControllerSpec.byTheClock())
                            .start(),
                    plan,
                    900,
                    30 * 3600);
            Forecast forecast = Forecaster.forecast(ForecastQuestion.about(firing.until(firing.aboveS(1000), true))
                    .withPlan(plan));
            assertThat(runsAhead(forecast)).as("waits %s", waits).isEqualTo(!waits);
        }
    }

    @Test
    void whoCannotSayWhenCannotSayWhether() {
        Arrival arrival = new Arrival(Temperature.ofCelsius(1222), Reaches.YES, Optional.empty(), Optional.empty());
        assertThat(arrival.reaches()).isEqualTo(Reaches.CANNOT_SAY_YET);
    }
}
