package org.kilnside.sensor;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.sensor.SignalWatch.Suspicion;

/** Own curves: a kiln that stands at 1200 °C for an hour, and what its number does after that. */
class CoolingAtFullOutputTest {
    private static final int HAPPENS_S = 3600;
    private static final double ROOM_C = 20;

    /** Left to itself: its height above the room falls by half in three hours. */
    private static double cools(double since) {
        return since < 0 ? 1200 : ROOM_C + 1180 * Math.pow(0.5, since / 3600 / 3);
    }

    /** Out of the chamber and into its wall, which warms on. */
    private static double slips(double since, double byK) {
        return since < 0 ? 1200 : 1200 - byK * (1 - Math.exp(-since / 40)) + 20 * since / 3600;
    }

    /** Hours after the hour at the top until it is seen; empty where it is not within ten. */
    private static OptionalDouble seenAfterH(int everyS, DoubleUnaryOperator celsius, DoubleUnaryOperator output) {
        CoolingAtFullOutput cooling = new CoolingAtFullOutput();
        Random noise = new Random(3);
        for (int s = 0; s < HAPPENS_S + 10 * 3600; s += everyS) {
            double since = s - HAPPENS_S;
            double shown = celsius.applyAsDouble(since) + 0.5 * noise.nextGaussian();
            cooling.offer(s * 1000L, shown, OptionalDouble.of(output.applyAsDouble(since)));
            if (cooling.sinceMs().isPresent()) {
                return OptionalDouble.of(since / 3600);
            }
        }
        return OptionalDouble.empty();
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 10, 60, 300})
    void aKilnThatCoolsAsOneWithoutPowerGainsaysFullOutputAfterTwoHours(int everyS) {
        assertThat(seenAfterH(everyS, CoolingAtFullOutputTest::cools, since -> 1)
                        .orElseThrow())
                .isBetween(1.9, 2.6);
    }

    @ParameterizedTest
    @ValueSource(doubles = {100, 300, 600, 1100})
    void aSensorThatSlippedOverAKilnAtFullPowerDoesNot(double byK) {
        assertThat(seenAfterH(10, since -> slips(since, byK), since -> 1)).isEmpty();
    }

    /** In doubt it is not seen: the number fell as no kiln does, however plainly the place it fell to cools after that. */
    @Test
    void aSensorThatSlippedAndThenCoolsDoesNotEither() {
        DoubleUnaryOperator there = since -> since < 0 ? 1200 : slips(since, 500) * Math.pow(0.5, since / 3600 / 3);
        assertThat(seenAfterH(10, there, since -> 1)).isEmpty();
        assertThat(seenAfterH(60, there, since -> 1)).isEmpty();
    }

    @Test
    void aNumberThatSinksEvenlyIsNoCoolingKiln() {
        assertThat(seenAfterH(10, since -> since < 0 ? 1200 : 1200 - 25 * Math.pow(since / 3600, 1.6), since -> 1))
                .isEmpty();
    }

    @Test
    void anOutputThatIsNothingMeanwhileIsBelieved() {
        assertThat(seenAfterH(10, CoolingAtFullOutputTest::cools, since -> since < 0 ? 1 : 0))
                .isEmpty();
        assertThat(seenAfterH(10, CoolingAtFullOutputTest::cools, since -> since % 3000 < 600 ? 0.2 : 1))
                .isEmpty();
    }

    @Test
    void itIsOverWhenTheKilnClimbsAgain() {
        CoolingAtFullOutput cooling = new CoolingAtFullOutput();
        for (int s = 0; s < 5 * 3600; s += 10) {
            cooling.offer(s * 1000L, cools(s), OptionalDouble.of(1));
        }
        assertThat(cooling.sinceMs()).isPresent();
        for (int s = 5 * 3600; s < 5 * 3600 + 900; s += 10) {
            cooling.offer(s * 1000L, cools(5 * 3600) + 100 * (s - 5 * 3600) / 3600.0, OptionalDouble.of(1));
        }
        assertThat(cooling.sinceMs()).isEmpty();
    }

    private static boolean readsFarTooLow(DoubleUnaryOperator celsius) {
        SignalWatch watch = new SignalWatch(new Probe(ThermocoupleType.K, Amplifier.MAX31855));
        boolean said = false;
        for (int s = 0; s < HAPPENS_S + 16 * 3600; s += 10) {
            int code = (int) Math.rint(celsius.applyAsDouble(s - HAPPENS_S) * 4);
            watch.offer(s * 1000L, RawSignal.of(code, 320), OptionalDouble.of(1));
            said |= watch.since(Suspicion.READS_FAR_TOO_LOW).isPresent();
        }
        return said;
    }

    @Test
    void aColdKilnThatCooledAtFullOutputDoesNotReadFarTooLow() {
        assertThat(readsFarTooLow(CoolingAtFullOutputTest::cools)).isFalse();
    }

    @Test
    void aSensorThatFellToTheRoomOverAKilnAtFullPowerDoes() {
        assertThat(readsFarTooLow(since -> slips(since, 1100))).isTrue();
        assertThat(readsFarTooLow(since -> since < 0 ? 1200 : 300 * Math.pow(0.5, since / 3600 / 3)))
                .isTrue();
    }
}
