package org.kilnside.sensor;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.SignalWatch.Suspicion;

/** The signs themselves are common practice; the signals are made with the chips' own codes. */
class SignalWatchTest {
    private static final Probe K_31855 = new Probe(ThermocoupleType.K, Amplifier.MAX31855);
    private static final OptionalDouble UNKNOWN = OptionalDouble.empty();

    @Test
    void aWholeHealthyFiringRaisesNoSuspicion() {
        SignalWatch watch = new SignalWatch(K_31855);
        ChipModel chip = ChipModel.of(K_31855);
        Random random = new Random(4);
        for (long at = 0; at < 50_000_000; at += 1000) {
            double hours = at / 3_600_000.0;
            double tipC = hours < 8 ? 5 + 150 * hours : 1205 - 150 * (hours - 8);
            RawSignal signal = chip.signal(
                    Temperature.ofCelsius(Math.max(10, tipC) + random.nextGaussian()),
                    Temperature.ofCelsius(20 + Math.min(20, hours) + 0.1 * random.nextGaussian()));
            watch.offer(at, signal, OptionalDouble.of(hours < 8 ? 1 : 0));
            assertThat(watch.suspicions()).as("at %s h", hours).isEmpty();
        }
    }

    @Test
    void theSameCodeForTenMinutesInAHotKilnIsFrozenAndAnyChangeEndsIt() {
        SignalWatch watch = new SignalWatch(K_31855);
        for (int s = 0; s <= 600; s++) {
            watch.offer(s * 1000L, RawSignal.of(3200, 400), UNKNOWN);
        }
        assertThat(watch.since(Suspicion.FROZEN)).hasValue(0);
        watch.offer(601_000, RawSignal.of(3201, 400), UNKNOWN);
        assertThat(watch.since(Suspicion.FROZEN)).isEmpty();
    }

    @Test
    void aColdKilnMayReadTheSameForHours() {
        SignalWatch watch = new SignalWatch(K_31855);
        for (int s = 0; s <= 20_000; s += 5) {
            watch.offer(s * 1000L, RawSignal.of(4 * 12, 16 * 12), OptionalDouble.of(0));
        }
        assertThat(watch.suspicions()).isEmpty();
    }

    @Test
    void aNumberAtTheChipsEndIsSaturated() {
        SignalWatch watch = new SignalWatch(new Probe(ThermocoupleType.K, Amplifier.MAX6675));
        for (int s = 0; s < 3; s++) {
            watch.offer(s * 1000L, new RawSignal(OptionalInt.of(4095), OptionalInt.empty(), 0), UNKNOWN);
        }
        assertThat(watch.since(Suspicion.SATURATED)).isPresent();
        SignalWatch celsius = new SignalWatch(Probe.UNKNOWN);
        for (int s = 0; s < 3; s++) {
            celsius.offer(s * 1000L, new RawSignal(OptionalInt.of(102_375), OptionalInt.empty(), 0), UNKNOWN);
        }
        assertThat(celsius.since(Suspicion.SATURATED)).isPresent();
    }

    @Test
    void exchangedLeadsReadDownwardsWhileTheKilnHeats() {
        SignalWatch watch = new SignalWatch(K_31855);
        for (int s = 0; s < 3600; s++) {
            double shownC = 20 - 100.0 * s / 3600;
            watch.offer(s * 1000L, RawSignal.of((int) Math.rint(shownC * 4), 320), OptionalDouble.of(1));
        }
        assertThat(watch.since(Suspicion.REVERSED_LEADS)).isPresent();
    }

    @Test
    void withoutABoardOnlyANumberThatNoStudioComesToSaysThatTheLeadsAreExchanged() {
        SignalWatch watch = new SignalWatch(Probe.UNKNOWN);
        for (int s = 0; s < 3600; s++) {
            int code = 2000 - 100 * s / 60;
            watch.offer(s * 1000L, new RawSignal(OptionalInt.of(code), OptionalInt.empty(), 0), UNKNOWN);
            assertThat(watch.since(Suspicion.REVERSED_LEADS).isPresent()).isEqualTo(code < -2000);
        }
    }

    @Test
    void aTablesEndIsSaturatedOnlyWhereNoKilnIsHeld() {
        for (double endC : new double[] {1372, 1768, 1768.1, 1820}) {
            assertThat(standingAt(endC)).as("%s °C", endC).contains(Suspicion.SATURATED);
        }
        for (double heldC : new double[] {400, 1000, 1200, 1300, 1371}) {
            assertThat(standingAt(heldC)).as("%s °C", heldC).isEmpty();
        }
    }

