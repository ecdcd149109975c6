package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Population;

/** Plans that heat again after they have cooled: when the last of them is over. Virtual kilns, independent of the model. */
class PlanTurnsTest {
    private static final double EVERY_S = 900;

    private static final Schedule CRYSTALS = new Schedule(
            "crystals",
            List.of(ramp(160, 1190, 10), ramp(200, 1060, 40), ramp(90, 1130, 50), new Segment.FreeCooling()));

    private static final Schedule RINGS = new Schedule(
            "rings",
            List.of(
                    ramp(160, 1200, 5),
                    ramp(200, 1080, 30),
                    ramp(100, 1140, 30),
                    ramp(150, 1060, 20),
                    ramp(60, 1100, 45),
                    ramp(80, 980, 0),
                    new Segment.FreeCooling()));

    private static final Schedule DIP_ON_THE_WAY_UP = new Schedule(
            "dip on the way up",
            List.of(ramp(150, 960, 20), ramp(120, 860, 30), ramp(150, 1140, 15), new Segment.FreeCooling()));

    /** What a log tells beside the temperature. */
    private enum Told {
        SETPOINT_AND_OUTPUT,
        OUTPUT,
        NOTHING;

        Trace of(Trace log) {
            Trace.Builder told = new Trace.Builder();
            for (int i = 0; i < log.size(); i++) {
                told.add(
                        log.elapsedMs(i),
                        log.temperatureC(i),
                        this == NOTHING ? OptionalDouble.empty() : log.output(i),
                        this == SETPOINT_AND_OUTPUT ? log.setpointC(i) : OptionalDouble.empty());
            }
            return told.view();
        }
    }

    private static Segment ramp(double kelvinPerHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(toC),
                Duration.ofMinutes(holdMinutes));
    }

    private static VirtualTrial fired(Population.Family family, int kiln, Schedule plan, ControllerSpec controller) {
        return VirtualTrial.run(
                new Population(family, 47)
                        .specimen(kiln)
                        .glazeFiring(plan, 0)
                        .interval(10)
                        .controller(controller)
                        .start(),
                plan,
                45,
                Double.POSITIVE_INFINITY);
    }

    /** By how much the end of a plan is told too late or too early, with what is told, and when that was. */
    private record Off(String asked, Told told, double minutes) {}

    private static List<Off> askedAllAlong(Schedule plan, Population.Family family, ControllerSpec controller) {
        VirtualTrial firing = fired(family, 1, plan, controller);
        double firstCrestC = plan.segments().get(0).target().orElseThrow().celsius();
        List<Off> all = new ArrayList<>();
        for (double at = firing.aboveS(firstCrestC - 100); at < firing.offS() + 2 * 3600; at += EVERY_S) {
            for (Told told : Told.values()) {
                Course course = Course.of(told.of(firing.until(at, true)));
                Phases phases = FiringData.of(course, OptionalDouble.empty()).phases;
                double endsS = PlanAlignment.ahead(plan, course, phases).endsS(course.lastS());
                String asked = "%s, %s, asked at %.0f s".formatted(plan.name(), family, at);
                all.add(new Off(asked, told, (endsS - Math.max(course.lastS(), firing.offS())) / 60));
            }
        }
        return all;
    }

    private static List<Off> everyKilnAskedAllAlong(ControllerSpec controller) {
        List<Off> all = new ArrayList<>();
        for (Schedule plan : List.of(CRYSTALS, RINGS, DIP_ON_THE_WAY_UP)) {
            for (Population.Family family : List.of(Population.Family.LIGHT_BRICK, Population.Family.HEAVY_BRICK)) {
                all.addAll(askedAllAlong(plan, family, controller));
            }
        }
        assertThat(all).hasSizeGreaterThan(300);
        return all;
    }

    @Test
    void whereAControllerWaitsThePlansEndIsKnownAllAlongItsRisesAndFalls() {
        assertThat(everyKilnAskedAllAlong(ControllerSpec.waiting()))
                .allSatisfy(each -> assertThat(each.minutes()).isBetween(-20.0, 20.0));
    }

    @Test
    void whereAControllerGoesByTheClockThePlansEndIsKnownAllAlongItsRisesAndFalls() {
        assertThat(everyKilnAskedAllAlong(ControllerSpec.byTheClock()))
                .allSatisfy(each -> assertThat(each.minutes()).isBetween(-20.0, 20.0));
    }

    /** In the hold of the second crest, and a few minutes after it. */
    @Test
    void theTimesAreRightInTheLastHoldAndAfterIt() {
        VirtualTrial firing = fired(Population.Family.HEAVY_BRICK, 2, CRYSTALS, ControllerSpec.waiting());
        double truthS = firing.belowS(200);
        for (double minutes : new double[] {-10, 3, 10, 20}) {
            double askedS = firing.offS() + 60 * minutes;
            for (Told told : List.of(Told.SETPOINT_AND_OUTPUT, Told.OUTPUT)) {
                if (told == Told.OUTPUT && minutes > 0 && minutes < 8) {
                    // Without a set-point it may be a pulse's pause: no time is told yet.
                    continue;
                }
                Forecast.When when = Forecaster.forecast(ForecastQuestion.about(told.of(firing.until(askedS, true)))
                                .withPlan(CRYSTALS))
                        .below()
                        .get(0)
                        .when()
                        .orElseThrow();
                assertThat(truthS).as("%s, %.0f min", told, minutes).isBetween(when.fromS(), when.toS());
                assertThat(when.atS()).isCloseTo(truthS, within(0.05 * (truthS - askedS)));
            }
        }
    }

    /** Let go in the second rise: the set-point is gone and the elements are off, so what was left of the plan is not wanted. */
    @Test
    void whereTheSetPointHasGoneAndTheOutputIsNothingAllIsOver() {
        for (Told told : List.of(Told.SETPOINT_AND_OUTPUT, Told.OUTPUT)) {
            Trace log = told.of(letGoInTheSecondRise());
            Course course = Course.of(log);
            Phases phases = FiringData.of(course, OptionalDouble.empty()).phases;
            assertThat(PlanAlignment.ahead(CRYSTALS, course, phases).corners())
                    .as("%s", told)
                    .isEmpty();
        }
    }

    /** A firing as far as 1100 °C on the second rise, and eight minutes drawn by hand after it. */
    private static Trace letGoInTheSecondRise() {
        Trace all = fired(Population.Family.LIGHT_BRICK, 1, CRYSTALS, ControllerSpec.waiting())
                .until(1e9, true);
        Trace.Builder log = new Trace.Builder();
        boolean dipped = false;
        int i = 0;
        for (; !(dipped && all.temperatureC(i) > 1100); i++) {
            dipped |= all.elapsedMs(i) > 7 * 3_600_000L && all.temperatureC(i) < 1065;
            log.add(all.elapsedMs(i), all.temperatureC(i), all.output(i), all.setpointC(i));
        }
        for (int minute = 1; minute <= 8; minute++) {
            log.add(
                    all.elapsedMs(i) + 60_000L * minute,
                    20 + 1080 * Math.exp(-minute / 280.0),
                    OptionalDouble.of(0),
                    OptionalDouble.empty());
        }
        return log.view();
    }
}
