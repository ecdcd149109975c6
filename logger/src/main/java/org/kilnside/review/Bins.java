package org.kilnside.review;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.kilnside.firing.Trace;

/**
 * A curve at a pace the review can walk up and down quickly: means over half a minute, or the log's own readings where
 * they are further apart. Times in s, temperatures in °C, output 0 … 1; NaN stands for an output or set-point not
 * given, inside this room only.
 */
final class Bins {
    static final double WIDTH_S = 30;

    final int size;
    final double[] timeS;
    final double[] celsius;
    final double[] output;
    final double[] setpoint;

    private Bins(int size, double[] timeS, double[] celsius, double[] output, double[] setpoint) {
        this.size = size;
        this.timeS = timeS;
        this.celsius = celsius;
        this.output = output;
        this.setpoint = setpoint;
    }

    static Bins of(Trace curve) {
        int most = curve.size();
        double[] time = new double[most];
        double[] celsius = new double[most];
        double[] output = new double[most];
        double[] setpoint = new double[most];
        int size = 0;
        int i = 0;
        while (i < curve.size()) {
            long bin = Math.floorDiv(curve.elapsedMs(i), (long) (WIDTH_S * 1000));
            Mean times = new Mean();
            Mean temperatures = new Mean();
            Mean outputs = new Mean();
            Mean setpoints = new Mean();
            while (i < curve.size() && Math.floorDiv(curve.elapsedMs(i), (long) (WIDTH_S * 1000)) == bin) {
                times.add(curve.elapsedMs(i) / 1000.0);
                temperatures.add(curve.temperatureC(i));
                curve.output(i).ifPresent(outputs::add);
                curve.setpointC(i).ifPresent(setpoints::add);
                i++;
            }
            time[size] = times.value();
            celsius[size] = temperatures.value();
            output[size] = outputs.value();
            setpoint[size] = setpoints.value();
            size++;
        }
        return new Bins(
                size,
                Arrays.copyOf(time, size),
                Arrays.copyOf(celsius, size),
                Arrays.copyOf(output, size),
                Arrays.copyOf(setpoint, size));
    }

    /** The same with temperatures put in before a bin, every half minute after a time; nothing is known of output there. */
    Bins filled(int before, double afterS, double[] fill) {
        int total = size + fill.length;
        double[] time = new double[total];
        double[] temperatures = new double[total];
        double[] outputs = new double[total];
        double[] setpoints = new double[total];
        for (int i = 0; i < total; i++) {
            int from = i < before ? i : i - fill.length;
            boolean own = i < before || i >= before + fill.length;
            time[i] = own ? timeS[from] : afterS + (i - before + 1) * WIDTH_S;
            temperatures[i] = own ? celsius[from] : fill[i - before];
            outputs[i] = own ? output[from] : Double.NaN;
            setpoints[i] = own ? setpoint[from] : Double.NaN;
        }
        return new Bins(total, time, temperatures, outputs, setpoints);
    }

    /** The same, every temperature and set-point so many K lower. */
    Bins colderBy(double kelvin) {
        if (kelvin == 0) {
            return this;
        }
        double[] other = new double[size];
        double[] asked = new double[size];
        for (int i = 0; i < size; i++) {
            other[i] = celsius[i] - kelvin;
            asked[i] = setpoint[i] - kelvin;
        }
        return new Bins(size, timeS, other, output, asked);
    }

    /** The same with every set-point put through a function. */
    Bins withSetpoints(DoubleUnaryOperator other) {
        double[] asked = new double[size];
        for (int i = 0; i < size; i++) {
            boolean same = i > 0 && setpoint[i] == setpoint[i - 1];
            asked[i] = Double.isNaN(setpoint[i]) ? setpoint[i] : same ? asked[i - 1] : other.applyAsDouble(setpoint[i]);
        }
        return new Bins(size, timeS, celsius, output, asked);
    }

    /** The same without a stretch [from, to] in s; the whole where hardly anything would be left. */
    Bins without(double fromS, double toS) {
        int[] kept = IntStream.range(0, size)
                .filter(i -> timeS[i] < fromS || timeS[i] > toS)
                .toArray();
        if (kept.length < 2) {
            return this;
        }
        return new Bins(
                kept.length,
                IntStream.of(kept).mapToDouble(i -> timeS[i]).toArray(),
                IntStream.of(kept).mapToDouble(i -> celsius[i]).toArray(),
                IntStream.of(kept).mapToDouble(i -> output[i]).toArray(),
                IntStream.of(kept).mapToDouble(i -> setpoint[i]).toArray());
    }

    int last() {
        return size - 1;
    }

    /** The last bin at or before a time; 0 when all are later. */
    int at(double seconds) {
        int found = Arrays.binarySearch(timeS, seconds);
        return found >= 0 ? found : Math.max(0, -found - 2);
    }

    /** The mean temperature over [from, to) in s; the nearest bin's where there is none. */
    double meanC(double fromS, double toS) {
        return mean(celsius, fromS, toS, celsius[at(Math.max(fromS, Math.min(toS, timeS[size - 1])))]);
    }

    /** The mean output over [from, to) in s; NaN where none is given. */
    double meanOutput(double fromS, double toS) {
        return mean(output, fromS, toS, Double.NaN);
    }

    /** The mean set-point over [from, to) in s; NaN where none is given. */
    double meanSetpoint(double fromS, double toS) {
        return mean(setpoint, fromS, toS, Double.NaN);
    }

    /** The mean of set-point minus temperature over [from, to) in s; NaN where no set-point is given. */
    double meanLag(double fromS, double toS) {
        double sum = 0;
        int count = 0;
        for (int i = firstFrom(fromS); i < size && timeS[i] < toS; i++) {
            if (!Double.isNaN(setpoint[i])) {
                sum += setpoint[i] - celsius[i];
                count++;
            }
        }
        return count == 0 ? Double.NaN : sum / count;
    }

    /** K/h, a straight line through [from, to] in s by least squares; 0 where there are fewer than two bins. */
    double slopeKPerH(double fromS, double toS) {
        double n = 0;
        double sumT = 0;
        double sumC = 0;
        double sumTt = 0;
        double sumTc = 0;
        double origin = fromS;
        for (int i = firstFrom(fromS); i < size && timeS[i] <= toS; i++) {
            double t = timeS[i] - origin;
            n++;
            sumT += t;
            sumC += celsius[i];
            sumTt += t * t;
            sumTc += t * celsius[i];
        }
        double spread = n * sumTt - sumT * sumT;
        return n < 2 || spread <= 0 ? 0 : (n * sumTc - sumT * sumC) / spread * 3600;
    }

    /** The first bin at or after a time; the size where all are before. */
    int firstFrom(double seconds) {
        int found = Arrays.binarySearch(timeS, seconds);
        return found >= 0 ? found : -found - 1;
    }

    private double mean(double[] values, double fromS, double toS, double otherwise) {
        double sum = 0;
        int count = 0;
        for (int i = firstFrom(fromS); i < size && timeS[i] < toS; i++) {
            if (!Double.isNaN(values[i])) {
                sum += values[i];
                count++;
            }
        }
        return count == 0 ? otherwise : sum / count;
    }

    private static final class Mean {
        private double sum;
        private int count;

        void add(double value) {
            sum += value;
            count++;
        }

        double value() {
            return count == 0 ? Double.NaN : sum / count;
        }
    }
}
