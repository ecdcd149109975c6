package org.kilnside.thermal;

import java.util.Arrays;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealVector;
import org.kilnside.firing.Trace;

/**
 * A curve thinned for the model: one point a minute at most, spikes left out. Raw doubles for the inner loops; NaN
 * stands for an output or set-point not given and does not leave this room.
 */
final class Course {
    /** One point a minute: finer than any step the model takes. */
    private static final double BIN_S = 60;

    /** Further from a minute's middle reading than this and it is a spike, K. */
    private static final double SPIKE_K = 12;

    /** A single minute this far from both its neighbours, which agree, is a spike, K. */
    private static final double LONE_SPIKE_K = 30;

    private static final double SMOOTHING_S = 300;

    /** How hot it is at the least is seen over so long, s. */
    private static final double SEEN_OVER_S = 1200;
    /** Of fewer points no noise is told. */
    private static final int FEWEST_FOR_NOISE = 8;

    /** Mean square of the nearest nine tenths of a normal distribution over that of all of it. */
    private static final double NEAREST_NINE_TENTHS = 0.623;

    /** Readings further apart than this, and than so many times the log's usual distance, leave a gap, s. */
    private static final double GAP_S = 900;

    private static final double GAP_TIMES = 4;

    final double[] timeS;
    final double[] temperatureC;
    final double[] output;
    final double[] setpointC;
    final int size;

    private Course(double[] timeS, double[] temperatureC, double[] output, double[] setpointC, int size) {
        this.timeS = timeS;
        this.temperatureC = temperatureC;
        this.output = output;
        this.setpointC = setpointC;
        this.size = size;
    }

    static Course of(Trace trace) {
        int most = trace.size();
        double[] time = new double[most];
        double[] temperature = new double[most];
        double[] output = new double[most];
        double[] setpoint = new double[most];
        int size = 0;
        int first = 0;
        double[] sorted = new double[64];
        while (first < most) {
            long begin = trace.elapsedMs(first);
            int end = first + 1;
            while (end < most && trace.elapsedMs(end) - begin < BIN_S * 1000) {
                end++;
            }
            int count = end - first;
            if (count > sorted.length) {
                sorted = new double[2 * count];
            }
            for (int i = 0; i < count; i++) {
                sorted[i] = trace.temperatureC(first + i);
            }
            Arrays.sort(sorted, 0, count);
            double middle = sorted[count / 2];
            double sumTime = 0;
            double sum = 0;
            int good = 0;
            double sumOutput = 0;
            int outputs = 0;
            double lastSetpoint = Double.NaN;
            for (int i = first; i < end; i++) {
                double celsius = trace.temperatureC(i);
                if (Math.abs(celsius - middle) <= SPIKE_K) {
                    sum += celsius;
                    sumTime += (trace.elapsedMs(i) - begin) / 1000.0;
                    good++;
                }
                if (trace.output(i).isPresent()) {
                    sumOutput += trace.output(i).getAsDouble();
                    outputs++;
                }
                if (trace.setpointC(i).isPresent()) {
                    lastSetpoint = trace.setpointC(i).getAsDouble();
                } else {
                    lastSetpoint = Double.NaN;
                }
            }
            time[size] = begin / 1000.0 + sumTime / good;
            temperature[size] = sum / good;
            output[size] = outputs == 0 ? Double.NaN : sumOutput / outputs;
            setpoint[size] = lastSetpoint;
            size++;
            first = end;
        }
        return withoutLoneSpikes(time, temperature, output, setpoint, size);
    }

    private static Course withoutLoneSpikes(
            double[] time, double[] temperature, double[] output, double[] setpoint, int size) {
        int kept = 0;
        for (int i = 0; i < size; i++) {
            boolean soon = i > 1 && time[i] - time[kept - 1] < GAP_S;
            if (i == size - 1 && soon && Math.abs(temperature[i] - temperature[kept - 1]) > LONE_SPIKE_K) {
                // The newest alone so far off: the next one will tell, a minute later. After a gap it may well be.
                continue;
            }
            if (i > 0 && i + 1 < size) {
                double before = temperature[kept - 1];
                double after = temperature[i + 1];
                if (Math.abs(temperature[i] - before) > LONE_SPIKE_K
                        && Math.abs(temperature[i] - after) > LONE_SPIKE_K
                        && Math.abs(before - after) < LONE_SPIKE_K) {
                    continue;
                }
            }
            time[kept] = time[i];
            temperature[kept] = temperature[i];
            output[kept] = output[i];
            setpoint[kept] = setpoint[i];
            kept++;
        }
        return new Course(time, temperature, output, setpoint, kept);
    }