    private static Set<Suspicion> standingAt(double celsius) {
        SignalWatch watch = new SignalWatch(Probe.UNKNOWN);
        for (int s = 0; s < 5; s++) {
            int code = (int) Math.round(celsius / Amplifier.CELSIUS.thermocoupleStepC());
            watch.offer(s * 1000L, new RawSignal(OptionalInt.of(code), OptionalInt.empty(), 0), UNKNOWN);
        }
        return watch.suspicions().keySet();
    }

    @Test
    void aKilnColderThanItsBoardIsNotReversed() {
        SignalWatch watch = new SignalWatch(K_31855);
        for (int s = 0; s < 3600; s++) {
            watch.offer(s * 1000L, RawSignal.of(8 + s / 600, 16 * 22), OptionalDouble.of(0));
        }
        assertThat(watch.suspicions()).isEmpty();
    }

    /** Independent: a type S wire on an amplifier for type K, the voltage from the printed function of S. */
    @Test
    void aTypeSWireOnATypeKAmplifierReadsFarTooLow() {
        SignalWatch watch = new SignalWatch(K_31855);
        ReferenceFunction s = ReferenceFunction.of(ThermocoupleType.S);
        double boardC = 20;
        for (int at = 0; at <= 3 * 3600; at++) {
            double trueC = 20 + 100.0 * at / 3600;
            double shownC = boardC + (s.emfMv(trueC) - s.emfMv(boardC)) / 0.041276;
            watch.offer(at * 1000L, RawSignal.of((int) Math.rint(shownC * 4), 320), OptionalDouble.of(1));
        }
        assertThat(watch.since(Suspicion.READS_FAR_TOO_LOW)).isPresent();
    }

    /** Independent: a type K wire on an amplifier for type S. */
    @Test
    void aTypeKWireOnATypeSAmplifierRisesTooFast() {
        SignalWatch watch = new SignalWatch(new Probe(ThermocoupleType.S, Amplifier.MAX31855));
        ReferenceFunction k = ReferenceFunction.of(ThermocoupleType.K);
        for (int at = 0; at <= 3600; at++) {
            double trueC = 20 + 450.0 * at / 3600;
            double shownC = 20 + (k.emfMv(trueC) - k.emfMv(20)) / 0.009587;
            watch.offer(at * 1000L, RawSignal.of((int) Math.rint(Math.min(1800, shownC) * 4), 320), UNKNOWN);
            if (watch.since(Suspicion.RISES_TOO_FAST).isPresent()) {
                return;
            }
        }
        assertThat(watch.since(Suspicion.RISES_TOO_FAST)).isPresent();
    }

    @Test
    void aLidClosedAgainDoesNotRiseTooFast() {
        SignalWatch watch = new SignalWatch(K_31855);
        for (int at = 0; at <= 3600; at++) {
            double shownC = at < 1200 ? 850 - at % 2 : at < 1800 ? 300 + at % 2 : 840 - at % 2;
            watch.offer(at * 1000L, RawSignal.of((int) (shownC * 4), 320), UNKNOWN);
            assertThat(watch.suspicions()).isEmpty();
        }
    }

    @Test
    void aBoardAboveSixtyDegreesForAMinuteIsTooNearTheKiln() {
        SignalWatch watch = new SignalWatch(K_31855);
        for (int s = 0; s < 120; s++) {
            watch.offer(s * 1000L, RawSignal.of(3200 + s % 2, 16 * 65), UNKNOWN);
        }
        assertThat(watch.since(Suspicion.HOT_COLD_JUNCTION)).hasValue(0);
        watch.offer(121_000, RawSignal.of(3200, 16 * 40), UNKNOWN);
        assertThat(watch.since(Suspicion.HOT_COLD_JUNCTION)).isEmpty();
    }

    @Test
    void aFaultedSignalChangesNothing() {
        SignalWatch watch = new SignalWatch(K_31855);
        watch.offer(0, new RawSignal(OptionalInt.of(7200), OptionalInt.of(320), 1), UNKNOWN);
        watch.offer(1000, new RawSignal(OptionalInt.empty(), OptionalInt.empty(), 0), UNKNOWN);
        assertThat(watch.suspicions()).isEmpty();
    }
}
