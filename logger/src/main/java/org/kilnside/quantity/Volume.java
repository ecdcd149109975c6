package org.kilnside.quantity;

/**
 * The room inside a kiln.
 *
 * @param litres finite, above 0
 */
public record Volume(double litres) implements Comparable<Volume> {
    public Volume {
        if (!(litres > 0) || litres == Double.POSITIVE_INFINITY) {
            throw new IllegalArgumentException("a volume is a finite number of litres above 0, found " + litres);
        }
    }

    public static Volume ofLitres(double litres) {
        return new Volume(litres);
    }

    @Override
    public int compareTo(Volume other) {
        return Double.compare(litres, other.litres);
    }
}
