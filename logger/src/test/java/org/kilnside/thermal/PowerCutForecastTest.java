package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.ControllerSpec.AfterPowerCut;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/**
 * The studio's power fails while a virtual kiln climbs: no readings until it is back, the kiln cooler by then, and on it
 * goes. The virtual kiln is independent of the model.
 */
class PowerCutForecastTest {
    private static final Schedule PLAN = Programs.glaze(1200, 80);

    /** Power goes at the one temperature and is back at the other. */
    private static VirtualTrial fire(int kiln, double goesC, double backC) {
        return VirtualTrial.run(
                new Population(Population.Family.LIGHT_BRICK, 17)
                        .specimen(kiln)
                        .glazeFiring(PLAN, 0)
                        .controller(ControllerSpec.waiting().afterPowerCut(AfterPowerCut.GO_ON))
                        .interval(10)
                        .disturbances(
                                Disturbance.rising(goesC, Happenings.powerCut()),
                                Disturbance.falling(backC, Happenings.powerBack()))
                        .start(),
                PLAN,
                45,
                40 * 3600);
    }

    /** When the first reading after the outage came. */
    private static double backS(Trace log) {
        double longest = 0;
        double back = 0;
        for (int i = 1; i < log.size(); i++) {
            double gap = (log.elapsedMs(i) - log.elapsedMs(i - 1)) / 1000.0;
            if (gap > longest) {
                longest = gap;
                back = log.elapsedMs(i) / 1000.0;
            }
        }
        return back;
    }

    private static Forecast asked(VirtualTrial firing, double seconds, boolean told) {
        return Forecaster.forecast(
                ForecastQuestion.about(firing.until(seconds, told)).withPlan(PLAN));
    }

    @Test
    void aKilnThatGoesOnAfterAPowerCutIsNeverCalledTooWeakForItsTop() {
        for (int kiln = 0; kiln < 4; kiln++) {
            VirtualTrial firing = fire(kiln, 620 + 90 * kiln, 480 + 80 * kiln);
            assertThat(firing.peakC()).as("kiln %d", kiln).isGreaterThan(1195);
            double back = backS(firing.until(1e9, true));
            for (double after : new double[] {60, 600, 1500, 2400, 5400}) {
                for (boolean told : new boolean[] {true, false}) {
                    Arrival arrival =
                            asked(firing, back + after, told).arrival().orElseThrow();
                    assertThat(arrival.reaches())
                            .as("kiln %d, %.0f s after the power came back, told %s", kiln, after, told)
                            .isNotEqualTo(Reaches.NO);
                }
            }
        }
    }

    @Test
    void whatTheElementsGaveInTheOutageIsNotCounted() {
        VirtualTrial firing = fire(1, 710, 560);
        Trace log = firing.until(1e9, true);
        double back = backS(log);
        FiringData data = FiringData.of(Course.of(firing.until(back + 1800, true)), OptionalDouble.empty());
        double gone = log.elapsedMs(log.indexAt(Math.round(back * 1000)) - 1) / 1000.0;
        assertThat(back - gone).isGreaterThan(900);
        assertThat(data.powered).isNotEmpty();
        assertThat(data.powered).allMatch(each -> data.driveS[each.to()] <= gone || data.driveS[each.from()] >= back);
        assertThat(data.powered).anyMatch(each -> data.driveS[each.from()] >= back);
    }

    @Test
    void aKilnHeldOnItsWayDownIsStillSeenToCoolWhenReadingsWereMissingThere() {
        // Drawn by hand: 1200 °C, down to 1000 °C and held there untold; forty minutes missing in the hold.
        Trace.Builder log = new Trace.Builder();
        long minute = 0;
        for (double celsius = 18; celsius < 1200; celsius += 2) {
            log.add(60_000 * minute++, celsius, OptionalDouble.empty(), OptionalDouble.empty());
        }
        for (double celsius = 1200; celsius > 1000; celsius -= 4) {
            log.add(60_000 * minute++, celsius, OptionalDouble.empty(), OptionalDouble.empty());
        }
        for (int i = 0; i < 120; i++, minute++) {
            if (i < 60 || i > 100) {
                log.add(60_000 * minute, 1000, OptionalDouble.empty(), OptionalDouble.empty());
            }
        }
        assertThat(Forecaster.forecast(ForecastQuestion.about(log.view()).withPlan(PLAN))
                        .stage())
                .isEqualTo(Stage.COOLING);
    }
}
