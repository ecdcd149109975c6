package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

/** What the coarse copy of a curve leaves out: nothing that could be seen. */
class CurveLevelsTest {
    private static Trace noisy(long seed, boolean gaps) {
        Random random = new Random(seed);
        Trace.Builder curve = new Trace.Builder();
        double celsius = 20;
        long ms = 0;
        for (int i = 0; i < 130_000; i++) {
            ms += gaps && random.nextInt(20_000) == 0 ? 900_000 : 1000;
            celsius += random.nextGaussian() * 0.4 + (i < 60_000 ? 0.016 : -0.012);
            curve.add(ms, celsius + (random.nextInt(30_000) == 0 ? 150 : 0));
        }
        return curve.view();
    }

    @Test
    void theCoarseCopyHasEveryPeakOfTheWhole() {
        Trace curve = noisy(8, true);
        CurveLevels levels = CurveLevels.of(curve);
        CurveLevels.Level coarse = levels.level(0, 200_000_000, 1600);
        assertThat(coarse.size()).isLessThan(curve.size() / 6);
        for (int from = 0; from + 5000 <= curve.size(); from += 5000) {
            double highest = Double.NEGATIVE_INFINITY;
            double lowest = Double.POSITIVE_INFINITY;
            // A block at either end may have its extremes beyond it.
            for (int i = from + 64; i < from + 4936; i++) {
                highest = Math.max(highest, curve.temperatureC(i));
                lowest = Math.min(lowest, curve.temperatureC(i));
            }
            double kept = Double.NEGATIVE_INFINITY;
            double keptLow = Double.POSITIVE_INFINITY;
            for (int i = coarse.from(curve.elapsedMs(from));
                    i < coarse.size() && coarse.timeMs()[i] <= curve.elapsedMs(from + 4999);
                    i++) {
                if (!Double.isNaN(coarse.temperatureC()[i])) {
                    kept = Math.max(kept, coarse.temperatureC()[i]);
                    keptLow = Math.min(keptLow, coarse.temperatureC()[i]);
                }
            }
            assertThat(kept).isGreaterThanOrEqualTo(highest);
            assertThat(keptLow).isLessThanOrEqualTo(lowest);
        }
    }

    @Test
    void theFurtherAwayItIsLookedAtTheFewerPointsItHas() {
        CurveLevels levels = CurveLevels.of(noisy(8, false));
        assertThat(levels.level(0, 200_000_000, 100_000).size()).isEqualTo(130_000);
        assertThat(levels.level(0, 200_000_000, 4000).size()).isBetween(10_000, 17_000);
        assertThat(levels.level(0, 200_000_000, 1600).size()).isBetween(5_000, 8_500);
        assertThat(levels.level(0, 200_000_000, 900).size()).isBetween(2_500, 4_300);
    }

    @Test
    void aGapIsABreakInEveryCopy() {
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < 100_000; i++) {
            curve.add(i * 1000L + (i >= 50_000 ? 7_200_000 : 0), 20 + i * 0.01);
        }
        CurveLevels levels = CurveLevels.of(curve.view());
        for (int columns : new int[] {900, 1600, 3000, 100_000}) {
            CurveLevels.Level level = levels.level(0, 130_000_000, columns);
            assertThat(Arrays.stream(level.temperatureC(), 0, level.size()).filter(Double::isNaN))
                    .hasSize(1);
        }
    }

    @Test
    void anEmptyCurveHasNoPoints() {
        assertThat(CurveLevels.of(Trace.EMPTY).level(0, 1, 100).size()).isZero();
    }
}
