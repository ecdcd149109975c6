package org.kilnside.virtualkiln;

import java.util.Arrays;
import java.util.List;
import org.kilnside.virtualkiln.VirtualKilnSpec.Ring;

/** The rings of heating wire, each with its relay: how they age, fail and weld, and what the mains give them. */
final class Elements {
    /** Rated hot; cold wire of this alloy has 4 % less resistance (makers' handbooks, from memory). */
    private static final double COLD_RESISTANCE = 0.96;

    private final List<Ring> rings;
    private final double[] resistance;
    private final boolean[] alive;
    private final boolean[] welded;
    private final double[] beforeC;
    private double mainsShare = 1;
    private boolean powered = true;

    Elements(List<Ring> rings) {
        this.rings = rings;
        resistance = new double[rings.size()];
        Arrays.fill(resistance, 1);
        alive = new boolean[rings.size()];
        Arrays.fill(alive, true);
        welded = new boolean[rings.size()];
        beforeC = new double[rings.size()];
    }

    void setMains(double share) {
        mainsShare = share;
    }

    void setPowered(boolean on) {
        powered = on;
    }

    void age(double resistanceTimes) {
        Arrays.fill(resistance, resistanceTimes);
    }

    void setAlive(int ring, boolean isAlive) {
        alive[ring] = isAlive;
    }

    void weld(int ring, boolean isWelded) {
        welded[ring] = isWelded;
    }

    /**
     * Enters the rings into a step of the network, where they are the first bodies.
     *
     * @return W going in
     */
    double heat(ThermalNetwork network, double seconds, double onShare) {
        double sum = 0;
        for (int i = 0; i < resistance.length; i++) {
            Ring ring = rings.get(i);
            beforeC[i] = network.temperatureC(i);
            network.holds(i, ring.massKg() * Materials.ELEMENT_WIRE.heatCapacity(beforeC[i]), seconds);
            double warmth = COLD_RESISTANCE + (1 - COLD_RESISTANCE) * Math.min(1, Math.max(0, beforeC[i] / 1000));
            double watts = alive[i] && powered
                    ? (welded[i] ? 1 : onShare) * ring.ratedW() * mainsShare * mainsShare / (resistance[i] * warmth)
                    : 0;
            network.source(i, watts);
            sum += watts;
        }
        return sum;
    }

    /**
     * Ends the step. A relay swings the thin wire by tens of degrees a second, so that its heat capacity is not that of
     * the step's beginning: its temperature is set to where its enthalpy says.
     */
    void settle(ThermalNetwork network) {
        Material wire = Materials.ELEMENT_WIRE;
        for (int i = 0; i < resistance.length; i++) {
            double afterC = network.temperatureC(i);
            double taken = wire.heatCapacity(beforeC[i]) * (afterC - beforeC[i]);
            double excess = wire.enthalpy(afterC) - wire.enthalpy(beforeC[i]) - taken;
            network.setTemperatureC(i, afterC - excess / wire.heatCapacity(afterC));
        }
    }

    double storedJ(ThermalNetwork network) {
        double sum = 0;
        for (int i = 0; i < resistance.length; i++) {
            sum += rings.get(i).massKg() * Materials.ELEMENT_WIRE.enthalpy(network.temperatureC(i));
        }
        return sum;
    }
}
