package org.kilnside.virtualkiln;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.SensorFault;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.Thermometer;

class VirtualSensorTest {
    private static final SensorSpec QUIET = SensorSpec.typeK(Amplifier.MAX31855).withNoise(0, 0);

    /** A sensor that has always been as hot as this. */
    private static VirtualSensor at(SensorSpec spec, double temperatureC) {
        return new VirtualSensor(spec, temperatureC, 1);
    }

    private static double shownC(SensorSpec spec, RawSignal signal) {
        return Thermometer.of(spec.probe()).shown(signal).orElseThrow().celsius();
    }

    private static double readC(SensorSpec spec, RawSignal signal) {
        return Thermometer.of(spec.probe()).temperature(signal).orElseThrow().celsius();
    }

    /** Trade facts (computed from ITS-90): shown 1222 is truly about 1243 °C, board at 25 °C; 1060 → 1063; 600 → 596. */
    @Test
    void anAmplifierThatDoesNotLineariseShowsTypeKLow() {
        assertThat(shownC(QUIET, at(QUIET, 1243).signal(25, 1))).isCloseTo(1222, within(0.5));
        assertThat(shownC(QUIET, at(QUIET, 1063).signal(25, 1))).isCloseTo(1060, within(0.5));
        assertThat(shownC(QUIET, at(QUIET, 596).signal(25, 1))).isCloseTo(600, within(0.5));
        assertThat(readC(QUIET, at(QUIET, 1243).signal(25, 1))).isCloseTo(1243, within(0.2));
    }

    /** Published: Maxim 19-2235: the code ends at 1023.75 °C. */
    @Test
    void theSmallAmplifierSaturates() {
        SensorSpec spec = QUIET.with(new Probe(ThermocoupleType.K, Amplifier.MAX6675));
        assertThat(shownC(spec, at(spec, 1240).signal(25, 1))).isEqualTo(1023.75);
        assertThat(at(spec, 1240).signal(25, 1).coldJunction()).isEmpty();
    }

    @Test
    void eachAmplifierGivesItsOwnCodes() {
        SensorSpec fine = QUIET.with(new Probe(ThermocoupleType.S, Amplifier.MAX31856));
        assertThat(at(fine, 1000).signal(25, 1)).isEqualTo(RawSignal.of(128_000, 1600));
        SensorSpec plain = QUIET.with(new Probe(ThermocoupleType.K, Amplifier.CELSIUS));
        assertThat(at(plain, 1000).signal(25, 1)).isEqualTo(RawSignal.of(100_000, 2500));
    }

    @Test
    void reversedLeadsReadDownwardsWhileHeating() {
        double beforeC = 30;
        for (double temperatureC = 30; temperatureC < 180; temperatureC += 10) {
            VirtualSensor sensor = at(QUIET, temperatureC);
            sensor.reverseLeads(true);
            double shownC = shownC(QUIET, sensor.signal(25, 1));
            assertThat(shownC).isLessThan(beforeC);
            beforeC = shownC;
        }
        VirtualSensor hot = at(QUIET, 1200);
        hot.reverseLeads(true);
        assertThat(hot.signal(25, 1).thermocouple()).hasValue(-270 * 4);
        SensorSpec linear = QUIET.with(new Probe(ThermocoupleType.K, Amplifier.MAX31856));
        VirtualSensor linearised = at(linear, 100);
        linearised.reverseLeads(true);
        assertThat(shownC(linear, linearised.signal(25, 1))).isBetween(-80.0, -45.0);
    }

    /**
     * Trade facts (agreed): S on a K input reads far low. Published: NIST Monograph 175: S gives 9.587 mV at 1000 °C,
     * which is type K at 236.05 °C (its printed table: 9.585 at 236, 9.626 at 237).
     */
    @Test
    void typeSOnAnAmplifierForTypeKReadsFarLow() {
        for (Amplifier amplifier : new Amplifier[] {Amplifier.MAX31855, Amplifier.MAX31856}) {
            SensorSpec spec = QUIET.with(new Probe(ThermocoupleType.K, amplifier));
            VirtualSensor sensor = at(spec, 1000);
            sensor.wire(ThermocoupleType.S);
            assertThat(readC(spec, sensor.signal(0, 1))).isCloseTo(236.05, within(0.3));
        }
    }

    @Test
    void aFrozenAmplifierRepeatsItself() {
        SensorSpec spec = SensorSpec.typeK(Amplifier.MAX31855).withNoise(1, 0);
        VirtualSensor sensor = at(spec, 500);
        Set<RawSignal> seen = new HashSet<>();
        for (int i = 0; i < 50; i++) {
            seen.add(sensor.signal(25, 1));
        }
        assertThat(seen).hasSizeGreaterThan(5);
        sensor.freeze(true);
        RawSignal stuck = sensor.signal(25, 1);
        for (int i = 0; i < 50; i++) {
            assertThat(sensor.signal(60, 1)).isEqualTo(stuck);
        }
    }

