package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;

/** A kiln seen to cool twice before, asked soon after its top. Trial kilns are independent: they share nothing with the model. */
class YoungCoolingTest {
    private static final double[] THRESHOLDS_C = {200, 120, 60};

    /** None of them had a part in what the weights were set on. */
    private static final int UNSEEN_FROM = 9400;

    private static final int KILNS = 10;

    private record Asked(TrialFiring firing, KilnMemory memory, double atS) {
        /** @param hot how far below its top it has fallen, K */
        static Asked fallen(int kiln, double hot) {
            List<TrialFiring> firings = TrialPopulation.of(Family.ORDINARY, kiln, 3, Habit.FREE_COOLING)
                    .firings();
            TrialFiring today = firings.get(2);
            KilnMemory memory = KilnMemory.of(
                    List.of(firings.get(0).log, firings.get(1).log), Optional.empty(), OptionalDouble.empty());
            return new Asked(today, memory, today.belowS(today.peakC() - hot));
        }

        ForecastQuestion question(double atS) {
            return ForecastQuestion.about(firing.until(atS, false))
                    .withAmbient(Temperature.ofCelsius(firing.roomC()))
                    .withMemory(memory);
        }

        Forecast.When below200() {
            return Forecaster.forecast(question(atS)).below().get(0).when().orElseThrow();
        }

        FiringData data() {
            return FiringData.of(Course.of(firing.until(atS, false)), OptionalDouble.of(firing.roomC()));
        }
    }

    @Test
    void itsWallIsKnownBeforeItsCoolingShowsMuch() {
        List<Double> off = new ArrayList<>();
        int held = 0;
        for (int kiln = UNSEEN_FROM; kiln < UNSEEN_FROM + KILNS; kiln++) {
            Asked asked = Asked.fallen(kiln, 120);
            Forecast.When when = asked.below200();
            double truthS = asked.firing().belowS(200);
            off.add(Math.abs((when.atS() - truthS) / (truthS - asked.atS())));
            held += when.fromS() <= truthS && truthS <= when.toS() ? 1 : 0;
            assertThat((when.toS() - when.fromS()) / 2 / (when.atS() - asked.atS()))
                    .as("half-width of kiln %d", kiln)
                    .isLessThan(0.18);
        }
        assertThat(off.stream().mapToDouble(Double::doubleValue).average().orElseThrow())
                .isLessThan(0.04);
        assertThat(held).isGreaterThanOrEqualTo(KILNS - 1);
    }

    @Test
    void theHourToldHardlyMovesAsTheKilnIsLeftAlone() {
        Asked early = Asked.fallen(UNSEEN_FROM, 60);
        Asked later = Asked.fallen(UNSEEN_FROM, 160);
        double left = early.firing().belowS(200) - early.atS();
        assertThat(later.below200().atS())
                .isBetween(
                        early.below200().atS() - left * 0.08, early.below200().atS() + left * 0.08);
    }

    @Test
    void whatItHasShownByItselfCountsMoreWithEveryHour() {
        Asked early = Asked.fallen(UNSEEN_FROM, 120);
        Asked later = Asked.fallen(UNSEEN_FROM, 500);
        double first = YoungCooling.of(early.memory(), early.data(), THRESHOLDS_C)
                .orElseThrow()
                .weight();
        double then = YoungCooling.of(later.memory(), later.data(), THRESHOLDS_C)
                .orElseThrow()
                .weight();
        assertThat(first).isBetween(0.6, 0.9);
        assertThat(then).isLessThan(0.6 * first);
        assertThat(YoungCooling.of(
                        early.memory(), Asked.fallen(UNSEEN_FROM, 900).data(), THRESHOLDS_C))
                .isEmpty();
    }

    @Test
    void aKilnNobodySawCoolHasNothingButItsOwnCurve() {
        Asked early = Asked.fallen(UNSEEN_FROM, 120);
        Trace climb = early.firing().until(early.firing().offS() - 3600, true);
        KilnMemory onlyHeated = KilnMemory.of(List.of(climb), Optional.empty(), OptionalDouble.empty());
        assertThat(YoungCooling.of(onlyHeated, early.data(), THRESHOLDS_C)).isEmpty();
        assertThat(YoungCooling.of(KilnMemory.none(Optional.empty()), early.data(), THRESHOLDS_C))
                .isEmpty();
    }
}
