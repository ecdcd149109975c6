package org.kilnside.quantity;

/**
 * A part of a whole, such as the element output: 0 = off, 1 = full on.
 *
 * @param fraction 0 … 1
 */
public record Share(double fraction) implements Comparable<Share> {
    public static final Share NONE = new Share(0);
    public static final Share ALL = new Share(1);

    public Share {
        if (!(fraction >= 0 && fraction <= 1)) {
            throw new IllegalArgumentException("a share lies between 0 and 1, found " + fraction);
        }
    }

    public static Share ofPercent(double percent) {
        return new Share(percent / 100);
    }

    public double percent() {
        return fraction * 100;
    }

    @Override
    public int compareTo(Share other) {
        return Double.compare(fraction, other.fraction);
    }
}
