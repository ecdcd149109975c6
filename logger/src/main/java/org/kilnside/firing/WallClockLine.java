package org.kilnside.firing;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The straight line from a recording's clock to the wall clock, by which moments of a firing get their time of day.
 *
 * <p>The recording counts by the controller, whose ceramic resonator is off by up to half a percent, eleven minutes in
 * a day and a half; the wall clock is right on the whole, but may be set while a firing goes on. So the rate is the
 * median of the rates between moments at which both clocks were read, which one setting of the clock does not move; and
 * the line lies through what the wall clock has shown since it was last set.
 *
 * @param zero the wall clock at the recording's zero
 * @param rate wall clock over recording's clock, near 1
 */
public record WallClockLine(Instant zero, double rate) {
    /** Resonators are off by half a percent at most; twice that is no resonator but a clock that was set. */
    private static final double LARGEST_DRIFT = 0.01;

    /** Moments closer together than this say nothing on the rate: reading a clock is off by a few seconds. */
    private static final long SHORTEST_SPAN_MS = 1_800_000;

    private static final int MOST_COMPARED = 100;

    /** A step of the wall clock off the line by more than this is a setting of it. */
    private static final double A_SETTING_MS = 60_000;

    /** A moment at which both clocks were read. */
    public record Tie(long elapsedMs, Instant wall) {}

    /** The line of a recording that has just begun. */
    public static WallClockLine from(Instant startedAt) {
        return new WallClockLine(startedAt, 1);
    }

    /**
     * The line through ties in order of time.
     *
     * @throws IllegalArgumentException when there are none
     */
    public static WallClockLine through(List<Tie> ties) {
        if (ties.isEmpty()) {
            throw new IllegalArgumentException("a line needs one tie at least");
        }
        Instant first = ties.get(0).wall();
        double rate = 1 + drift(spread(ties));
        // How far each tie lies off a line of this rate from the first one's wall time.
        double[] off = ties.stream()
                .mapToDouble(tie -> Duration.between(first, tie.wall()).toMillis() - rate * tie.elapsedMs())
                .toArray();
        int from = off.length - 1;
        while (from > 0 && Math.abs(off[from - 1] - off[from]) < A_SETTING_MS) {
            from--;
        }
        return new WallClockLine(first.plusMillis(Math.round(median(Arrays.copyOfRange(off, from, off.length)))), rate);
    }

    /** Every so many of them, for a recorder that runs for weeks: each is compared with each. */
    private static List<Tie> spread(List<Tie> ties) {
        if (ties.size() <= MOST_COMPARED) {
            return ties;
        }
        return IntStream.range(0, MOST_COMPARED)
                .mapToObj(i -> ties.get((int) ((long) i * (ties.size() - 1) / (MOST_COMPARED - 1))))
                .toList();
    }

    private static double drift(List<Tie> ties) {
        double[] drifts = new double[ties.size() * (ties.size() - 1) / 2];
        int count = 0;
        for (int i = 0; i < ties.size(); i++) {
            for (int j = i + 1; j < ties.size(); j++) {
                long span = ties.get(j).elapsedMs() - ties.get(i).elapsedMs();
                long wall =
                        Duration.between(ties.get(i).wall(), ties.get(j).wall()).toMillis();
                double drift = (double) (wall - span) / span;
                if (span >= SHORTEST_SPAN_MS && Math.abs(drift) <= LARGEST_DRIFT) {
                    drifts[count++] = drift;
                }
            }
        }
        return count == 0 ? 0 : median(Arrays.copyOf(drifts, count));
    }

    private static double median(double[] values) {
        Arrays.sort(values);
        return (values[(values.length - 1) / 2] + values[values.length / 2]) / 2;
    }

    /** The time of day of a moment of the recording. */
    public Instant at(long elapsedMs) {
        return zero.plusMillis(Math.round(rate * elapsedMs));
    }

    /**
     * The wall clock at a zero from which the recording's own count leads to the right time of day at one moment, for
     * whatever adds elapsed time to a begin.
     */
    public Instant zeroFor(long elapsedMs) {
        return at(elapsedMs).minusMillis(elapsedMs);
    }
}
