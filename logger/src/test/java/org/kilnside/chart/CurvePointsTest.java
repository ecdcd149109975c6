package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

class CurvePointsTest {
    private static final long NO_GAP = Long.MAX_VALUE;

    private final CurvePoints points = new CurvePoints();

    @Test
    void aSpikeOfOneReadingAmongAHundredThousandIsStillThere() {
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < 130_000; i++) {
            curve.add(i * 1000L, i == 77_777 ? 900 : 500 + 0.01 * (i % 7));
        }
        points.take(curve.view(), new TimeSpan(0, 130_000_000), 1600, 1, NO_GAP);
        assertThat(points.highestC()).isEqualTo(900);
        assertThat(temperatures()).contains(900);
        assertThat(points.size()).isLessThan(2000);
    }

    @Test
    void theLowestAndTheHighestOfEveryColumnSurvive() {
        Random random = new Random(20261125);
        for (int round = 0; round < 50; round++) {
            Trace.Builder builder = new Trace.Builder();
            int readings = 2000 + random.nextInt(3000);
            long at = 0;
            for (int i = 0; i < readings; i++) {
                at += random.nextInt(2000);
                builder.add(at, 20 + 900 * random.nextDouble());
            }
            Trace curve = builder.view();
            TimeSpan span = new TimeSpan(0, at + 1);
            int columns = 100 + random.nextInt(200);
            points.take(curve, span, columns, 0.001, NO_GAP);
            double[][] wanted = extremes(columns);
            double[][] found = extremes(columns);
            for (int i = 0; i < curve.size(); i++) {
                note(wanted, column(curve.elapsedMs(i), span, columns), curve.temperatureC(i));
            }
            for (int i = 0; i < points.size(); i++) {
                note(found, column((long) points.timeMs(i), span, columns), points.temperatureC(i));
            }
            assertThat(found).isDeepEqualTo(wanted);
        }
    }

    @Test
    void theReadingsJustOutsideAreTakenTooSoThatTheLineReachesTheEdge() {
        Trace curve = new Trace.Builder()
                .add(0, 10)
                .add(1000, 20)
                .add(2000, 30)
                .add(3000, 40)
                .view();
        points.take(curve, new TimeSpan(1200, 1800), 100, 0.1, NO_GAP);
        assertThat(temperatures()).containsExactly(20, 30);
    }

    @Test
    void aHoleInTheReadingsIsABreakInTheLine() {
        Trace curve = new Trace.Builder()
                .add(0, 10)
                .add(1000, 20)
                .add(100_000, 30)
                .add(101_000, 40)
                .view();
        points.take(curve, new TimeSpan(0, 102_000), 1000, 0.1, 10_000);
        assertThat(temperatures()).containsExactly(10, 20, Double.NaN, 30, 40);
    }

    @Test
    void anEmptyCurveHasNoPoints() {
        points.take(Trace.EMPTY, new TimeSpan(0, 1000), 100, 1, NO_GAP);
        assertThat(points.size()).isZero();
        assertThat(points.lowestC()).isGreaterThan(points.highestC());
    }

    private double[] temperatures() {
        double[] all = new double[points.size()];
        for (int i = 0; i < all.length; i++) {
            all[i] = points.temperatureC(i);
        }
        return all;
    }

    private static int column(long at, TimeSpan span, int columns) {
        return (int) Math.floor((at - span.fromMs()) * ((double) columns / span.lengthMs()));
    }

    private static double[][] extremes(int columns) {
        double[][] extremes = new double[columns][2];
        for (double[] column : extremes) {
            column[0] = Double.POSITIVE_INFINITY;
            column[1] = Double.NEGATIVE_INFINITY;
        }
        return extremes;
    }

    private static void note(double[][] extremes, int column, double celsius) {
        extremes[column][0] = Math.min(extremes[column][0], celsius);
        extremes[column][1] = Math.max(extremes[column][1], celsius);
    }
}
