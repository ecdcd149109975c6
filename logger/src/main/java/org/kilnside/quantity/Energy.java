package org.kilnside.quantity;

/**
 * An amount of energy.
 *
 * @param kilowattHours kWh, finite; 1 kWh = 3.6 MJ
 */
public record Energy(double kilowattHours) implements Comparable<Energy> {
    public Energy {
        if (!Double.isFinite(kilowattHours)) {
            throw new IllegalArgumentException("an energy is a finite number, found " + kilowattHours);
        }
    }

    public static Energy ofKilowattHours(double kilowattHours) {
        return new Energy(kilowattHours);
    }

    public static Energy ofJoules(double joules) {
        return new Energy(joules / 3.6e6);
    }

    public double joules() {
        return kilowattHours * 3.6e6;
    }

    @Override
    public int compareTo(Energy other) {
        return Double.compare(kilowattHours, other.kilowattHours);
    }
}
