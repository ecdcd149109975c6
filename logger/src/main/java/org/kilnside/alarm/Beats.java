package org.kilnside.alarm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Temperature;

/**
 * The firing in beats of ten seconds: mean temperature, output and set-point of each. A controller that prints more
 * seldom makes a beat of each reading. °C, K/h, ms of the recording; output 0 … 1. Confined to one thread.
 */
final class Beats {
    static final long BEAT_MS = 10_000;
    private static final double MS_PER_HOUR = 3_600_000;
    /** Across a gap a number is not what it was so long ago. */
    private static final long STALE_MS = 150_000;

    private static final double UNPOWERED = 0.005;
    private static final double COLD_C = 45;
    private static final double FAR_BELOW_K = 60;
    private static final double PARKED_STAYS_K = 1;

    /** Of a number that is rounded: its standard deviation over the step, and a little for steps that come in a row. */
    private static final double STEP_SHARE = 0.4;

    private long[] ms = new long[512];
    private double[] celsius = new double[512];
    private double[] output = new double[512];
    private double[] setpoint = new double[512];
    private int size;
    private long openedMs;
    private long sumMs;
    private double sumC;
    private double sumOutput;
    private int outputs;
    private double lastSetpoint = Double.NaN;
    private double parkedC = Double.NEGATIVE_INFINITY;
    private int count;

    /** Takes a good reading; true when a beat has become full by it. */
    boolean add(long elapsedMs, double temperatureC, ControllerReport controller) {
        boolean closed = count > 0 && elapsedMs - openedMs >= BEAT_MS;
        if (closed) {
            close();
        }
        if (count == 0) {
            openedMs = elapsedMs;
        }
        count++;
        sumMs += elapsedMs - openedMs;
        sumC += temperatureC;
        if (controller.output().isPresent()) {
            sumOutput += controller.output().get().fraction();
            outputs++;
        }
        lastSetpoint = controller
                .setpoint()
                .map(Temperature::celsius)
                .filter(wanted -> !isParked(wanted, temperatureC))
                .orElse(Double.NaN);
        return closed;
    }

    /**
     * Whether a set-point is none: a controller that has ended may go on giving a number, such as 0 or the room's. It is
     * known by a kiln far hotter than any cold number, and stays none as long as it is the same.
     */
    private boolean isParked(double wantedC, double temperatureC) {
        if (wantedC < COLD_C && temperatureC - wantedC > FAR_BELOW_K) {
            parkedC = wantedC;
        }
        return Math.abs(wantedC - parkedC) < PARKED_STAYS_K;
    }

    private void close() {
        if (size == ms.length) {
            int larger = size + size / 2;
            ms = Arrays.copyOf(ms, larger);
            celsius = Arrays.copyOf(celsius, larger);
            output = Arrays.copyOf(output, larger);
            setpoint = Arrays.copyOf(setpoint, larger);
        }
        ms[size] = openedMs + sumMs / count;
        celsius[size] = sumC / count;
        output[size] = outputs == 0 ? Double.NaN : sumOutput / outputs;
        setpoint[size] = lastSetpoint;
        size++;
        sumMs = 0;
        sumC = 0;
        sumOutput = 0;
        outputs = 0;
        count = 0;
    }

    boolean isEmpty() {
        return size == 0;
    }

    /** Time of the newest full beat. */
    long nowMs() {
        return ms[size - 1];
    }

    /** Temperature of the newest full beat. */
    double nowC() {
        return celsius[size - 1];
    }

    /** The newest set-point; empty when the controller gives none now. */
    OptionalDouble setpointC() {
        return size == 0 || Double.isNaN(setpoint[size - 1])
                ? OptionalDouble.empty()
                : OptionalDouble.of(setpoint[size - 1]);
    }

    /** The set-point a while ago; empty when there was none. */
    OptionalDouble setpointC(long agoMs) {
        int i = indexAt(nowMs() - agoMs);
        boolean stale = i >= 0 && nowMs() - agoMs - ms[i] > STALE_MS;
        return i < 0 || stale || Double.isNaN(setpoint[i]) ? OptionalDouble.empty() : OptionalDouble.of(setpoint[i]);
    }

    /** How long there have been beats. */
    long spanMs() {
        return size == 0 ? 0 : ms[size - 1] - ms[0];
    }

    /** The last beat at or before a time; −1 when all are later. */
    private int indexAt(long timeMs) {
        int found = Arrays.binarySearch(ms, 0, size, timeMs);
        return found >= 0 ? found : -found - 2;
    }

    /** The straight line through a stretch, least squares; empty where nine tenths of it are not there. */
    OptionalDouble slope(long fromAgoMs, long toAgoMs) {
        Line line = line(fromAgoMs, toAgoMs);
        return line == null ? OptionalDouble.empty() : OptionalDouble.of(line.perHour);
    }

