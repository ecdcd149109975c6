package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

class CourseTest {
    /** The first hour of a cooling: fast, and ever slower. */
    private static final DoubleUnaryOperator COOLING = seconds -> 650 + 250 * Math.exp(-seconds / 2000);

    private static Course course(DoubleUnaryOperator celsius, double noiseK, long seed) {
        Random random = new Random(seed);
        Trace.Builder trace = new Trace.Builder();
        for (int minute = 0; minute < 120; minute++) {
            trace.add(60_000L * minute, celsius.applyAsDouble(60 * minute) + noiseK * random.nextGaussian());
        }
        return Course.of(trace.view());
    }

    @Test
    void aSensorsNoiseIsToldFromTheCurveItLiesOn() {
        for (double noiseK : new double[] {0.3, 1, 2}) {
            Course course = course(COOLING, noiseK, 7);
            assertThat(course.noiseK(0, course.lastS())).isCloseTo(noiseK, within(0.15 * noiseK + 0.1));
        }
    }

    @Test
    void aSpikeOrTwoIsNotTakenForNoise() {
        DoubleUnaryOperator spiked = seconds -> COOLING.applyAsDouble(seconds) + (seconds % 2400 == 1200 ? 25 : 0);
        assertThat(course(spiked, 0.5, 7).noiseK(0, 7140)).isCloseTo(0.5, within(0.15));
    }

    @Test
    void ofAHandfulOfReadingsNoNoiseIsTold() {
        assertThat(course(COOLING, 1, 7).noiseK(600, 960)).isZero();
    }

    @Test
    void aParabolaFollowsABendThatALineLiesAbove() {
        Course course = course(COOLING, 0, 7);
        for (double seconds : new double[] {360, 900, 1500, 3000}) {
            double truth = COOLING.applyAsDouble(seconds);
            assertThat(course.bentAt(seconds, 0, 7140)).isCloseTo(truth, within(0.05));
            assertThat(course.smoothAt(seconds, 0, 7140)).isGreaterThan(truth + 0.15);
        }
    }

    @Test
    void aParabolaDoesNotReachAcrossACorner() {
        DoubleUnaryOperator cornered = seconds -> seconds < 1800 ? 900 : 900 - (seconds - 1800) / 10;
        Course course = course(cornered, 0, 7);
        assertThat(course.bentAt(1860, 1800, 7140)).isCloseTo(894, within(0.05));
    }
}
