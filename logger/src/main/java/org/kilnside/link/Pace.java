package org.kilnside.link;

import org.kilnside.session.HostClock;

/**
 * Lets a stream's own time run at a speed against the host's. When the host falls behind (a suspended process, a
 * computer asleep) the stream's time stands still with it: it never rushes to catch up.
 */
final class Pace {
    /** Being behind by less than this is made up for. */
    private static final long MADE_UP_FOR_MS = 1_000;

    private static final long SHORTEST_PAUSE_MS = 5;
    private static final long LONGEST_PAUSE_MS = 100;

    private final HostClock clock;
    private final Pauses pauses;
    private final double speed;
    private long zeroHostMs;
    private boolean begun;

    Pace(HostClock clock, Pauses pauses, double speed) {
        this.clock = clock;
        this.pauses = pauses;
        this.speed = speed;
    }

    /** Whether a moment of the stream's time has come; the first moment asked for comes at once. */
    boolean isDue(long streamMs) {
        if (speed == LinkNotation.UNPACED) {
            return true;
        }
        long now = clock.monotonicMs();
        if (!begun) {
            begun = true;
            zeroHostMs = now - hostMs(streamMs);
        }
        long late = now - zeroHostMs - hostMs(streamMs);
        if (late > MADE_UP_FOR_MS) {
            zeroHostMs += late;
        }
        return late >= 0;
    }

    /** Waits until the moment, or a tenth of a second when it is further off. */
    void await(long streamMs) throws InterruptedException {
        long wait = zeroHostMs + hostMs(streamMs) - clock.monotonicMs();
        if (wait > 0) {
            pauses.pause(Math.max(SHORTEST_PAUSE_MS, Math.min(wait, LONGEST_PAUSE_MS)));
        }
    }

    private long hostMs(long streamMs) {
        return Math.round(streamMs / speed);
    }
}
