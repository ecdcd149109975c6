package org.kilnside.sensor;

import java.util.OptionalInt;
import org.kilnside.quantity.Temperature;

/**
 * What an amplifier would say: the codes it gives for a true temperature at the tip and at its own terminals, rounded
 * to its step and cut off where it saturates. The way back is {@link Thermometer}. Drives simulated kilns and boards.
 *
 * <p>Whether the chips round or cut off the last step is not in their data sheets; to the nearest is assumed.
 */
public final class ChipModel {
    /** The cold-junction range of all three chips' codes, °C (Maxim 19-5793: 12 bits of 0.0625 °C, −55 … 127). */
    private static final double LOWEST_COLD_JUNCTION_C = -55;

    private static final double HIGHEST_COLD_JUNCTION_C = 127.9375;

    private final Probe probe;
    private final ReferenceFunction function;
    private final double nominalMvPerK;

    private ChipModel(Probe probe) {
        this.probe = probe;
        this.function = ReferenceFunction.of(probe.type());
        this.nominalMvPerK = probe.amplifier().nominalMvPerK(probe.type()).orElse(0);
        if (!probe.amplifier().linearises() && nominalMvPerK == 0) {
            throw new IllegalArgumentException("no " + probe.amplifier() + " is made for type " + probe.type());
        }
    }

    /**
     * The chip of a probe.
     *
     * @throws IllegalArgumentException when no such chip is made for the thermocouple
     */
    public static ChipModel of(Probe probe) {
        return new ChipModel(probe);
    }

    /**
     * What the chip says of a fault-free thermocouple.
     *
     * @throws IllegalArgumentException outside the thermocouple's reference function
     */
    public RawSignal signal(Temperature tip, Temperature coldJunction) {
        Amplifier amplifier = probe.amplifier();
        double shownC = amplifier.linearises()
                ? tip.celsius()
                : (function.emfMv(tip.celsius()) - function.emfMv(coldJunction.celsius())) / nominalMvPerK
                        + coldJunction.celsius();
        return new RawSignal(
                OptionalInt.of(code(shownC, amplifier.lowestC(), amplifier.highestC(), amplifier.thermocoupleStepC())),
                amplifier.coldJunctionStepC() == 0
                        ? OptionalInt.empty()
                        : OptionalInt.of(code(
                                coldJunction.celsius(),
                                LOWEST_COLD_JUNCTION_C,
                                HIGHEST_COLD_JUNCTION_C,
                                amplifier.coldJunctionStepC())),
                0);
    }

    private static int code(double celsius, double lowestC, double highestC, double stepC) {
        return (int) StrictMath.rint(Math.min(highestC, Math.max(lowestC, celsius)) / stepC);
    }
}
