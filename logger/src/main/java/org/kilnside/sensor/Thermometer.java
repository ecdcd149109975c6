package org.kilnside.sensor;

import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.quantity.Temperature;

/** Turns what an amplifier said into the temperature at the thermocouple's tip. */
public final class Thermometer {
    private final Probe probe;

    private Thermometer(Probe probe) {
        this.probe = probe;
    }

    public static Thermometer of(Probe probe) {
        return new Thermometer(probe);
    }

    public Probe probe() {
        return probe;
    }

    /** The temperature at the tip; empty when the signal is unknown, faulted, or outside what the thermocouple can give. */
    public Optional<Temperature> temperature(RawSignal signal) {
        if (signal.thermocouple().isEmpty() || signal.faultBits() != 0) {
            return Optional.empty();
        }
        return Optional.of(Temperature.ofCelsius(
                signal.thermocouple().getAsInt() * probe.amplifier().thermocoupleStepC()));
    }

    /** The temperature of the amplifier's own terminals; empty when it does not say. */
    public Optional<Temperature> coldJunction(RawSignal signal) {
        OptionalInt code = signal.coldJunction();
        return code.isEmpty()
                ? Optional.empty()
                : Optional.of(Temperature.ofCelsius(
                        code.getAsInt() * probe.amplifier().coldJunctionStepC()));
    }
}
