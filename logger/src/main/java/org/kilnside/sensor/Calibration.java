package org.kilnside.sensor;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import org.kilnside.quantity.Temperature;

/**
 * What is known of one sensor in one place: how much to add to its reading to have the truth, at one temperature or
 * at several. A new sensor, or a new place for it, ends a calibration: nothing of it may be carried over.
 *
 * <p>Between two points the correction is drawn straight; beyond the outermost it stays what it is there. Immutable.
 */
public final class Calibration {
    /** How far beyond its outermost point, in °C, a calibration still stands in for the wire's own limits. */
    private static final double REACH_C = 150;

    /** Nothing is known: the reading is taken as it is. */
    public static final Calibration NONE = new Calibration(List.of(), false);

    private final List<Point> points;
    private final boolean everywhere;

    private Calibration(List<Point> points, boolean everywhere) {
        this.points = points;
        this.everywhere = everywhere;
    }

    /**
     * One comparison.
     *
     * @param readingC what the sensor read, °C
     * @param correctionC what had to be added to have the truth, °C
     * @param halfWidthC how far the correction itself may be off, °C, above 0
     * @param by what it was compared with
     */
    public record Point(double readingC, double correctionC, double halfWidthC, By by) {
        public Point {
            if (!Double.isFinite(readingC) || !Double.isFinite(correctionC)) {
                throw new IllegalArgumentException("a calibration point has finite numbers, found reading " + readingC
                        + " °C and correction " + correctionC + " °C");
            }
            if (!(halfWidthC > 0) || halfWidthC == Double.POSITIVE_INFINITY) {
                throw new IllegalArgumentException(
                        "a calibration point says how far it may be off, more than 0 °C; found " + halfWidthC);
            }
        }
    }

    /** What a sensor was compared with. */
    public enum By {
        /** Another thermometer that is known to be right. */
        THERMOMETER,
        /** Witness cones. */
        WITNESS_CONES,
        /** Melting ice, boiling water: a fixed point. */
        FIXED_POINT
    }

    /** The same correction everywhere. */
    public static Calibration offset(double correctionC, double halfWidthC, By by) {
        return new Calibration(List.of(new Point(0, correctionC, halfWidthC, by)), true);
    }

    /**
     * A calibration of these points.
     *
     * @throws IllegalArgumentException when two stand at the same reading
     */
    public static Calibration of(List<Point> points) {
        List<Point> sorted = new ArrayList<>(points);
        sorted.sort(Comparator.comparingDouble(Point::readingC));
        for (int i = 1; i < sorted.size(); i++) {
            if (sorted.get(i).readingC() == sorted.get(i - 1).readingC()) {
                throw new IllegalArgumentException(
                        "two calibration points stand at " + sorted.get(i).readingC() + " °C; keep the better one");
            }
        }
        return new Calibration(List.copyOf(sorted), false);
    }

    /**
     * This calibration and another of what it gives, one after the other: a sensor compared with a thermometer, whose
     * corrected readings were then compared with cones. Errors of the two are independent.
     */
    public Calibration then(Calibration second) {
        if (points.isEmpty() || second.points.isEmpty()) {
            return points.isEmpty() ? second : this;
        }
        TreeSet<Double> readings = new TreeSet<>();
        points.forEach(point -> readings.add(point.readingC()));
        second.points.forEach(point -> readings.add(readingOf(point.readingC())));
        List<Point> both = new ArrayList<>();
        for (double readingC : readings) {
            double corrected = correctedC(readingC);
            both.add(new Point(
                    readingC,
                    second.correctedC(corrected) - readingC,
                    Math.hypot(between(readingC, Point::halfWidthC), second.between(corrected, Point::halfWidthC)),
                    second.points.get(0).by()));
        }
        return new Calibration(List.copyOf(both), everywhere && second.everywhere);
    }

    /** The reading that is corrected to a truth. */
    private double readingOf(double truthC) {
        double readingC = truthC;
        for (int i = 0; i < 12; i++) {
            readingC += truthC - correctedC(readingC);
        }
        return readingC;
    }

    public List<Point> points() {
        return points;
    }

    /** The truth behind a reading, both in °C. */
    public double correctedC(double readingC) {
        return points.isEmpty() ? readingC : readingC + between(readingC, Point::correctionC);
    }

    /** The truth behind a reading. */
    public Temperature corrected(Temperature reading) {
        return Temperature.ofCelsius(Math.max(-Temperature.ZERO_CELSIUS_K, correctedC(reading.celsius())));
    }

    /** Whether the calibration says more about a reading, in °C, than the wire's class does. */
    public boolean covers(double readingC) {
        if (points.isEmpty()) {
            return false;
        }
        return everywhere
                || readingC >= points.get(0).readingC() - REACH_C
                        && readingC <= points.get(points.size() - 1).readingC() + REACH_C;
    }

    /**
     * How far a corrected reading, in °C, may still be off, in °C; grows by a hundredth of the distance to the nearest
     * point.
     *
     * @throws IllegalStateException where there are no points to say so
     */
    public double halfWidthC(double readingC) {
        if (points.isEmpty()) {
            throw new IllegalStateException("nothing is known of this sensor: ask covers() first");
        }
        double nearestC = Double.POSITIVE_INFINITY;
        for (Point point : points) {
            nearestC = Math.min(nearestC, Math.abs(point.readingC() - readingC));
        }
        return between(readingC, Point::halfWidthC) + (everywhere ? 0 : nearestC / 100);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Calibration its && points.equals(its.points) && everywhere == its.everywhere;
    }

    @Override
    public int hashCode() {
        return points.hashCode();
    }

    @Override
    public String toString() {
        return "Calibration" + points + (everywhere ? " everywhere" : "");
    }

    private double between(double readingC, ToDoubleFunction<Point> value) {
        Point first = points.get(0);
        Point last = points.get(points.size() - 1);
        if (readingC <= first.readingC()) {
            return value.applyAsDouble(first);
        }
        if (readingC >= last.readingC()) {
            return value.applyAsDouble(last);
        }
        int above = 1;
        while (points.get(above).readingC() < readingC) {
            above++;
        }
        Point low = points.get(above - 1);
        Point high = points.get(above);
        double share = (readingC - low.readingC()) / (high.readingC() - low.readingC());
        return value.applyAsDouble(low) * (1 - share) + value.applyAsDouble(high) * share;
    }
}
