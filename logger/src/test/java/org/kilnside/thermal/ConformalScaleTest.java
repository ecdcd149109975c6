package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;

/** Intervals that hold nine in ten and are no wider than that takes. Trial kilns are independent: they share nothing with the model. */
class ConformalScaleTest {
    /** Error and half-width of the time from 200 to 120 °C, in parts of it. */
    private record Case(double error, double halfWidth) {
        static Case of(int number) {
            TrialFiring firing = TrialPopulation.of(Family.ORDINARY, number, 1, Habit.FREE_COOLING)
                    .firings()
                    .get(0);
            double askedS = firing.belowS(200);
            Forecast.When when = Forecaster.forecast(ForecastQuestion.about(firing.until(askedS, true))
                            .withAmbient(Temperature.ofCelsius(firing.roomC())))
                    .below()
                    .get(1)
                    .when()
                    .orElseThrow();
            double leftS = firing.belowS(120) - askedS;
            return new Case((when.atS() - askedS) / leftS - 1, (when.toS() - when.fromS()) / 2 / leftS);
        }

        boolean held() {
            return Math.abs(error) < halfWidth;
        }
    }

    @Test
    void aFallThatIsNearlyOverIsTimedNarrowlyAndHeld() {
        Case[] cases = IntStream.range(1000, 1012).mapToObj(Case::of).toArray(Case[]::new);
        assertThat(cases).filteredOn(Case::held).hasSizeGreaterThanOrEqualTo(11);
        assertThat(IntStream.range(0, cases.length)
                        .mapToDouble(i -> cases[i].halfWidth())
                        .average()
                        .orElseThrow())
                .isLessThan(0.038);
    }
}
