package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;
import org.kilnside.virtualkiln.Population;

/** Raw clay takes power of its own between some 430 and 650 °C. The virtual kiln's is independent of the model's. */
class BoundWaterForecastTest {
    /** A virtual kiln's second firing in every pair is a bisque of raw ware. */
    private static VirtualTrial bisque(int kiln) {
        return VirtualTrial.of(Population.Family.LIGHT_BRICK, 20_261_126, kiln, kiln % 2 == 0 ? 1 : 0, false);
    }

    @Test
    void aBisqueThatGetsToItsTopIsNotCalledTooWeakWhileTheWaterLeaves() {
        for (int kiln = 0; kiln < 4; kiln++) {
            VirtualTrial firing = bisque(kiln);
            double topC = firing.plan().top().celsius();
            assertThat(firing.peakC()).as("kiln %d", kiln).isGreaterThan(topC - 4);
            for (double askedC : new double[] {540, 580, 620, 680, 740}) {
                Forecast forecast =
                        Forecaster.forecast(ForecastQuestion.about(firing.until(firing.aboveS(askedC), true))
                                .withTarget(Temperature.ofCelsius(topC)));
                assertThat(forecast.arrival().orElseThrow().reaches())
                        .as("kiln %d at %.0f °C", kiln, askedC)
                        .isNotEqualTo(Forecast.Reaches.NO);
            }
        }
    }

    @Test
    void whatLeavesComesToTheWhole() {
        double sum = 0;
        for (double celsius = 400; celsius < 700; celsius += 0.1) {
            sum += 0.1 * BoundWaterLeaving.perK(celsius);
        }
        assertThat(sum).isCloseTo(1, within(1e-6));
    }

    @Test
    void theWaterIsPaidForOnceAndForAll() {
        WallSlab slab = slab(120);
        WallSlab dry = slab(0);
        heatAndCool(slab);
        heatAndCool(dry);
        assertThat(slab.loadHolds(12) - dry.loadHolds(12)).isCloseTo(0.6 * 120, within(0.6 * 120 * 0.02));
        double taken = slab.loadHolds(12) - dry.loadHolds(12);
        heatAndCool(slab);
        heatAndCool(dry);
        assertThat(slab.loadHolds(12) - dry.loadHolds(12)).isCloseTo(taken, within(1e-6));
    }

    private static WallSlab slab(double waterK) {
        WallSlab slab = new WallSlab(WallKind.BRICK.shape(), WallSlab.USUAL_CELLS);
        slab.use(new KilnParameters(14_000, 3, 0.6, 0.2, 0.25, 1, 0.8, 0.015, 0.045, 3500, 12, waterK, 0));
        slab.startUniform(12);
        return slab;
    }

    /** Up at 100 K/h to 800 °C, and down again to where the first firing began. */
    private static void heatAndCool(WallSlab slab) {
        for (double celsius = 20; celsius <= 800; celsius += 5) {
            slab.drive(180, celsius);
        }
        for (double celsius = 800; celsius >= 20; celsius -= 5) {
            slab.drive(1800, celsius);
        }
        for (int i = 0; i < 50; i++) {
            slab.drive(3600, 12);
        }
    }

    @Test
    void onlyAFiringThatMayHaveLostItsWaterIsAskedForIt() {
        VirtualTrial firing = bisque(0);
        FiringData early =
                FiringData.of(Course.of(firing.until(firing.aboveS(400), true)), java.util.OptionalDouble.empty());
        FiringData later =
                FiringData.of(Course.of(firing.until(firing.aboveS(560), true)), java.util.OptionalDouble.empty());
        int without = early.prior(WallKind.BRICK).size();
        assertThat(later.prior(WallKind.BRICK).size()).isEqualTo(without + 1);
        assertThat(KilnMemory.none(Optional.of(WallKind.BRICK))
                        .fit(later)
                        .get(0)
                        .fit()
                        .kiln()
                        .boundWaterK())
                .isGreaterThan(20);
    }
}
