package org.kilnside.quantity;

/**
 * A closed range that holds the true value with a stated probability.
 *
 * @param <T> what is ranged over
 * @param from the lower end
 * @param to the upper end, not below {@code from}
 * @param coverage the probability that the truth lies inside, between 0 and 1 exclusive; 0.9 everywhere a person reads it
 */
public record Interval<T extends Comparable<T>>(T from, T to, double coverage) {
    public Interval {
        if (from.compareTo(to) > 0) {
            throw new IllegalArgumentException("an interval runs upwards, found " + from + " to " + to);
        }
        if (!(coverage > 0 && coverage < 1)) {
            throw new IllegalArgumentException("coverage lies between 0 and 1, found " + coverage);
        }
    }

    /** A range that holds nine in ten. */
    public static <T extends Comparable<T>> Interval<T> ofNineInTen(T from, T to) {
        return new Interval<>(from, to, 0.9);
    }

    public boolean contains(T value) {
        return from.compareTo(value) <= 0 && value.compareTo(to) <= 0;
    }
}
