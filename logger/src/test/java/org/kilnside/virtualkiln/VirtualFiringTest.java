package org.kilnside.virtualkiln;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.Thermometer;
import org.kilnside.virtualkiln.VirtualFiring.Moment;

class VirtualFiringTest {
    private static VirtualFiring bisque() {
        return VirtualFiring.of(VirtualKilns.TALL_DRUM, VirtualKilns.bisque())
                .load(VirtualKilns.bisqueLoad())
                .start();
    }

    /** Trade facts, common practice: firing to temperature 8–12 h, cooling 12–30 h in a brick kiln of this size. */
    @Test
    void aBisqueOfTheTallDrumTakesADayAndANight() {
        VirtualFiring firing = bisque();
        double highestC = 0;
        double topH = 0;
        double coolH = 0;
        while (coolH == 0) {
            Moment now = firing.next();
            double hours = now.elapsedMs() / 3.6e6;
            if (now.truth().tipC() > highestC) {
                highestC = now.truth().tipC();
                topH = hours;
            }
            if (hours > topH + 1 && now.truth().tipC() < 60) {
                coolH = hours - topH;
            }
            assertThat(hours).isLessThan(48);
        }
        assertThat(topH).isBetween(8.0, 12.0);
        assertThat(highestC).isBetween(998.0, 1010.0);
        assertThat(coolH).isBetween(12.0, 24.0);
        assertThat(firing.kiln().energy().mismatch()).isLessThan(1e-3);
    }

    @Test
    void theSameSeedGivesTheSameCodes() {
        List<RawSignal> once = codes(bisque(), 5000);
        assertThat(codes(bisque(), 5000)).isEqualTo(once);
    }

    /** The way through the chip and back adds no more than its step, its noise and the sensor's own lag. */
    @Test
    void theCodesTellTheTemperatureOfTheTip() {
        VirtualFiring firing = bisque();
        Thermometer thermometer = Thermometer.of(firing.probes().get(0));
        double sum = 0;
        int count = 36_000;
        for (int i = 0; i < count; i++) {
            Moment now = firing.next();
            double readC =
                    thermometer.temperature(now.signals().get(0)).orElseThrow().celsius();
            assertThat(readC).isCloseTo(now.truth().tipC(), within(1.6));
            sum += readC - now.truth().tipC();
        }
        assertThat(sum / count).isCloseTo(0, within(0.02));
    }

    private static List<RawSignal> codes(VirtualFiring firing, int count) {
        List<RawSignal> codes = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            codes.addAll(firing.next().signals());
        }
        return codes;
    }

    /** The example of docs/virtual-kiln.md. */
    @Test
    void theExampleOfTheManualRuns() {
        VirtualFiring firing = VirtualFiring.of(VirtualKilns.TALL_DRUM, Programs.glaze(1222, 70))
                .load(Load.biscuit(20, 14))
                .ambient(new Ambient(8, 6, 5 * 3600))
                .sensors(SensorSpec.typeK(Amplifier.MAX31855))
                .disturbances(Disturbance.rising(640, Happenings.sensorSlips(0.6)))
                .seed(17)
                .start();
        Moment now = firing.next();
        assertThat(now.elapsedMs()).isZero();
        assertThat(now.signals().get(0).thermocouple()).isPresent();
        assertThat(now.controller().setpoint()).isPresent();
        assertThat(now.truth().roomC()).isBetween(5.0, 11.0);
    }
}
