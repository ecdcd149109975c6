package org.kilnside.session;

import java.util.OptionalLong;

/**
 * Holes in the readings: what is missing, so that it can be asked for, and what of it has come in. Confined to the
 * session's thread.
 */
final class Gaps {
    /** Three line intervals, but never less than this, make a gap (the wire's rule for silence). */
    private static final long SHORTEST_MS = 10_000;

    /** What was asked for has come in when nothing more comes for this long. */
    private static final long SETTLES_MS = 1_000;

    private OptionalLong missingSinceUptimeMs = OptionalLong.empty();
    private int filled;
    private long filledAtHostMs;

    /**
     * A reading came so long after the one before.
     *
     * @param uptimeBeforeMs the controller's uptime at the one before; empty when it gives none
     * @param uptimeNowMs the same at this one
     * @return whether that is a gap
     */
    boolean seen(
            Timeline.Step step,
            long sinceMs,
            LineInterval interval,
            OptionalLong uptimeBeforeMs,
            OptionalLong uptimeNowMs) {
        if (step == Timeline.Step.FIRST || sinceMs <= interval.gapAfterMs(SHORTEST_MS)) {
            return false;
        }
        // A controller that keeps readings through a reset counts them backwards from its start, as if the reset had
        // taken no time: below zero is before it.
        missingSinceUptimeMs = step == Timeline.Step.ON
                ? uptimeBeforeMs
                : uptimeNowMs.isPresent() ? OptionalLong.of(uptimeNowMs.getAsLong() - sinceMs) : OptionalLong.empty();
        return true;
    }

    /** The uptime from which readings are missing and should be asked for; given once. */
    OptionalLong takeMissingSince() {
        OptionalLong since = missingSinceUptimeMs;
        missingSinceUptimeMs = OptionalLong.empty();
        return since;
    }

    /** One of the missing readings came. */
    void filled(long hostMs) {
        filled++;
        filledAtHostMs = hostMs;
    }

    /** Whether what was asked for has come in. */
    boolean areSettled(long hostMs) {
        return filled > 0 && hostMs - filledAtHostMs >= SETTLES_MS;
    }

    /** How many came, once. */
    int takeFilled() {
        int taken = filled;
        filled = 0;
        return taken;
    }
}