    @Test
    void faultsAreReportedUntilMended() {
        VirtualSensor sensor = at(QUIET, 500);
        sensor.report(SensorFault.OPEN_CIRCUIT);
        sensor.report(SensorFault.SHORT_TO_GROUND);
        RawSignal signal = sensor.signal(25, 1);
        assertThat(SensorFault.ofBits(signal.faultBits()))
                .containsExactly(SensorFault.OPEN_CIRCUIT, SensorFault.SHORT_TO_GROUND);
        sensor.mend();
        assertThat(sensor.signal(25, 1).faultBits()).isZero();
    }

    @Test
    void wiresThatTouchReadThePlaceWhereTheyDo() {
        VirtualSensor sensor = at(QUIET, 1000);
        sensor.shortWires(1);
        assertThat(readC(QUIET, sensor.signal(25, 1))).isCloseTo(25, within(0.3));
        sensor.shortWires(0.5);
        assertThat(readC(QUIET, sensor.signal(25, 1))).isCloseTo(512.5, within(0.3));
        VirtualSensor open = at(QUIET, 1000);
        open.openUnnoticed(true);
        assertThat(readC(QUIET, open.signal(25, 1))).isCloseTo(25, within(0.3));
        assertThat(open.signal(25, 1).faultBits()).isZero();
    }

    @Test
    void driftGrowsWithTheTemperature() {
        VirtualSensor sensor = at(QUIET, 1000);
        sensor.drift(2, -0.012);
        assertThat(readC(QUIET, sensor.signal(25, 1))).isCloseTo(990, within(0.2));
    }

    @Test
    void noiseAndSpikesAreAsManyAsTold() {
        SensorSpec spec = SensorSpec.typeK(Amplifier.CELSIUS).withNoise(0.5, 12);
        VirtualSensor sensor = at(spec, 600);
        int spikes = 0;
        double squares = 0;
        int count = 36_000;
        for (int i = 0; i < count; i++) {
            double off = readC(spec, sensor.signal(25, 1)) - 600;
            if (Math.abs(off) > 50) {
                spikes++;
                assertThat(Math.abs(off)).isBetween(57.0, 403.0);
            } else {
                squares += off * off;
            }
        }
        assertThat(spikes).isBetween(85, 155);
        assertThat(Math.sqrt(squares / (count - spikes))).isCloseTo(0.5, within(0.02));
    }

    /** Trade facts (agreed): once the lid is propped the sensor reads room air, not ware; shut again, it rebounds. */
    @Test
    void withTheLidProppedTheSensorReadsAirUntilItIsClosedAgain() {
        VirtualKiln kiln = VirtualKiln.cold(VirtualKilns.TALL_DRUM, Load.biscuit(20, 14), Ambient.steady(5));
        VirtualSensor sensor = at(QUIET, 5);
        run(kiln, sensor, 4 * 3600, 0.3);
        while (kiln.wareC(1) > 118) {
            run(kiln, sensor, 10, 0);
        }
        assertThat(sensor.tipC()).isCloseTo(kiln.wareC(1), within(10.0));
        kiln.propLid(0.05);
        run(kiln, sensor, 1200, 0);
        double airC = sensor.tipC();
        assertThat(kiln.coreWareC(1)).isGreaterThan(95);
        assertThat(airC).isLessThan(65);
        kiln.propLid(0);
        run(kiln, sensor, 1800, 0);
        assertThat(sensor.tipC()).isGreaterThan(airC + 15);
    }

    /** Trade facts (agreed): a sensor slipped out reads low while the kiln runs away under a harmless number. */
    @Test
    void aSlippedSensorReadsFarTooLow() {
        VirtualKiln kiln = VirtualKiln.cold(VirtualKilns.TALL_DRUM, Load.biscuit(20, 14), Ambient.steady(5));
        VirtualSensor half = at(QUIET, 5);
        VirtualSensor quite = at(QUIET, 5);
        half.slip(0.5);
        quite.slip(1);
        for (int i = 0; i < 7 * 3600; i++) {
            kiln.step(1, 0.7);
            half.step(1, kiln);
            quite.step(1, kiln);
        }
        assertThat(kiln.wareC(1)).isGreaterThan(700);
        assertThat(half.tipC()).isBetween(200.0, 600.0);
        assertThat(quite.tipC()).isLessThan(200);
    }

    private static void run(VirtualKiln kiln, VirtualSensor sensor, int seconds, double on) {
        for (int i = 0; i < seconds; i++) {
            kiln.step(1, on);
            sensor.step(1, kiln);
        }
    }
}