    /** The course as it was known at a time. */
    Course until(double seconds) {
        return new Course(timeS, temperatureC, output, setpointC, Math.max(1, at(seconds) + 1));
    }

    /** The course with a span of time left out. */
    Course without(double fromS, double toS) {
        double[] time = new double[size];
        double[] temperature = new double[size];
        double[] share = new double[size];
        double[] wanted = new double[size];
        int kept = 0;
        for (int i = 0; i < size; i++) {
            if (timeS[i] < fromS || timeS[i] > toS) {
                time[kept] = timeS[i];
                temperature[kept] = temperatureC[i];
                share[kept] = output[i];
                wanted[kept] = setpointC[i];
                kept++;
            }
        }
        return kept == 0 ? this : new Course(time, temperature, share, wanted, kept);
    }

    /** The same curve, its output not told. */
    Course withoutOutput() {
        double[] untold = new double[size];
        Arrays.fill(untold, Double.NaN);
        return new Course(timeS, temperatureC, untold, setpointC, size);
    }

    /** Mean output over a span of time; NaN where none was told. */
    double meanOutput(double fromS, double toS) {
        double sum = 0;
        int count = 0;
        for (int i = Math.max(0, at(fromS) + 1); i < size && timeS[i] <= toS; i++) {
            if (!Double.isNaN(output[i])) {
                sum += output[i];
                count++;
            }
        }
        return count == 0 ? Double.NaN : sum / count;
    }

    /** Whether a time lies between readings so far apart that a straight line between them says nothing. */
    boolean inGap(double seconds) {
        int before = at(seconds);
        return before >= 0 && before < size - 1 && timeS[before] < seconds && isGap(before);
    }

    /**
     * What a kiln most likely read in a gap: it falls as what cools does, by the same part of its height above the room in
     * equal times, and climbs in a straight line.
     */
    double inGapC(double seconds, double roomC) {
        int before = at(seconds);
        double from = temperatureC[before] - roomC;
        double to = temperatureC[before + 1] - roomC;
        double part = (seconds - timeS[before]) / (timeS[before + 1] - timeS[before]);
        return to > 1 && from > to ? roomC + from * Math.pow(to / from, part) : roomC + from + part * (to - from);
    }

    /** Where the last gap ends that a span of time overlaps; the span's own beginning where there is none. */
    double afterGaps(double fromS, double toS) {
        double after = fromS;
        for (int i = Math.max(0, at(fromS)); i < size - 1 && timeS[i] < toS; i++) {
            if (timeS[i + 1] > fromS && isGap(i)) {
                after = timeS[i + 1];
            }
        }
        return after;
    }

    /** Whether a span of time overlaps a gap: what the elements did in it nobody knows. */
    boolean overlapsGap(double fromS, double toS) {
        return afterGaps(fromS, toS) > fromS;
    }

    private boolean isGap(int from) {
        double usual = (lastS() - timeS[0]) / Math.max(1, size - 1);
        return timeS[from + 1] - timeS[from] > Math.max(GAP_S, GAP_TIMES * usual);
    }

    /**
     * Standard deviation of the sensor's noise in a span of time, K: how far points lie from the line between their neighbours, the
     * tenth furthest off left out; 0 where there are too few.
     */
    double noiseK(double fromS, double toS) {
        int begin = Math.max(1, at(fromS) + 1);
        int count = Math.min(at(toS), size - 1) - begin;
        if (count < FEWEST_FOR_NOISE) {
            return 0;
        }
        double[] squares = new double[count];
        for (int i = 0; i < count; i++) {
            int middle = begin + i;
            double part = (timeS[middle] - timeS[middle - 1]) / (timeS[middle + 1] - timeS[middle - 1]);
            double between = (1 - part) * temperatureC[middle - 1] + part * temperatureC[middle + 1];
            double off = temperatureC[middle] - between;
            squares[i] = off * off / (1 + part * part + (1 - part) * (1 - part));
        }
        Arrays.sort(squares);
        int nearest = (int) (0.9 * count);
        return Math.sqrt(Arrays.stream(squares, 0, nearest).sum() / nearest / NEAREST_NINE_TENTHS);
    }

    int last() {
        return size - 1;
    }

    double lastS() {
        return timeS[size - 1];
    }

