package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

/** What a pen leaves out that follows a curve: nothing. */
class PenTrackTest {
    private static final int COLUMNS = 1600;
    private static final TimeSpan WHOLE = new TimeSpan(0, 130_000_000);
    private static final ChartScale SCALE = new ChartScale(0, COLUMNS / 130_000_000.0, 0, 900, 0.7);
    private static final double RADIUS = 0.75;

    private final PenTrack track = new PenTrack();

    @Test
    void everyReadingOfAHundredThousandLiesUnderThePenInBothWaysOfFollowing() {
        Random random = new Random(3);
        Trace.Builder builder = new Trace.Builder();
        double celsius = 20;
        long ms = 0;
        for (int i = 0; i < 130_000 && ms < WHOLE.toMs(); i++) {
            ms += random.nextInt(20_000) == 0 ? 900_000 : 1000;
            celsius += random.nextGaussian() * 0.4 + (i < 60_000 ? 0.016 : -0.012);
            builder.add(ms, celsius + (random.nextInt(30_000) == 0 ? 150 : 0));
        }
        Trace curve = builder.view();
        CurveLevels.Level coarse = CurveLevels.of(curve).level(0, 200_000_000, COLUMNS);
        for (boolean made : new boolean[] {false, true}) {
            if (made) {
                track.follow(coarse, WHOLE, 0, SCALE, COLUMNS, RADIUS);
            } else {
                track.follow(curve, WHOLE, 10_000, SCALE, COLUMNS, RADIUS);
            }
            for (int i = 0; i < curve.size(); i++) {
                double x = SCALE.x(curve.elapsedMs(i));
                double y = SCALE.y(curve.temperatureC(i));
                if (x < COLUMNS) {
                    // A block of the coarse copy, 32 readings, is wider than a strip: its peak is there, at its time.
                    int strip = (int) (x * PenTrack.STRIPS);
                    assertThat(covered(strip, y)).as("reading " + i).isTrue();
                }
            }
        }
    }

    private boolean covered(int strip, double y) {
        for (int k = Math.max(0, strip - 2); k <= Math.min(track.strips() - 1, strip + 2); k++) {
            if (y >= track.top(k) - 0.01 && y <= track.bottom(k) + 0.01) {
                return true;
            }
        }
        return false;
    }

    @Test
    void aSpikeOfOneReadingReachesItsHeight() {
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < 130_000; i++) {
            curve.add(i * 1000L, i == 77_777 ? 900 : 500 + 0.01 * (i % 7));
        }
        track.follow(curve.view(), WHOLE, 10_000, SCALE, COLUMNS, RADIUS);
        int strip = (int) (SCALE.x(77_777_000) * PenTrack.STRIPS);
        assertThat((double) track.top(strip))
                .isCloseTo(SCALE.y(900) - RADIUS, org.assertj.core.data.Offset.offset(0.05));
        assertThat(track.top(strip - 40)).isGreaterThan((float) SCALE.y(510));
    }

    @Test
    void aSlopeIsAsWideAsThePenAcrossIt() {
        Trace slope = new Trace.Builder().add(0, 0).add(130_000_000, 1000).view();
        ChartScale steep = new ChartScale(0, COLUMNS / 130_000_000.0, 0, 3200, 3.2);
        track.follow(slope, WHOLE, Long.MAX_VALUE, steep, COLUMNS, 2);
        // A line that falls two dots for each to the right: its height across is its width times the root of five.
        double high = track.bottom(3000) - (double) track.top(3000);
        assertThat(high).isBetween(4 * Math.sqrt(5) - 0.1, 4 * Math.sqrt(5) + 0.6);
    }

    @Test
    void theReadingsJustOutsideLeadTheLineToTheEdge() {
        Trace curve = new Trace.Builder()
                .add(0, 10)
                .add(50_000_000, 20)
                .add(80_000_000, 30)
                .add(130_000_000, 40)
                .view();
        TimeSpan middle = new TimeSpan(60_000_000, 70_000_000);
        ChartScale near = new ChartScale(60_000_000, COLUMNS / 10_000_000.0, 0, 900, 10);
        track.follow(curve, middle, Long.MAX_VALUE, near, COLUMNS, RADIUS);
        assertThat((double) track.top(0)).isCloseTo(900 - 233.3 - RADIUS, org.assertj.core.data.Offset.offset(0.2));
        assertThat((double) track.bottom(track.strips() - 1))
                .isCloseTo(900 - 266.7 + RADIUS, org.assertj.core.data.Offset.offset(0.2));
    }

    @Test
    void aHoleInTheReadingsStaysEmptyAndAReadingAloneIsADot() {
        Trace curve = new Trace.Builder()
                .add(10_000_000, 10)
                .add(10_001_000, 20)
                .add(65_000_000, 500)
                .add(100_000_000, 30)
                .add(100_001_000, 40)
                .view();
        track.follow(curve, WHOLE, 10_000, SCALE, COLUMNS, RADIUS);
        assertThat(empty(40_000_000)).isTrue();
        assertThat(empty(80_000_000)).isTrue();
        assertThat(empty(65_000_000)).isFalse();
        assertThat(empty(10_000_500)).isFalse();
    }

    private boolean empty(long ms) {
        int strip = (int) (SCALE.x(ms) * PenTrack.STRIPS);
        return track.top(strip) > track.bottom(strip);
    }

    @Test
    void nothingAndSeveralReadingsInOneInstantAreNoTrouble() {
        track.follow(Trace.EMPTY, WHOLE, 10_000, SCALE, COLUMNS, RADIUS);
        assertThat(empty(50_000_000)).isTrue();
        Trace instant = new Trace.Builder().add(1000, 20).add(1000, 700).view();
        track.follow(instant, WHOLE, 10_000, SCALE, COLUMNS, RADIUS);
        assertThat(covered(0, SCALE.y(20))).isTrue();
        assertThat(covered(0, SCALE.y(700))).isTrue();
    }
}
