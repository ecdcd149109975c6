package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.PathIterator;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

/** What a drawing of a curve leaves out: nothing that could be seen. */
class CurvePathTest {
    private static final CurvePath.Scale SCALE = new CurvePath.Scale(0, 1600 / 130_000_000.0, 0, 900, 0.7);

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

    private static List<double[]> corners(CurvePath path, CurveLevels.Level level, CurvePath.Scale scale) {
        List<double[]> corners = new ArrayList<>();
        double[] at = new double[6];
        for (PathIterator it = path.of(level, 0, 130_000_000, 0, scale).getPathIterator(null);
                !it.isDone();
                it.next()) {
            int kind = it.currentSegment(at);
            corners.add(new double[] {at[0], at[1], kind});
        }
        return corners;
    }

    @Test
    void everyReadingLiesWithinAPixelOfWhatIsDrawn() {
        for (boolean gaps : new boolean[] {false, true}) {
            Trace curve = noisy(3, gaps);
            CurveLevels levels = CurveLevels.of(curve);
            List<double[]> fine = corners(new CurvePath(), levels.level(0, 130_000_000, 100_000), SCALE);
            int segment = 0;
            for (int i = 0; i < curve.size(); i++) {
                double x = SCALE.x(curve.elapsedMs(i));
                double y = SCALE.y(curve.temperatureC(i));
                while (segment + 1 < fine.size() && fine.get(segment + 1)[0] < x - 1e-9) {
                    segment++;
                }
                double[] from = fine.get(segment);
                double[] to = fine.get(Math.min(segment + 1, fine.size() - 1));
                if (to[2] == PathIterator.SEG_MOVETO || to[0] == from[0]) {
                    continue;
                }
                double drawn = from[1] + (to[1] - from[1]) * (x - from[0]) / (to[0] - from[0]);
                assertThat(Math.abs(drawn - y)).as("reading " + i).isLessThan(0.26);
            }
        }
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
            for (int i = from + 32; i < from + 4968; i++) {
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
    void aGapIsABreakInBothCopies() {
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < 100_000; i++) {
            curve.add(i * 1000L + (i >= 50_000 ? 7_200_000 : 0), 20 + i * 0.01);
        }
        CurveLevels levels = CurveLevels.of(curve.view());
        for (int columns : new int[] {1600, 100_000}) {
            List<double[]> drawn = corners(new CurvePath(), levels.level(0, 130_000_000, columns), SCALE);
            assertThat(drawn.stream().filter(corner -> corner[2] == PathIterator.SEG_MOVETO))
                    .hasSize(2);
            // Two straight ramps are two strokes.
            assertThat(drawn).hasSizeLessThan(10);
        }
    }

    @Test
    void anEmptyCurveAndASingleReadingDrawNothingWrong() {
        assertThat(corners(new CurvePath(), CurveLevels.of(Trace.EMPTY).level(0, 1, 100), SCALE))
                .isEmpty();
        Trace one = new Trace.Builder().add(1000, 20).view();
        assertThat(corners(new CurvePath(), CurveLevels.of(one).level(0, 5000, 100), SCALE))
                .hasSize(1);
    }
}