    /** The last point at or before a time; −1 when all are later. */
    int at(double seconds) {
        int found = Arrays.binarySearch(timeS, 0, size, seconds);
        return found >= 0 ? found : -found - 2;
    }

    /** Temperature at a time, straight between points, held beyond the ends. */
    double temperatureAt(double seconds) {
        int below = at(seconds);
        if (below < 0) {
            return temperatureC[0];
        }
        if (below >= size - 1) {
            return temperatureC[size - 1];
        }
        double part = (seconds - timeS[below]) / (timeS[below + 1] - timeS[below]);
        return temperatureC[below] + part * (temperatureC[below + 1] - temperatureC[below]);
    }

    /** A straight line through the points of a span of time. */
    Line line(double fromS, double toS) {
        int begin = Math.max(0, at(fromS));
        while (begin < size && timeS[begin] < fromS) {
            begin++;
        }
        int end = at(toS);
        int count = end - begin + 1;
        if (count < 2) {
            return new Line(
                    Math.max(0, count),
                    temperatureAt((fromS + toS) / 2),
                    0,
                    Double.POSITIVE_INFINITY,
                    (fromS + toS) / 2);
        }
        double middle = 0;
        double mean = 0;
        for (int i = begin; i <= end; i++) {
            middle += timeS[i];
            mean += temperatureC[i];
        }
        middle /= count;
        mean /= count;
        double squares = 0;
        double products = 0;
        for (int i = begin; i <= end; i++) {
            double dt = timeS[i] - middle;
            squares += dt * dt;
            products += dt * (temperatureC[i] - mean);
        }
        double slope = squares > 0 ? products / squares : 0;
        double left = 0;
        for (int i = begin; i <= end; i++) {
            double off = temperatureC[i] - mean - slope * (timeS[i] - middle);
            left += off * off;
        }
        double error = count > 2 && squares > 0 ? Math.sqrt(left / (count - 2) / squares) : Double.POSITIVE_INFINITY;
        return new Line(count, mean, slope, error, middle);
    }

    /**
     * The smoothed temperature at a time: a line through up to five minutes either side, but not beyond a span in which
     * the curve has no corner.
     */
    double smoothAt(double seconds, double notBeforeS, double notAfterS) {
        double from = Math.max(notBeforeS, seconds - SMOOTHING_S);
        double to = Math.min(notAfterS, seconds + SMOOTHING_S);
        Line line = line(from, to);
        return line.points() < 3 ? temperatureAt(seconds) : line.at(seconds);
    }

    /** What it is now at the least, nineteen times in twenty: by the last readings together, less what their noise leaves open. */
    double atLeastC() {
        Line line = line(lastS() - SEEN_OVER_S, lastS());
        if (line.points() < 3) {
            return temperatureC[last()];
        }
        // At the end of a line its height is off by its slope's share and by its mean's, which is a third of that
        // squared.
        double error = line.slopeErrorKS() * (lastS() - line.middleS()) * Math.sqrt(4.0 / 3);
        return line.at(lastS()) - 1.645 * error;
    }

    /**
     * The same where the curve bends: a parabola through up to five minutes either side. A line through the first half hour of
     * a cooling lies a kelvin above it.
     */
    double bentAt(double seconds, double notBeforeS, double notAfterS) {
        int begin = at(Math.max(notBeforeS, seconds - SMOOTHING_S) - 1e-3) + 1;
        int count = at(Math.min(notAfterS, seconds + SMOOTHING_S)) - begin + 1;
        if (count < 4) {
            return smoothAt(seconds, notBeforeS, notAfterS);
        }
        double[][] powers = new double[count][];
        double[] celsius = new double[count];
        for (int i = 0; i < count; i++) {
            double away = (timeS[begin + i] - seconds) / SMOOTHING_S;
            powers[i] = new double[] {1, away, away * away};
            celsius[i] = temperatureC[begin + i];
        }
        RealVector parabola = new QRDecomposition(new Array2DRowRealMatrix(powers, false))
                .getSolver()
                .solve(new ArrayRealVector(celsius, false));
        return parabola.getEntry(0);
    }

    /**
     * A fitted line.
     *
     * @param points it goes through
     * @param meanC at the middle
     * @param slopeKS K/s
     * @param slopeErrorKS standard error of the slope, K/s
     * @param middleS where the mean is
     */
    record Line(int points, double meanC, double slopeKS, double slopeErrorKS, double middleS) {
        double at(double seconds) {
            return meanC + slopeKS * (seconds - middleS);
        }
    }
}
