package org.kilnside.protocol;

/**
 * Follows a controller's uptime across the wrap of its 32 bits (after 49.7 days), and tells a wrap from a restart: both
 * make the number fall.
 */
public final class Uptime {
    private static final long WRAP_MS = 1L << 32;

    /** A fall counts as a wrap only when it leads from this close before the end to this close after the beginning. */
    private static final long NEAR_THE_WRAP_MS = 24 * 3_600_000L;

    private long lastMs = -1;
    private long wraps;
    private long restarts;

    /**
     * Whether a fall of the uptime is the wrap of a controller that went on running: the way forward through the wrap
     * is shorter than a day, longer than which a controller keeps nothing and a gap cannot be filled anyway.
     */
    static boolean wrapped(long beforeMs, long nowMs) {
        return nowMs < beforeMs && nowMs + WRAP_MS - beforeMs < NEAR_THE_WRAP_MS;
    }

    /**
     * Takes the next uptime as sent.
     *
     * @return whether the controller restarted since the last one
     */
    public boolean restarted(long uptimeMs) {
        boolean fell = lastMs >= 0 && uptimeMs < lastMs;
        boolean wrap = fell && wrapped(lastMs, uptimeMs);
        lastMs = uptimeMs;
        if (wrap) {
            wraps++;
        } else if (fell) {
            wraps = 0;
            restarts++;
        }
        return fell && !wrap;
    }

    /** Milliseconds since the controller's last start, the wraps seen so far bridged. */
    public long sinceStartMs() {
        return wraps * WRAP_MS + Math.max(lastMs, 0);
    }

    /** How many restarts were seen. */
    public long restarts() {
        return restarts;
    }
}
