package org.kilnside.quantity;

/**
 * Electric or heating power.
 *
 * @param watts finite, not negative
 */
public record Power(double watts) implements Comparable<Power> {
    public Power {
        if (!(watts >= 0) || watts == Double.POSITIVE_INFINITY) {
            throw new IllegalArgumentException("a power is a finite number of watts from 0 up, found " + watts);
        }
    }

    public static Power ofKilowatts(double kilowatts) {
        return new Power(kilowatts * 1000);
    }

    public double kilowatts() {
        return watts / 1000;
    }

    @Override
    public int compareTo(Power other) {
        return Double.compare(watts, other.watts);
    }
}
