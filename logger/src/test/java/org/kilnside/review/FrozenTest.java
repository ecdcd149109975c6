package org.kilnside.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

/** Curves drawn by hand: 75 °C/h up to 1200 °C, a hold, a fall. Common practice: no kiln keeps one number for long. */
class FrozenTest {
    private static final double TOP_S = 57_600;

    /** At 75 °C/h, with a hold of an hour. */
    private static double kiln(double at) {
        return at < TOP_S ? at / 48 : at < TOP_S + 3600 ? 1200 : 20 + 1180 * Math.exp(-(at - TOP_S - 3600) / 20_000);
    }

    private static Trace log(DoubleUnaryOperator celsius, DoubleUnaryOperator setpoint, double step) {
        Trace.Builder log = new Trace.Builder();
        for (double at = 40_000; at < 75_000; at += 10) {
            log.add(
                    Math.round(at * 1000),
                    Math.rint(celsius.applyAsDouble(at) / step) * step,
                    OptionalDouble.empty(),
                    OptionalDouble.of(setpoint.applyAsDouble(at)));
        }
        return log.view();
    }

    /** The number of a moment for the next 40 minutes. */
    private static DoubleUnaryOperator standing(double fromS, DoubleUnaryOperator otherwise) {
        return at -> at >= fromS && at < fromS + 2400 ? otherwise.applyAsDouble(fromS) : otherwise.applyAsDouble(at);
    }

    @Test
    void aNumberThatStandsAndThenLeapsIsFrozen() {
        Frozen found = Frozen.of(log(standing(50_000, FrozenTest::kiln), at -> 0, 0.25))
                .orElseThrow();
        assertThat(found.minutes()).isCloseTo(40, within(1.0));
        assertThat(found.celsius()).isCloseTo(50_000 / 48.0, within(1.0));
        assertThat(found.fromS()).isCloseTo(50_000, within(30.0));
    }

    @Test
    void aNumberThatStandsWhileTheSetpointWalksAwayIsFrozenThoughTheKilnComesBackToIt() {
        double fromS = TOP_S - 1000;
        double stillC = kiln(fromS);
        double backS = TOP_S + 3600 + 20_000 * Math.log(1180 / (stillC - 20));
        DoubleUnaryOperator shown = at -> at >= fromS && at < backS ? stillC : kiln(at);
        assertThat(Frozen.of(log(shown, FrozenTest::kiln, 0.25))).isPresent();
    }

    @Test
    void aQuietHoldInCoarseNumbersIsNot() {
        assertThat(Frozen.of(log(FrozenTest::kiln, FrozenTest::kiln, 1))).isEmpty();
        assertThat(Frozen.of(log(FrozenTest::kiln, at -> at < TOP_S + 3600 ? kiln(at) : 0, 0.25)))
                .isEmpty();
    }

    @Test
    void inFineAndRestlessNumbersNotEvenAHoldStandsStill() {
        Random noise = new Random(5);
        DoubleUnaryOperator restless = at -> kiln(at) + 0.3 * noise.nextGaussian();
        double stillC = kiln(TOP_S - 600) + 0.13;
        DoubleUnaryOperator stands = at -> at > TOP_S - 600 && at < TOP_S + 3900 ? stillC : restless.applyAsDouble(at);
        assertThat(Frozen.of(log(stands, at -> Double.MIN_VALUE, 0.01))).isPresent();
        assertThat(Frozen.of(log(restless, at -> Double.MIN_VALUE, 0.01))).isEmpty();
    }

    @Test
    void whatLiesBelow300DegreesIsNoFiring() {
        Trace.Builder log = new Trace.Builder();
        for (int i = 0; i < 500; i++) {
            log.add(i * 10_000L, i < 400 ? 250 : 300);
        }
        assertThat(Frozen.of(log.view())).isEmpty();
    }
}
