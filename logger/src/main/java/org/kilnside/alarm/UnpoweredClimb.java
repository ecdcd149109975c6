package org.kilnside.alarm;

import java.util.OptionalDouble;

/**
 * A kiln that climbs though its controller gives it nothing: it says an output of nothing, or has taken its set-point
 * away. What elements and sensor still hold dies away within a minute or two; heat that goes on does not. This needs no
 * plan. The numbers were tried on simulated kilns.
 */
final class UnpoweredClimb {
    private static final long MINUTE_MS = 60_000;

    /** Three minutes are compared with each other, after elements and sensor have had some seconds. */
    private static final long STEADY_FOR_MS = 3 * MINUTE_MS + 5_000;

    /** Where a minute of a noisy sensor says less than this, the three are looked at in halves. */
    private static final double MINUTE_SAYS_K_PER_H = 25;

    private static final long HALF_MS = 100_000;

    /** Thousands of looks at a cooling kiln's noise must not once see it climb. */
    private static final double SURE = 4;

    private static final double HOT_C = 600;
    private static final long FIRST_MINUTES_MS = 30 * MINUTE_MS;
    private static final long STANDS_FOR_MS = 150_000;
    private static final double STANDS_K_PER_H = -15;

    private static final double STEADY = 0.82;
    private static final double RISES_K_PER_H = 22;

    /** A controller that reports a relay's moments rather than a share has pauses of its own. */
    private static final double TIMES_USUAL = 2.5;

    /** A regulated output carries no kiln this far after it has come to nothing. */
    private static final long COME_TO_NOTHING_MS = 100_000;

    private static final double CARRIED_K = 10;
    private static final double CARRIED_K_PER_H = 60;
    private static final double REGULATED = 0.25;

    private long usualMs;
    private long pauseMs;

    /**
     * Looks.
     *
     * @param withoutSetpointMs for how long a controller that gave its set-point has given none; 0 = it gives it
     */
    boolean look(Beats beats, long withoutSetpointMs) {
        long unpoweredMs = beats.unpoweredMs();
        boolean told = beats.meanOutput(MINUTE_MS, 0).isPresent();
        if (unpoweredMs == 0 && pauseMs > 0) {
            usualMs = Math.max(usualMs * 9 / 10, pauseMs);
        }
        boolean rises = beats.slope(MINUTE_MS).orElse(0) > RISES_K_PER_H;
        pauseMs = rises ? unpoweredMs : 0;
        long offMs = told ? unpoweredMs : withoutSetpointMs;
        if (offMs < COME_TO_NOTHING_MS || told && offMs < TIMES_USUAL * usualMs) {
            return false;
        }
        return told && isCarriedTooFar(beats, offMs)
                || offMs >= STEADY_FOR_MS && (isSteady(beats) || hasEnded(withoutSetpointMs) && standsHot(beats));
    }

    private static boolean hasEnded(long withoutSetpointMs) {
        return withoutSetpointMs >= STEADY_FOR_MS && withoutSetpointMs < FIRST_MINUTES_MS;
    }

    /** Left to itself, a kiln this hot falls by a hundred kelvin an hour and more in its first minutes. */
    private static boolean standsHot(Beats beats) {
        double noiseK = beats.noiseK(10 * MINUTE_MS);
        double rate = beats.slope(STANDS_FOR_MS).orElse(Double.NEGATIVE_INFINITY);
        return beats.nowC() > HOT_C && rate - 3 * beats.slopeNoise(STANDS_FOR_MS, noiseK) > STANDS_K_PER_H;
    }

    private static boolean isSteady(Beats beats) {
        double noiseK = beats.noiseK(10 * MINUTE_MS);
        double unsure = beats.slopeNoise(MINUTE_MS, noiseK);
        double whole = beats.slope(2 * HALF_MS).orElse(0);
        if (whole < RISES_K_PER_H + SURE * beats.slopeNoise(2 * HALF_MS, noiseK)) {
            return false;
        }
        if (unsure > MINUTE_SAYS_K_PER_H) {
            return isSteadyInHalves(beats, beats.slopeNoise(HALF_MS, noiseK));
        }
        OptionalDouble last = beats.slope(MINUTE_MS);
        OptionalDouble before = beats.slope(2 * MINUTE_MS, MINUTE_MS);
        OptionalDouble earlier = beats.slope(3 * MINUTE_MS, 2 * MINUTE_MS);
        if (last.isEmpty() || before.isEmpty() || earlier.isEmpty()) {
            return false;
        }
        double least = RISES_K_PER_H + 2 * unsure;
        return last.getAsDouble() >= least
                && before.getAsDouble() >= least
                && last.getAsDouble() - unsure >= STEADY * before.getAsDouble() - 2 * unsure
                && before.getAsDouble() >= STEADY * earlier.getAsDouble() - unsure;
    }

    private static boolean isSteadyInHalves(Beats beats, double unsure) {
        double last = beats.slope(HALF_MS).orElse(0);
        double before = beats.slope(2 * HALF_MS, HALF_MS).orElse(Double.POSITIVE_INFINITY);
        double least = RISES_K_PER_H + unsure;
        return last >= least && before >= least && last >= STEADY * before - unsure;
    }

    private static boolean isCarriedTooFar(Beats beats, long offMs) {
        if (beats.spanMs() < offMs + 10 * MINUTE_MS
                || beats.regulatedShare(offMs + 12 * MINUTE_MS, offMs) < REGULATED) {
            return false;
        }
        double noiseK = beats.noiseK(10 * MINUTE_MS);
        double carried = beats.nowC() - beats.celsiusAgo(offMs).orElse(beats.nowC());
        double rate = beats.slope(MINUTE_MS).orElse(0) - 2 * beats.slopeNoise(MINUTE_MS, noiseK);
        return carried > CARRIED_K + 3 * noiseK && rate > CARRIED_K_PER_H;
    }
}
