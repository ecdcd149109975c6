package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;

/** What a forecast says, and what it admits it cannot. Trial kilns are independent: they share nothing with the model. */
class ForecasterTest {
    private static final TrialFiring FIRING =
            TrialPopulation.of(Family.BRICK, 3, 1, Habit.FREE_COOLING).firings().get(0);

    private static Forecast ask(Trace curve) {
        return Forecaster.forecast(ForecastQuestion.about(curve));
    }

    private static List<Kind> remarks(Forecast forecast) {
        return forecast.remarks().stream().map(Forecast.Remark::kind).toList();
    }

    @Test
    void saysWhenAKilnFallingFromSixHundredWillBeCool() {
        double asked = FIRING.belowS(600);
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(FIRING.until(asked, false))
                .withAmbient(Temperature.ofCelsius(FIRING.ambientC[0])));
        assertThat(forecast.stage()).isEqualTo(Forecast.Stage.COOLING);
        assertThat(forecast.below()).hasSize(3);
        for (Forecast.Below below : forecast.below()) {
            double truth = FIRING.belowS(below.temperature().celsius());
            Forecast.When when = below.when().orElseThrow();
            assertThat((when.atS() - truth) / (truth - asked)).isBetween(-0.12, 0.12);
            assertThat(when.fromS()).isLessThan(when.atS());
            assertThat(when.toS()).isGreaterThan(when.atS());
        }
    }

    @Test
    void givesTheSameIntervalForTheSameLog() {
        Trace curve = FIRING.until(FIRING.belowS(500), true);
        assertThat(ask(curve)).isEqualTo(ask(curve));
    }

    @Test
    void saysSinceWhenItIsBelowWhatIsPast() {
        double asked = FIRING.belowS(100);
        Forecast.Below below = ask(FIRING.until(asked, false)).below().get(1);
        assertThat(below.temperature().celsius()).isEqualTo(120);
        assertThat(below.when().orElseThrow().atS()).isBetween(FIRING.belowS(120) - 600, FIRING.belowS(120) + 600);
    }

    @Test
    void forecastsArrivalFromKnownOutputAndThatTheElementsHavePowerToSpare() {
        double asked = firstAbove(FIRING, peak(FIRING) - 60);
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(FIRING.until(asked, true))
                .withAmbient(Temperature.ofCelsius(FIRING.ambientC[0]))
                .withTarget(Temperature.ofCelsius(peak(FIRING) - 5)));
        Forecast.Arrival arrival = forecast.arrival().orElseThrow();
        assertThat(forecast.stage()).isEqualTo(Forecast.Stage.HEATING);
        assertThat(arrival.reaches()).isNotEqualTo(Forecast.Reaches.NO);
        assertThat(arrival.topsOut()).isEmpty();
        assertThat(remarks(forecast)).contains(Kind.TOPS_OUT_BEYOND_ELEMENTS);
        assertThat(arrival.when().orElseThrow().atS()).isGreaterThan(asked);
    }

    @Test
    void admitsThatTwoReadingsSayNothing() {
        Forecast forecast = ask(new Trace.Builder().add(0, 20).add(1000, 21).view());
        assertThat(remarks(forecast)).containsExactly(Kind.TOO_SHORT);
        assertThat(forecast.below())
                .allSatisfy(below -> assertThat(below.when()).isEmpty());
    }

    @Test
    void admitsThatAnEmptyLogSaysNothing() {
        assertThat(remarks(ask(Trace.EMPTY))).containsExactly(Kind.TOO_SHORT);
    }

    @Test
    void admitsThatAKilnNeverHeatedHasNothingToForecast() {
        Trace.Builder flat = new Trace.Builder();
        for (int i = 0; i < 300; i++) {
            flat.add(i * 60_000L, 14 + (i % 3) * 0.25);
        }
        Forecast forecast = ask(flat.view());
        assertThat(forecast.stage()).isEqualTo(Forecast.Stage.WAITING);
        assertThat(remarks(forecast)).contains(Kind.NEVER_HEATED);
    }

    @Test
    void forecastsALogThatOnlyCoolsAndSaysThatItBeganWarm() {
        double from = FIRING.belowS(700);
        double asked = FIRING.belowS(300);
        Trace.Builder late = new Trace.Builder();
        Trace whole = FIRING.until(asked, false);
        for (int i = 0; i < whole.size(); i++) {
            if (whole.elapsedMs(i) >= from * 1000) {
                late.add(whole.elapsedMs(i), whole.temperatureC(i));
            }
        }
        Forecast forecast = ask(late.view());
        assertThat(forecast.stage()).isEqualTo(Forecast.Stage.COOLING);
        assertThat(remarks(forecast)).contains(Kind.STARTED_WARM);
        double truth = FIRING.belowS(120);
        assertThat((forecast.below().get(1).when().orElseThrow().atS() - truth) / (truth - asked))
                .isBetween(-0.35, 0.35);
    }

    @Test
    void holdsNothingAgainstTheCurveWhereTheLogHasAGap() {
        assertForecastDespiteAGap(FIRING.belowS(600) - 5400, FIRING.belowS(600) - 1200, 0.1);
    }

    @Test
    void runsFreeFromWhereTheLogGoesOnAfterAGapOverTheTop() {
        assertForecastDespiteAGap(FIRING.offS() - 2400, FIRING.offS() + 3600, 0.1);
    }

    private static void assertForecastDespiteAGap(double fromS, double toS, double within) {
        double asked = FIRING.belowS(500);
        Trace whole = FIRING.until(asked, false);
        Trace.Builder gappy = new Trace.Builder();
        for (int i = 0; i < whole.size(); i++) {
            if (whole.elapsedMs(i) < fromS * 1000 || whole.elapsedMs(i) > toS * 1000) {
                gappy.add(whole.elapsedMs(i), whole.temperatureC(i));
            }
        }
        Forecast forecast = ask(gappy.view());
        Forecast ungapped = ask(whole);
        assertThat(forecast.stage()).isEqualTo(Forecast.Stage.COOLING);
        for (int i = 0; i < 3; i++) {
            double without = ungapped.below().get(i).when().orElseThrow().atS() - asked;
            assertThat((forecast.below().get(i).when().orElseThrow().atS() - asked) / without)
                    .isBetween(1 - within, 1 + within);
        }
    }

    @Test
    void stillSaysSomethingWhenTheLogEndsAtTheTop() {
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(FIRING.until(FIRING.offS() - 60, true))
                .withTarget(Temperature.ofCelsius(peak(FIRING) - 2)));
        assertThat(forecast.stage()).isIn(Forecast.Stage.HOLDING, Forecast.Stage.HEATING);
        assertThat(forecast.arrival().orElseThrow().reaches()).isEqualTo(Forecast.Reaches.YES);
    }

    @Test
    void aSpikeInTheNewestReadingChangesNothing() {
        Trace good = FIRING.until(FIRING.belowS(400), false);
        Trace.Builder spiked = new Trace.Builder();
        for (int i = 0; i < good.size(); i++) {
            spiked.add(good.elapsedMs(i), good.temperatureC(i));
        }
        spiked.add(good.elapsedMs(good.size() - 1) + 60_000, 40);
        double without = ask(good).below().get(1).when().orElseThrow().atS();
        assertThat(ask(spiked.view()).below().get(1).when().orElseThrow().atS())
                .isCloseTo(without, org.assertj.core.data.Offset.offset(120.0));
    }

    @Test
    void neverSaysThatItWillBeColderThanTheRoom() {
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(FIRING.until(FIRING.belowS(500), false))
                .withAmbient(Temperature.ofCelsius(20))
                .withBelow(List.of(Temperature.ofCelsius(10))));
        assertThat(forecast.below().get(0).when()).isEmpty();
        assertThat(remarks(forecast)).contains(Kind.BELOW_ROOM);
    }

    @Test
    void countsEnergyOnlyWithKnownPower() {
        Trace curve = FIRING.until(FIRING.belowS(500), true);
        assertThat(ask(curve).energy()).isEmpty();
        double kwh = Forecaster.forecast(ForecastQuestion.about(curve)
                        .withPowerKw(TrialPopulation.of(Family.BRICK, 3, 1, Habit.FREE_COOLING)
                                        .kiln()
                                        .powerW()
                                / 1000))
                .energy()
                .orElseThrow()
                .kilowattHours();
        assertThat(kwh).isCloseTo(FIRING.suppliedJ / 3.6e6, org.assertj.core.data.Percentage.withPercentage(1));
    }

    @Test
    void countsNoEnergyOfAHeatingNobodySaw() {
        Trace whole = FIRING.until(FIRING.belowS(300), true);
        Trace.Builder cooling = new Trace.Builder();
        for (int i = whole.indexAt(Math.round(1000 * FIRING.belowS(700))); i < whole.size(); i++) {
            cooling.add(whole.elapsedMs(i), whole.temperatureC(i), whole.output(i), whole.setpointC(i));
        }
        assertThat(Forecaster.forecast(ForecastQuestion.about(cooling.view()).withPowerKw(6))
                        .energy())
                .isEmpty();
    }

    @Test
    void leavesNothingToChooseOnceItIsAsColdAsWasAskedFor() {
        List<Temperature> below = List.of(Temperature.ofCelsius(200), Temperature.ofCelsius(120));
        assertThat(Forecaster.forecast(ForecastQuestion.about(FIRING.until(FIRING.belowS(110), false))
                                .withBelow(below))
                        .choices())
                .isEmpty();
        assertThat(Forecaster.forecast(ForecastQuestion.about(FIRING.until(FIRING.belowS(150), false))
                                .withBelow(below))
                        .choices())
                .hasSize(3);
    }

    @Test
    void earlierFiringsOfTheKilnSharpenTheForecast() {
        double width = 0;
        double without = 0;
        for (int number = 4; number <= 6; number++) {
            TrialPopulation.Case kiln = TrialPopulation.of(Family.BRICK, number, 4, Habit.FREE_COOLING);
            TrialFiring now = kiln.firings().get(0);
            KilnMemory memory = KilnMemory.of(
                    kiln.firings().subList(1, 4).stream()
                            .map(firing -> firing.until(1e9, false))
                            .toList(),
                    Optional.empty(),
                    OptionalDouble.empty());
            assertThat(memory.firings()).isEqualTo(3);
            double asked = now.belowS(600);
            Trace curve = now.until(asked, false);
            Forecast.When alone = ask(curve).below().get(1).when().orElseThrow();
            Forecast.When remembered = Forecaster.forecast(
                            ForecastQuestion.about(curve).withMemory(memory))
                    .below()
                    .get(1)
                    .when()
                    .orElseThrow();
            without += alone.toS() - alone.fromS();
            width += remembered.toS() - remembered.fromS();
            double truth = now.belowS(120);
            assertThat(Math.abs(remembered.atS() - truth) / (truth - asked)).isLessThan(0.1);
        }
        assertThat(width).isLessThan(without);
    }

    static double firstAbove(TrialFiring firing, double celsius) {
        for (int i = 0; i < firing.size; i++) {
            if (firing.sensorC[i] > celsius) {
                return i * firing.stepS;
            }
        }
        throw new AssertionError("never " + celsius);
    }

    static double peak(TrialFiring firing) {
        double peak = 0;
        for (double each : firing.sensorC) {
            peak = Math.max(peak, each);
        }
        return peak;
    }
}
