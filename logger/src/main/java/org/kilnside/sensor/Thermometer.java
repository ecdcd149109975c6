package org.kilnside.sensor;

import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.quantity.Temperature;

/**
 * Turns what an amplifier said into the temperature at the thermocouple's tip.
 *
 * <p>An amplifier that does not linearise divides a voltage by one nominal sensitivity. The voltage is got back from
 * its number, the emf of the cold junction (not its temperature) is added, and the sum is inverted on the ITS-90
 * reference function. On type K, with the board at 25 °C, a shown 1222 °C is truly 1243 °C: a whole cone.
 *
 * <p>A number the chip saturates at is converted like any other, though it is only a lower bound.
 */
public final class Thermometer {
    /**
     * Where a chip does not report its cold junction. It hardly matters: on type K at 1200 °C, 10 °C more on the board
     * change the corrected temperature by 0.1 °C, since chip and correction take out nearly the same.
     */
    public static final Temperature ASSUMED_COLD_JUNCTION = Temperature.ofCelsius(25);

    /** Types K, N, T and E reach down to −270 °C. */
    private static final double LOWEST_OF_ALL_C = -270;

    /** Type B reaches up to 1820 °C. */
    private static final double HIGHEST_OF_ALL_C = 1820;

    private final Probe probe;
    private final ReferenceFunction function;
    private final boolean corrects;
    private final boolean exists;
    private final double nominalMvPerK;
    private final double assumedColdJunctionC;

    private Thermometer(Probe probe, Temperature assumedColdJunction) {
        this.probe = probe;
        this.function = ReferenceFunction.of(probe.type());
        this.corrects = !probe.amplifier().linearises();
        this.nominalMvPerK = probe.amplifier().nominalMvPerK(probe.type()).orElse(0);
        this.exists = !corrects || nominalMvPerK > 0;
        this.assumedColdJunctionC = assumedColdJunction.celsius();
    }

    public static Thermometer of(Probe probe) {
        return new Thermometer(probe, ASSUMED_COLD_JUNCTION);
    }

    /** A thermometer that takes this for the board's temperature where the chip does not report it. */
    public static Thermometer of(Probe probe, Temperature assumedColdJunction) {
        return new Thermometer(probe, assumedColdJunction);
    }

    public Probe probe() {
        return probe;
    }

    /** The temperature at the tip; empty when the signal is unknown, faulted, or outside what the thermocouple can give. */
    public Optional<Temperature> temperature(RawSignal signal) {
        if (signal.thermocouple().isEmpty() || signal.faultBits() != 0 || !exists) {
            return Optional.empty();
        }
        double shownC = signal.thermocouple().getAsInt() * probe.amplifier().thermocoupleStepC();
        return corrects ? corrected(shownC, coldJunctionC(signal)) : asGiven(shownC);
    }

    /** The temperature of the amplifier's own terminals; empty when it does not say. */
    public Optional<Temperature> coldJunction(RawSignal signal) {
        OptionalInt code = signal.coldJunction();
        double stepC = probe.amplifier().coldJunctionStepC();
        if (code.isEmpty() || stepC == 0) {
            return Optional.empty();
        }
        double celsius = code.getAsInt() * stepC;
        return celsius < -Temperature.ZERO_CELSIUS_K ? Optional.empty() : Optional.of(Temperature.ofCelsius(celsius));
    }

    /**
     * The number the chip itself means, uncorrected: what a controller shows that takes it as it is. Empty when the
     * signal is unknown or faulted.
     */
    public Optional<Temperature> shown(RawSignal signal) {
        if (signal.thermocouple().isEmpty() || signal.faultBits() != 0) {
            return Optional.empty();
        }
        double shownC = signal.thermocouple().getAsInt() * probe.amplifier().thermocoupleStepC();
        return shownC < -Temperature.ZERO_CELSIUS_K ? Optional.empty() : Optional.of(Temperature.ofCelsius(shownC));
    }

    /**
     * The true temperature behind a number shown by a controller that takes the chip's number as it is, such as its
     * set-point; empty outside what the thermocouple can give.
     */
    public Optional<Temperature> behind(Temperature shown, Temperature coldJunction) {
        if (!exists) {
            return Optional.empty();
        }
        return corrects ? corrected(shown.celsius(), coldJunction.celsius()) : asGiven(shown.celsius());
    }

    /**
     * The number a controller that takes the chip's number as it is will show at a true temperature: advice to such a
     * controller's user is given in these. Empty outside what thermocouple or chip can give.
     */
    public Optional<Temperature> shownAt(Temperature tip, Temperature coldJunction) {
        if (!exists) {
            return Optional.empty();
        }
        if (!corrects) {
            return asGiven(tip.celsius());
        }
        if (!function.covers(tip.celsius()) || !function.covers(coldJunction.celsius())) {
            return Optional.empty();
        }
        double measuredMv = function.emfMv(tip.celsius()) - function.emfMv(coldJunction.celsius());
        double shownC = measuredMv / nominalMvPerK + coldJunction.celsius();
        return shownC < probe.amplifier().lowestC()
                        || shownC > probe.amplifier().highestC()
                ? Optional.empty()
                : Optional.of(Temperature.ofCelsius(shownC));
    }

    private Optional<Temperature> corrected(double shownC, double coldJunctionC) {
        if (!function.covers(coldJunctionC)) {
            return Optional.empty();
        }
        double measuredMv = nominalMvPerK * (shownC - coldJunctionC);
        double emfMv = measuredMv + function.emfMv(coldJunctionC);
        return function.coversEmf(emfMv)
                ? Optional.of(Temperature.ofCelsius(function.temperatureC(emfMv)))
                : Optional.empty();
    }

    /** A controller's own °C may come from a wire nobody named: the hottest thermocouple there is bounds them. */
    private Optional<Temperature> asGiven(double shownC) {
        boolean possible = probe.amplifier() == Amplifier.CELSIUS
                ? shownC >= LOWEST_OF_ALL_C && shownC <= HIGHEST_OF_ALL_C
                : function.covers(shownC);
        return possible ? Optional.of(Temperature.ofCelsius(shownC)) : Optional.empty();
    }

    private double coldJunctionC(RawSignal signal) {
        OptionalInt code = signal.coldJunction();
        double stepC = probe.amplifier().coldJunctionStepC();
        return code.isEmpty() || stepC == 0 ? assumedColdJunctionC : code.getAsInt() * stepC;
    }
}
