package org.kilnside.link;

import java.util.OptionalInt;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.ThermocoupleType;

/** A kiln without physics: one 1/128 °C more each second, for a given number of seconds. */
final class FakeVirtualKiln implements VirtualController {
    private final int lastSecond;
    private int second;

    FakeVirtualKiln(int lastSecond) {
        this.lastSecond = lastSecond;
    }

    @Override
    public String device() {
        return "test-kiln";
    }

    @Override
    public Probe probe() {
        return new Probe(ThermocoupleType.K, Amplifier.MAX31856);
    }

    @Override
    public Said next() {
        second++;
        return new Said(
                RawSignal.of(2560 + second, 1280), OptionalInt.of(500), OptionalInt.of(6000), OptionalInt.of(1));
    }

    @Override
    public boolean finished() {
        return second >= lastSecond;
    }
}
