package org.kilnside.review;

import java.util.Arrays;
import java.util.Optional;
import org.kilnside.firing.Trace;

/**
 * The very same number for longer than any kiln keeps one, while heat was going in: an amplifier that gives its last
 * code for ever.
 *
 * @param fromS since when, s
 * @param minutes for how long
 * @param celsius which number
 */
record Frozen(double fromS, double minutes, double celsius) {
    private static final double LONGEST_STILL_S = 900;
    private static final int FEWEST = 12;
    private static final double HOT_C = 300;

    /** A sensor that comes back finds the kiln elsewhere; a quiet hold goes on from where it was. */
    private static final double BACK_BY_K = 6;

    /** No kiln stands still to the last digit while its set-point goes so far away from it, K. */
    private static final double AWAY_K = 20;

    private static final int BEFORE = 40;
    private static final double RESTLESS_STEPS = 1.5;
    private static final double RESTLESS_K = 0.03;

    /**
     * The longest such stretch above 300 °C that ends with a leap, or during which the set-point went elsewhere; a quiet
     * hold in coarse numbers stands still too.
     */
    static Optional<Frozen> of(Trace curve) {
        Optional<Frozen> longest = Optional.empty();
        int from = 0;
        for (int i = 1; i < curve.size(); i++) {
            if (curve.temperatureC(i) == curve.temperatureC(from)) {
                continue;
            }
            double seconds = (curve.elapsedMs(i - 1) - curve.elapsedMs(from)) / 1000.0;
            double leapK = Math.abs(curve.temperatureC(i) - curve.temperatureC(from));
            boolean still = seconds > LONGEST_STILL_S
                    && i - from >= FEWEST
                    && curve.temperatureC(from) > HOT_C
                    && (leapK > BACK_BY_K
                            || awayS(curve, from, i - 1) > LONGEST_STILL_S / 2
                            || neverStoodBefore(curve, from));
            if (still && (longest.isEmpty() || seconds / 60 > longest.get().minutes())) {
                longest =
                        Optional.of(new Frozen(curve.elapsedMs(from) / 1000.0, seconds / 60, curve.temperatureC(from)));
            }
            from = i;
        }
        return longest;
    }

    /** Whether the numbers before are so restless, for how finely they are stepped, that no quiet hold stands still in them. */
    private static boolean neverStoodBefore(Trace curve, int from) {
        if (from < 2 * BEFORE) {
            return false;
        }
        double[] bends = new double[BEFORE];
        double finest = Double.POSITIVE_INFINITY;
        for (int k = 0; k < BEFORE; k++) {
            int i = from - k;
            double step = curve.temperatureC(i) - curve.temperatureC(i - 1);
            bends[k] = Math.abs(step - (curve.temperatureC(i - 1) - curve.temperatureC(i - 2)));
            finest = Math.abs(step) > 1e-6 ? Math.min(finest, Math.abs(step)) : finest;
        }
        Arrays.sort(bends);
        return bends[BEFORE / 2] > RESTLESS_K && bends[BEFORE / 2] > RESTLESS_STEPS * finest;
    }

    /** For how long the set-point was far from where it and the number stood together at first, s. */
    private static double awayS(Trace curve, int from, int to) {
        double first = curve.setpointC(from).orElse(Double.NaN);
        if (!(Math.abs(first - curve.temperatureC(from)) < AWAY_K)) {
            return 0;
        }
        double seconds = 0;
        for (int i = from + 1; i <= to; i++) {
            boolean away = Math.abs(curve.setpointC(i).orElse(first) - first) > AWAY_K;
            seconds += away ? (curve.elapsedMs(i) - curve.elapsedMs(i - 1)) / 1000.0 : 0;
        }
        return seconds;
    }
}
