package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;
import org.kilnside.virtualkiln.Population;

/** The first minutes after the elements went off, when a potter asks for the first time when she may look in. */
class SoonAfterTheTopTest {
    private static final List<TrialFiring> FIRINGS =
            TrialPopulation.of(Family.BRICK, 3, 3, Habit.FREE_COOLING).firings();

    private static Forecast after(TrialFiring firing, double seconds, boolean withOutput) {
        return Forecaster.forecast(ForecastQuestion.about(firing.until(firing.offS() + seconds, withOutput)));
    }

    @Test
    void aHoldThatHasJustEndedIsNotTakenForASlowCooling() {
        for (TrialFiring firing : FIRINGS) {
            for (double seconds : new double[] {120, 240, 420}) {
                assertHolds(firing, after(firing, seconds, false), seconds);
            }
        }
    }

    /** Two virtual kilns whose times once jumped by 14 and 20 % of what was left, to and fro from minute to minute. */
    @Test
    void whatIsSaidMovesLittleFromOneMinuteToTheNext() {
        for (VirtualTrial trial : List.of(
                VirtualTrial.of(Population.Family.LIGHT_BRICK, 77, 6, 0, false),
                VirtualTrial.of(Population.Family.LAYERED, 77, 4, 0, false))) {
            double before = Double.NaN;
            for (double minutes = 26; minutes < 40; minutes++) {
                double asked = trial.offS() + 60 * minutes;
                double end = Forecaster.forecast(ForecastQuestion.about(trial.until(asked, true))
                                .withBelow(List.of(Temperature.ofCelsius(60))))
                        .below()
                        .get(0)
                        .when()
                        .orElseThrow()
                        .atS();
                if (!Double.isNaN(before)) {
                    assertThat(Math.abs(end - before) / (end - asked))
                            .as("%.0f min after the top", minutes)
                            .isLessThan(0.05);
                }
                before = end;
            }
        }
    }

    @Test
    void elementsThatAreOffAreNeverSaidToBeOn() {
        for (TrialFiring firing : FIRINGS) {
            for (double seconds : new double[] {30, 60, 120, 180, 300}) {
                Forecast forecast = after(firing, seconds, true);
                assertThat(forecast.remarks())
                        .as("%.0f s after", seconds)
                        .noneMatch(each -> each.kind() == Forecast.Remark.Kind.DRIVEN_COOLING);
                if (forecast.stage() == Forecast.Stage.COOLING) {
                    assertHolds(firing, forecast, seconds);
                }
            }
        }
    }

    /** Within half and twice the time it takes, and in the interval. */
    private static void assertHolds(TrialFiring firing, Forecast forecast, double seconds) {
        if (forecast.stage() != Forecast.Stage.COOLING) {
            assertThat(seconds).as("by now it is seen to cool").isLessThan(200);
            return;
        }
        double truthS = firing.belowS(200);
        Forecast.When when = forecast.below().get(0).when().orElseThrow();
        assertThat((when.atS() - forecast.askedS()) / (truthS - forecast.askedS()))
                .as("%.0f s after", seconds)
                .isBetween(0.5, 2.0);
        assertThat(truthS).isBetween(when.fromS(), when.toS());
    }

    @Test
    void aCoolingFromAnotherTopTeachesLess() {
        TrialFiring earlier = FIRINGS.get(1);
        KilnMemory memory = KilnMemory.of(List.of(earlier.until(1e9, false)), Optional.empty(), OptionalDouble.empty());
        double like = earlier.belowS(600) - earlier.offS();
        assertThat(memory.correction(600, like, 120).firings()).isGreaterThan(0.9);
        assertThat(memory.correction(600, like / 3, 120).firings()).isLessThan(0.2);
        assertThat(Math.abs(memory.correction(600, like / 3, 120).log()))
                .isLessThan(Math.abs(memory.correction(600, like, 120).log()));
        assertThat(memory.correction(600, like / 3, 120).log()
                        * memory.correction(600, like, 120).log())
                .isNotNegative();
    }

    @Test
    void aMemoryOfNothingCorrectsNothing() {
        assertThat(KilnMemory.of(List.of(Trace.EMPTY), Optional.empty(), OptionalDouble.empty())
                        .correction(600, 9000, 120))
                .isEqualTo(KilnMemory.Correction.NONE);
    }
}
