package org.kilnside.session;

import java.util.OptionalLong;

/**
 * Turns the controller's uptime into time elapsed in the recording.
 *
 * <p>Uptime is a 32-bit count of milliseconds: it wraps after 49.7 days and falls to zero when the controller starts
 * anew. A wrap goes on where it was; after a restart, and for controllers that give no uptime, the host's monotonic
 * clock says how much time has gone by. Confined to the session's thread.
 */
final class Timeline {
    /** Milliseconds in which a 32-bit uptime comes round: 49.7 days. */
    static final long WRAP_MS = 1L << 32;

    /** A wrap is believed only when it happens this close to the end of the count: gaps longer than a day are not. */
    private static final long NEAR_THE_WRAP_MS = 86_400_000;

    private final double speed;
    private boolean started;
    private long elapsedMs;
    private long hostMs;
    private OptionalLong uptimeMs = OptionalLong.empty();

    /** How a reading follows the one before. */
    enum Step {
        FIRST,
        ON,
        /** The controller started anew: its uptime fell. */
        RESTARTED
    }

    /** @param speed kiln time over host time; infinite for a replay without pauses */
    Timeline(double speed) {
        this.speed = speed;
    }

    /**
     * Goes on from a firing of an earlier run of the program.
     *
     * @param lastElapsedMs where the recording stood
     * @param lastUptimeMs the controller's uptime then, as sent
     * @param lastHostMs what the host's monotonic clock would have shown then, ms
     */
    void resume(long lastElapsedMs, OptionalLong lastUptimeMs, long lastHostMs) {
        started = true;
        elapsedMs = lastElapsedMs;
        uptimeMs = lastUptimeMs;
        hostMs = lastHostMs;
    }

    /** Takes the next live reading's clocks; {@link #elapsedMs()} is then its time in the recording. */
    Step next(OptionalLong arrivedUptimeMs, long arrivedHostMs) {
        Step step = Step.ON;
        // A replay without pauses has no speed to count by: the host's clock says nothing then.
        long byHost = Double.isInfinite(speed) ? 0 : Math.max(0, Math.round((arrivedHostMs - hostMs) * speed));
        if (!started) {
            started = true;
            step = Step.FIRST;
        } else if (arrivedUptimeMs.isEmpty() || uptimeMs.isEmpty()) {
            elapsedMs += byHost;
        } else {
            long before = uptimeMs.getAsLong();
            long now = arrivedUptimeMs.getAsLong();
            if (now >= before) {
                elapsedMs += now - before;
            } else if (before >= WRAP_MS - NEAR_THE_WRAP_MS && now <= NEAR_THE_WRAP_MS) {
                elapsedMs += now - before + WRAP_MS;
            } else {
                step = Step.RESTARTED;
                elapsedMs += byHost;
            }
        }
        if (arrivedUptimeMs.isPresent()) {
            uptimeMs = arrivedUptimeMs;
        }
        hostMs = arrivedHostMs;
        return step;
    }

    /** The recording's time at the last live reading, ms. */
    long elapsedMs() {
        return elapsedMs;
    }

    /** The controller's uptime at the last live reading, as sent; empty when it gives none. */
    OptionalLong uptimeMs() {
        return uptimeMs;
    }

    /**
     * The recording's time of a past uptime of the same run of the controller, for readings filled in; empty when it
     * lies before the recording or cannot be told.
     */
    OptionalLong elapsedAt(long pastUptimeMs) {
        if (uptimeMs.isEmpty()) {
            return OptionalLong.empty();
        }
        long ago = Math.floorMod(uptimeMs.getAsLong() - pastUptimeMs, WRAP_MS);
        long at = elapsedMs - ago;
        return at < 0 ? OptionalLong.empty() : OptionalLong.of(at);
    }
}
