package org.kilnside.review;

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

    /** The longest such stretch above 300 °C; a log in whole degrees holds still by rounding, and is not looked at. */
    static Optional<Frozen> of(Trace curve) {
        boolean fine = false;
        for (int i = 0; i < curve.size() && !fine; i++) {
            fine = Math.abs(curve.temperatureC(i) - Math.rint(curve.temperatureC(i))) > 0.01;
        }
        Optional<Frozen> longest = Optional.empty();
        int from = 0;
        for (int i = 1; fine && i <= curve.size(); i++) {
            if (i < curve.size() && curve.temperatureC(i) == curve.temperatureC(from)) {
                continue;
            }
            double seconds = (curve.elapsedMs(i - 1) - curve.elapsedMs(from)) / 1000.0;
            boolean still = seconds > LONGEST_STILL_S && i - from >= FEWEST && curve.temperatureC(from) > HOT_C;
            if (still && (longest.isEmpty() || seconds / 60 > longest.get().minutes())) {
                longest =
                        Optional.of(new Frozen(curve.elapsedMs(from) / 1000.0, seconds / 60, curve.temperatureC(from)));
            }
            from = i;
        }
        return longest;
    }
}
