package org.kilnside.alarm;

/**
 * An output of nothing but off and full, on lines that come seldom: a relay's moments and no share of its window. What their mean
 * says of the power is chance to a part, as with so many throws of a coin.
 */
final class RelayMoments {
    /** Beats closer than this follow a thermostat's bursts as they come. */
    private static final long SELDOM_MS = 25_000;

    private static final double OFF = 0.005;

    private RelayMoments() {}

    /** By how much chance alone may turn a stretch's mean output, one standard deviation; 0 where it is no moments. */
    static double noise(Beats beats, long fromAgoMs, long toAgoMs) {
        double[] outputs = beats.outputs(fromAgoMs, toAgoMs);
        if (outputs.length < 2 || fromAgoMs - toAgoMs < SELDOM_MS * outputs.length) {
            return 0;
        }
        double sum = 0;
        for (double output : outputs) {
            if (!(output <= OFF || output >= 1 - OFF)) {
                return 0;
            }
            sum += output;
        }
        // Where all came out alike the next one still need not.
        double mean = (sum + 0.5) / (outputs.length + 1);
        return Math.sqrt(mean * (1 - mean) / outputs.length);
    }
}
