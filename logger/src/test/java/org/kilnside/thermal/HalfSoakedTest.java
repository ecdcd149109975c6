package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;

/**
 * Kilns whose elements went off in mid-climb, or that were heated again on the way down, asked in the first hours of what
 * follows. Trial kilns are independent of the model, and none of these numbers was looked at when its widths were set.
 */
class HalfSoakedTest {
    private static final int UNSEEN_FROM = 9720;
    private static final int KILNS = 10;

    private static final List<TrialFiring.Leg> BROKEN_OFF =
            List.of(new TrialFiring.Leg(120, 620, 0), new TrialFiring.Leg(0, 0, 0));

    /** Down faster than any kiln falls: the elements are off until it is there. */
    private static final List<TrialFiring.Leg> HEATED_AGAIN = List.of(
            new TrialFiring.Leg(130, 1150, 600),
            new TrialFiring.Leg(3000, 650, 0),
            new TrialFiring.Leg(200, 950, 0),
            new TrialFiring.Leg(0, 0, 0));

    /** A bisque with hardly a hold: nobody may take its top for a climb broken off, told where it was to end or not. */
    private static final List<TrialFiring.Leg> BISQUE =
            List.of(new TrialFiring.Leg(150, 965, 300), new TrialFiring.Leg(0, 0, 0));

    private static final List<TrialFiring.Leg> WHOLE =
            List.of(new TrialFiring.Leg(130, 1150, 900), new TrialFiring.Leg(0, 0, 0));

    private static List<TrialFiring> fired(List<TrialFiring.Leg> plan) {
        return IntStream.range(UNSEEN_FROM, UNSEEN_FROM + KILNS)
                .mapToObj(number -> {
                    TrialKiln kiln = TrialPopulation.of(Family.ORDINARY, number, 1, Habit.FREE_COOLING)
                            .kiln();
                    double kg = 220 * kiln.volumeM3();
                    return TrialFiring.run(
                            kiln,
                            new TrialKiln.Load(kg * 0.7, kg * 0.3, 0.1, 0.75, 0),
                            plan,
                            new TrialFiring.Conditions(15, 14, 0, 0.4, 0.25, 30, List.of(), 1),
                            number,
                            50);
                })
                .toList();
    }

    private static Forecast asked(TrialFiring firing, double minutes) {
        return Forecaster.forecast(ForecastQuestion.about(firing.until(firing.offS() + 60 * minutes, true))
                .withTarget(Temperature.ofCelsius(1150)));
    }

    private static boolean says(Forecast forecast, Kind kind) {
        return forecast.remarks().stream().anyMatch(remark -> remark.kind() == kind);
    }

    private static boolean holds(TrialFiring firing, Forecast forecast) {
        When when = forecast.below().get(0).when().orElseThrow();
        double truth = firing.belowS(200);
        return when.fromS() <= truth && truth <= when.toS();
    }

    private static void assertHeldInItsFirstHours(List<TrialFiring> firings, Kind kind) {
        for (double minutes : new double[] {15, 30, 60, 90}) {
            assertThat(firings)
                    .as("%s, %.0f min after", kind, minutes)
                    .filteredOn(firing -> holds(firing, asked(firing, minutes)))
                    .hasSizeGreaterThanOrEqualTo(KILNS - 2);
        }
        assertThat(firings).allMatch(firing -> says(asked(firing, 30), kind));
        assertThat(firings).noneMatch(firing -> says(asked(firing, 300), kind));
    }

    @Test
    void whatIsToldAfterAClimbBrokenOffHoldsAndSaysHowLittleIsKnown() {
        assertHeldInItsFirstHours(fired(BROKEN_OFF), Kind.CLIMB_BROKEN_OFF);
    }

    @Test
    void whatIsToldOfAKilnHeatedAgainHoldsAndSaysHowLittleIsKnown() {
        assertHeldInItsFirstHours(fired(HEATED_AGAIN), Kind.HEATED_AGAIN);
    }

    @Test
    void nothingIsSaidToBeOpenedWhereAClimbWasBrokenOff() {
        assertThat(fired(BROKEN_OFF))
                .noneMatch(firing -> says(asked(firing, 150), Kind.OPENED) || says(asked(firing, 240), Kind.OPENED));
    }

    @Test
    void aKilnLetGoAtItsTopIsNeither() {
        assertThat(fired(WHOLE)).noneMatch(firing -> {
            Forecast forecast = asked(firing, 30);
            return says(forecast, Kind.CLIMB_BROKEN_OFF) || says(forecast, Kind.HEATED_AGAIN);
        });
    }

    @Test
    void aBisqueWithHardlyAHoldIsNoClimbBrokenOff() {
        for (TrialFiring firing : fired(BISQUE)) {
            ForecastQuestion question = ForecastQuestion.about(firing.until(firing.offS() + 1800, true));
            Forecast untold = Forecaster.forecast(question);
            Forecast told = Forecaster.forecast(question.withTarget(Temperature.ofCelsius(965)));
            assertThat(says(untold, Kind.CLIMB_BROKEN_OFF) || says(told, Kind.CLIMB_BROKEN_OFF))
                    .isFalse();
            assertThat(told.below()).isEqualTo(untold.below());
        }
    }

    @Test
    void whetherItGetsThereCannotBeSaidWhileItsControllerAsksForMore() {
        TrialFiring firing = fired(BROKEN_OFF).get(0);
        double minute = 30;
        Forecast off = asked(firing, minute);
        assertThat(off.arrival().map(Arrival::reaches)).contains(Reaches.NO);
        Trace log = firing.until(firing.offS() + 60 * minute, true);
        Trace.Builder asks = new Trace.Builder();
        for (int i = 0; i < log.size(); i++) {
            double setpointC = log.setpointC(i).orElse(BROKEN_OFF.get(0).toC());
            asks.add(log.elapsedMs(i), log.temperatureC(i), log.output(i), OptionalDouble.of(setpointC));
        }
        Forecast asking =
                Forecaster.forecast(ForecastQuestion.about(asks.view()).withTarget(Temperature.ofCelsius(1150)));
        assertThat(asking.arrival().map(Arrival::reaches)).contains(Reaches.CANNOT_SAY_YET);
    }
}
