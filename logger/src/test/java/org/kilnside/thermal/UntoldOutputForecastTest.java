package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** What is said of the top where the controller tells no output. Virtual kilns are independent of the model. */
class UntoldOutputForecastTest {
    private static final Schedule PLAN = Programs.glaze(1200, 80);

    /** Elements worn to a part of their power: from keeping up to never getting there. */
    private static List<VirtualTrial> wornKilns() {
        List<VirtualTrial> firings = new ArrayList<>();
        for (Population.Family family : List.of(Population.Family.LIGHT_BRICK, Population.Family.HEAVY_BRICK)) {
            for (double resistance : new double[] {1.2, 1.5, 1.8, 2.1}) {
                firings.add(VirtualTrial.run(
                        new Population(family, 41)
                                .specimen(firings.size())
                                .glazeFiring(PLAN, 0)
                                .interval(10)
                                .elementResistance(resistance)
                                .controller(ControllerSpec.waiting())
                                .start(),
                        PLAN,
                        900,
                        30 * 3600));
            }
        }
        return firings;
    }

    private static Arrival arrival(Trace log, Optional<Schedule> plan) {
        ForecastQuestion about = ForecastQuestion.about(log);
        return Forecaster.forecast(
                        plan.isPresent() ? about.withPlan(plan.get()) : about.withTarget(Temperature.ofCelsius(1200)))
                .arrival()
                .orElseThrow();
    }

    @Test
    void noKilnThatGetsToItsTopIsCalledTooWeakHoweverFarItLagsBehind() {
        int lagged = 0;
        for (VirtualTrial firing : wornKilns()) {
            if (firing.peakC() < 1197) {
                continue;
            }
            for (double askedC = 300; askedC < 1200; askedC += 45) {
                Trace log = firing.until(firing.aboveS(askedC), false);
                boolean[] full = FullOutputGuess.of(Course.of(log), Optional.of(PLAN));
                lagged += full[full.length - 1] ? 1 : 0;
                assertThat(arrival(log, Optional.of(PLAN)).reaches())
                        .as("at %.0f °C of a kiln that got to %.0f °C", askedC, firing.peakC())
                        .isNotEqualTo(Reaches.NO);
            }
        }
        assertThat(lagged).isGreaterThan(5);
    }

    @Test
    void whereFullOutputIsGuessedTheElementsDoGiveAllTheyHave() {
        int guessed = 0;
        int right = 0;
        for (VirtualTrial firing : wornKilns()) {
            Course told = Course.of(firing.until(firing.offS(), true));
            Course untold = Course.of(firing.until(firing.offS(), false));
            boolean[] full = FullOutputGuess.of(untold, Optional.of(PLAN));
            for (int i = 0; i < full.length; i++) {
                guessed += full[i] ? 1 : 0;
                right += full[i] && told.output[i] > 0.93 ? 1 : 0;
            }
        }
        assertThat(guessed).isGreaterThan(300);
        assertThat(right).isGreaterThan((int) (0.95 * guessed));
    }

    /** At 150 °C/h to 800 °C, then at full output towards 1150 °C by one exponential of three hours. Own course. */
    private static Trace stalling(double hours) {
        Trace.Builder curve = new Trace.Builder();
        double fullFromS = 780 / 150.0 * 3600;
        for (double timeS = 0; timeS <= hours * 3600; timeS += 30) {
            double celsius = timeS >= fullFromS
                    ? 1150 - 350 * Math.exp(-(timeS - fullFromS) / (3 * 3600))
                    : 20 + 150 * timeS / 3600;
            curve.add(
                    Math.round(timeS * 1000),
                    Math.round(celsius * 4) / 4.0,
                    OptionalDouble.empty(),
                    OptionalDouble.empty());
        }
        return curve.view();
    }

    @Test
    void aKilnThatStallsIsSaidNotToReachItsTopWhileItStillCreepsAndWhenItStands() {
        for (double hours : new double[] {16, 19, 24}) {
            for (Optional<Schedule> plan : List.of(Optional.of(PLAN), Optional.<Schedule>empty())) {
                Arrival arrival = arrival(stalling(hours), plan);
                assertThat(arrival.reaches())
                        .as("after %.0f h, plan %s", hours, plan.isPresent())
                        .isEqualTo(Reaches.NO);
                assertThat(arrival.topsOut().orElseThrow().at().celsius()).isBetween(1120.0, 1180.0);
            }
        }
    }

    @Test
    void aKilnThatIsLateWhenItsPlanIsOverIsStillSeenToLag() {
        Trace log = stalling(15);
        boolean[] full = FullOutputGuess.of(Course.of(log), Optional.of(PLAN));
        assertThat(full[full.length - 1]).isTrue();
        assertThat(full[20]).isFalse();
    }

    /** Twenty minutes late at 600 °C, held there and led on at its plan's rate. */
    @Test
    void aKilnThatIsLateForAHoldAndKeepsItIsNotTakenToGiveAllItHas() {
        Schedule plan = new Schedule(
                "with a hold",
                List.of(
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(120), Temperature.ofCelsius(600), Duration.ofMinutes(30)),
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(150), Temperature.ofCelsius(1200), Duration.ZERO)));
        Trace.Builder curve = new Trace.Builder();
        double celsius = 20;
        for (long minute = 0; minute < 480; minute++) {
            boolean waits = minute > 40 && minute <= 60;
            boolean holds = minute > 310 && minute <= 340;
            celsius += waits || holds ? 0 : (celsius < 600 ? 120 : 150) / 60.0;
            curve.add(60_000 * minute, celsius, OptionalDouble.empty(), OptionalDouble.empty());
        }
        Trace log = curve.view();
        boolean[] full = FullOutputGuess.of(Course.of(log), Optional.of(plan));
        assertThat(full).containsOnly(false);
    }

    @Test
    void aSteeredRampIsNotTakenForAKilnThatSlowsDown() {
        Trace.Builder curve = new Trace.Builder();
        double celsius = 20;
        for (long minute = 0; celsius < 1150; minute++) {
            celsius += (celsius < 900 ? 150 : celsius < 1050 ? 100 : 60) / 60.0;
            curve.add(60_000 * minute, celsius, OptionalDouble.empty(), OptionalDouble.empty());
        }
        boolean[] full = FullOutputGuess.of(Course.of(curve.view()), Optional.empty());
        assertThat(full).containsOnly(false);
    }

    @Test
    void anOutputThatIsToldIsNotSaidToBeUntoldWhileItIsTooEarlyToUseIt() {
        VirtualTrial firing = wornKilns().get(0);
        assertThat(remarks(firing.until(2400, true)))
                .contains(Forecast.Remark.Kind.OUTPUT_NOT_SEEN_YET)
                .doesNotContain(Forecast.Remark.Kind.OUTPUT_UNKNOWN, Forecast.Remark.Kind.FULL_OUTPUT_GUESSED);
        assertThat(remarks(firing.until(firing.aboveS(300), true)))
                .doesNotContain(Forecast.Remark.Kind.OUTPUT_NOT_SEEN_YET);
        assertThat(remarks(firing.until(2400, false))).doesNotContain(Forecast.Remark.Kind.OUTPUT_NOT_SEEN_YET);
    }

    private static List<Forecast.Remark.Kind> remarks(Trace log) {
        return Forecaster.forecast(ForecastQuestion.about(log).withPlan(PLAN)).remarks().stream()
                .map(Forecast.Remark::kind)
                .toList();
    }
}
