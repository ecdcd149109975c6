package org.kilnside.firing;

import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * A curve: good temperatures against elapsed time, in rising order, with output and set-point where the controller
 * gave them. Immutable; a {@link Builder} grows one and hands out views that later readings never change.
 *
 * <p>Raw doubles, as this is read in inner loops: °C, ms, and output as a share 0 … 1. Inside, NaN stands for an
 * output or set-point not given; it does not leave this class.
 */
public final class Trace {
    public static final Trace EMPTY = new Builder().view();

    private final long[] elapsedMs;
    private final double[] temperatureC;
    private final double[] output;
    private final double[] setpointC;
    private final int size;

    private Trace(long[] elapsedMs, double[] temperatureC, double[] output, double[] setpointC, int size) {
        this.elapsedMs = elapsedMs;
        this.temperatureC = temperatureC;
        this.output = output;
        this.setpointC = setpointC;
        this.size = size;
    }

    public int size() {
        return size;
    }

    public boolean isEmpty() {
        return size == 0;
    }

    public long elapsedMs(int index) {
        return elapsedMs[checked(index)];
    }

    public double temperatureC(int index) {
        return temperatureC[checked(index)];
    }

    /** Element output 0 … 1 at a reading; empty when the controller did not say. */
    public OptionalDouble output(int index) {
        return known(output[checked(index)]);
    }

    /** Set-point in °C at a reading; empty when the controller did not say. */
    public OptionalDouble setpointC(int index) {
        return known(setpointC[checked(index)]);
    }

    /** The last reading at or before a time; −1 when all are later. */
    public int indexAt(long timeMs) {
        int found = Arrays.binarySearch(elapsedMs, 0, size, timeMs);
        if (found < 0) {
            return -found - 2;
        }
        while (found + 1 < size && elapsedMs[found + 1] == timeMs) {
            found++;
        }
        return found;
    }

    private static OptionalDouble known(double value) {
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    private int checked(int index) {
        if (index < 0 || index >= size) {
            throw new IndexOutOfBoundsException("reading " + index + " of " + size);
        }
        return index;
    }

    /** Grows a curve reading by reading. Confined to one thread; the views it hands out may go to any. */
    public static final class Builder {
        private long[] elapsedMs = new long[64];
        private double[] temperatureC = new double[64];
        private double[] output = new double[64];
        private double[] setpointC = new double[64];
        private int size;

        /** Adds a temperature without output or set-point. */
        public Builder add(long timeMs, double celsius) {
            return add(timeMs, celsius, OptionalDouble.empty(), OptionalDouble.empty());
        }

        /**
         * Adds a temperature.
         *
         * @throws IllegalArgumentException when the time falls or a number is not finite
         */
        public Builder add(long timeMs, double celsius, OptionalDouble share, OptionalDouble setpoint) {
            if (size > 0 && timeMs < elapsedMs[size - 1]) {
                throw new IllegalArgumentException(
                        "time runs forward in a curve: " + timeMs + " ms after " + elapsedMs[size - 1] + " ms");
            }
            if (!Double.isFinite(celsius)) {
                throw new IllegalArgumentException("a curve holds finite temperatures, found " + celsius);
            }
            if (size == elapsedMs.length) {
                int larger = size + (size >> 1);
                elapsedMs = Arrays.copyOf(elapsedMs, larger);
                temperatureC = Arrays.copyOf(temperatureC, larger);
                output = Arrays.copyOf(output, larger);
                setpointC = Arrays.copyOf(setpointC, larger);
            }
            elapsedMs[size] = timeMs;
            temperatureC[size] = celsius;
            output[size] = share.orElse(Double.NaN);
            setpointC[size] = setpoint.orElse(Double.NaN);
            size++;
            return this;
        }

        /** Adds a good reading's temperature, output and set-point. */
        public Builder add(Reading.Measured reading) {
            return add(reading, reading.temperature().celsius());
        }

        /** Adds a reading with another temperature than its own, in °C: the truth behind it as far as it is known. */
        public Builder add(Reading reading, double celsius) {
            return add(reading.elapsedMs(), celsius, reading.controller());
        }

        /** Adds a temperature with what the controller said beside it. */
        public Builder add(long timeMs, double celsius, ControllerReport report) {
            return add(
                    timeMs,
                    celsius,
                    report.output().isPresent()
                            ? OptionalDouble.of(report.output().get().fraction())
                            : OptionalDouble.empty(),
                    report.setpoint().isPresent()
                            ? OptionalDouble.of(report.setpoint().get().celsius())
                            : OptionalDouble.empty());
        }

        public int size() {
            return size;
        }

        /** The curve so far. Costs nothing: readings added later lie beyond the view's end. */
        public Trace view() {
            return new Trace(elapsedMs, temperatureC, output, setpointC, size);
        }
    }
}