    /** K/h over the last while. */
    OptionalDouble slope(long windowMs) {
        return slope(windowMs, 0);
    }

    /**
     * How far the temperature now is off the straight line through an earlier stretch, K; negative = colder. Empty
     * where the stretch is not there.
     *
     * @param atAgoMs the moment compared, before now
     */
    OptionalDouble offLine(long fromAgoMs, long toAgoMs, long atAgoMs) {
        Line line = line(fromAgoMs, toAgoMs);
        int at = indexAt(nowMs() - atAgoMs);
        if (line == null || at < 0) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(celsius[at] - line.atC(ms[at]));
    }

    /** Standard deviation about the straight line through a stretch, K; empty where it is not there. */
    OptionalDouble roughness(long fromAgoMs, long toAgoMs) {
        Line line = line(fromAgoMs, toAgoMs);
        if (line == null) {
            return OptionalDouble.empty();
        }
        double sum = 0;
        for (int i = line.from; i <= line.to; i++) {
            double off = celsius[i] - line.atC(ms[i]);
            sum += off * off;
        }
        return OptionalDouble.of(Math.sqrt(sum / (line.to - line.from + 1)));
    }

    /**
     * Noise of a beat's temperature, K: from the second differences of the last while, which a curve's own bending hardly
     * touches; the middle one, so that a few jumps do not count.
     */
    double noiseK(long windowMs) {
        int from = Math.max(0, indexAt(nowMs() - windowMs) + 1);
        int n = size - from - 2;
        if (n < 3) {
            return 0.3;
        }
        double[] bends = new double[n];
        for (int i = 0; i < n; i++) {
            bends[i] = Math.abs(celsius[from + i] - 2 * celsius[from + i + 1] + celsius[from + i + 2]);
        }
        Arrays.sort(bends);
        if (bends[n / 2] == 0) {
            // A sensor told in whole degrees stands still most of the time: its step is all that is known of it.
            return STEP_SHARE * smallestStepK(from);
        }
        // The middle of |x| is 0.6745 σ for a normal x, and a second difference of noise has √6 times its σ.
        return bends[n / 2] / 0.6745 / Math.sqrt(6);
    }

    private double smallestStepK(int from) {
        double smallest = Double.POSITIVE_INFINITY;
        for (int i = from + 1; i < size; i++) {
            double step = Math.abs(celsius[i] - celsius[i - 1]);
            smallest = step > 0 ? Math.min(smallest, step) : smallest;
        }
        return Double.isInfinite(smallest) ? 0.3 : smallest;
    }

    /** By how much noise alone may turn the straight line through the last while, one standard deviation, K/h. */
    double slopeNoise(long windowMs, double noiseK) {
        int n = Math.max(2, size - 1 - indexAt(nowMs() - windowMs - 1));
        return noiseK * Math.sqrt(12.0 / n) / (windowMs / MS_PER_HOUR);
    }

    private record Line(int from, int to, long zeroMs, double zeroC, double perHour) {
        double atC(long timeMs) {
            return zeroC + perHour * (timeMs - zeroMs) / MS_PER_HOUR;
        }
    }

    private Line line(long fromAgoMs, long toAgoMs) {
        long nowMs = nowMs();
        int from = indexAt(nowMs - fromAgoMs - 1) + 1;
        int to = toAgoMs == 0 ? size - 1 : indexAt(nowMs - toAgoMs);
        if (to - from < 1 || ms[to] - ms[from] < (fromAgoMs - toAgoMs) * 8 / 10 - BEAT_MS) {
            return null;
        }
        double n = to - from + 1;
        double sumT = 0;
        double sumTemperature = 0;
        for (int i = from; i <= to; i++) {
            sumT += ms[i] - nowMs;
            sumTemperature += celsius[i];
        }
        double meanT = sumT / n;
        double meanC = sumTemperature / n;
        double sumTT = 0;
        double sumTC = 0;
        for (int i = from; i <= to; i++) {
            double t = ms[i] - nowMs - meanT;
            sumTT += t * t;
            sumTC += t * (celsius[i] - meanC);
        }
        return sumTT <= 0 ? null : new Line(from, to, nowMs + Math.round(meanT), meanC, sumTC / sumTT * MS_PER_HOUR);
    }

    /** Mean output of a stretch; empty where the controller did not say. */
    OptionalDouble meanOutput(long fromAgoMs, long toAgoMs) {
        return mean(output, fromAgoMs, toAgoMs);
    }

    /** The outputs of a stretch's beats; NaN where the controller did not say. */
    double[] outputs(long fromAgoMs, long toAgoMs) {
        int from = indexAt(nowMs() - fromAgoMs - 1) + 1;
        return Arrays.copyOfRange(output, from, Math.max(from, indexAt(nowMs() - toAgoMs) + 1));
    }

    /** Mean temperature of a stretch; empty where there is none. */
    OptionalDouble meanC(long fromAgoMs, long toAgoMs) {
        return mean(celsius, fromAgoMs, toAgoMs);
    }

    private OptionalDouble mean(double[] values, long fromAgoMs, long toAgoMs) {
        int from = indexAt(nowMs() - fromAgoMs - 1) + 1;
        int to = indexAt(nowMs() - toAgoMs);
        double sum = 0;
        int n = 0;
        for (int i = from; i <= to; i++) {
            if (!Double.isNaN(values[i])) {
                sum += values[i];
                n++;
            }
        }
        return n == 0 ? OptionalDouble.empty() : OptionalDouble.of(sum / n);
    }

    /** The highest temperature of the last while, and when it was. */
    Peak highest(long windowMs) {
        int at = size - 1;
        for (int i = size - 1; i >= 0 && ms[i] >= nowMs() - windowMs; i--) {
            if (celsius[i] > celsius[at]) {
                at = i;
            }
        }
        return new Peak(ms[at], celsius[at]);
    }

    /** The lowest temperature of the last while, and when it was. */
    Peak lowest(long windowMs) {
        int at = size - 1;
        for (int i = size - 1; i >= 0 && ms[i] >= nowMs() - windowMs; i--) {
            if (celsius[i] < celsius[at]) {
                at = i;
            }
        }
        return new Peak(ms[at], celsius[at]);
    }

    /**
     * Where a swinging curve turned in the last while, crests and troughs in turn, oldest first.
     *
     * @param leastK how far it has to come back before a turn is one
     */
    List<Peak> turns(long windowMs, double leastK) {
        List<Peak> turns = new ArrayList<>();
        int from = Math.max(0, indexAt(nowMs() - windowMs));
        int high = from;
        int low = from;
        int upwards = 0;
        for (int i = from + 1; i < size; i++) {
            high = celsius[i] > celsius[high] ? i : high;
            low = celsius[i] < celsius[low] ? i : low;
            if (upwards >= 0 && celsius[high] - celsius[i] >= leastK) {
                if (upwards > 0) {
                    turns.add(new Peak(ms[high], celsius[high]));
                }
                upwards = -1;
                low = i;
            } else if (upwards <= 0 && celsius[i] - celsius[low] >= leastK) {
                if (upwards < 0) {
                    turns.add(new Peak(ms[low], celsius[low]));
                }
                upwards = 1;
                high = i;
            }
        }
        return turns;
    }

    /** The lowest temperature of a stretch, °C. */
    double lowestBetween(long fromAgoMs, long toAgoMs) {
        int to = indexAt(nowMs() - toAgoMs);
        double lowest = Double.POSITIVE_INFINITY;
        for (int i = to; i >= 0 && ms[i] >= nowMs() - fromAgoMs; i--) {
            lowest = Math.min(lowest, celsius[i]);
        }
        return lowest;
    }

    /** The highest temperature of a stretch, °C. */
    double highestBetween(long fromAgoMs, long toAgoMs) {
        int to = indexAt(nowMs() - toAgoMs);
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = to; i >= 0 && ms[i] >= nowMs() - fromAgoMs; i--) {
            highest = Math.max(highest, celsius[i]);
        }
        return highest;
    }

    /** The share of a stretch's beats in which the elements were neither off nor full on; 0 without output. */
    double regulatedShare(long windowMs) {
        return regulatedShare(windowMs, 0);
    }

    /** The same for a stretch that ended a while ago. */
    double regulatedShare(long fromAgoMs, long toAgoMs) {
        int regulated = 0;
        int all = 0;
        for (int i = indexAt(nowMs() - toAgoMs); i >= 0 && ms[i] >= nowMs() - fromAgoMs; i--) {
            all++;
            regulated += output[i] > 0.02 && output[i] < 0.98 ? 1 : 0;
        }
        return all == 0 ? 0 : (double) regulated / all;
    }

    /** For how long the output has been nothing by now, ms; 0 where it is something, or is not told. */
    long unpoweredMs() {
        int i = size - 1;
        while (i >= 0 && output[i] < UNPOWERED) {
            i--;
        }
        return i == size - 1 ? 0 : nowMs() - ms[i + 1];
    }

    /** The temperature a while ago, °C; empty where there is none near that moment. */
    OptionalDouble celsiusAgo(long agoMs) {
        return meanC(agoMs + BEAT_MS, agoMs - BEAT_MS);
    }

    /** The temperature of the last beat at or before a moment, that is not stale, °C. */
    OptionalDouble celsiusNear(long agoMs) {
        int i = indexAt(nowMs() - agoMs);
        boolean stale = i >= 0 && nowMs() - agoMs - ms[i] > STALE_MS;
        return i < 0 || stale ? OptionalDouble.empty() : OptionalDouble.of(celsius[i]);
    }

    /** A temperature and its time. */
    record Peak(long atMs, double celsius) {}
}
