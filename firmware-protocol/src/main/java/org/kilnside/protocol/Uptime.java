package org.kilnside.protocol;

/**
 * Follows a controller's uptime across the wrap of its 32 bits (after 49.7 days), and tells a wrap from a restart: both
 * make the number fall.
 */
public final class Uptime {
    private static final long WRAP_MS = 1L << 32;
    private static final long DAY_MS = 24 * 3_600_000L;

    /** How far the way through the wrap may differ from the reader's clock: a minute, or 1 % (resonators drift 0.5 %). */
    private static final long LEEWAY_MS = 60_000;

    private static final long LEEWAY_PART = 100;

    private long lastMs = -1;
    private long lastHostMs;
    private long wraps;

    /** Whether a fall leads from within the last day before the wrap to within the first day after it. */
    static boolean throughTheWrap(long beforeMs, long nowMs) {
        return nowMs < beforeMs && beforeMs > WRAP_MS - DAY_MS && nowMs < DAY_MS;
    }

    /**
     * Takes the next uptime as sent.
     *
     * @param uptimeMs as sent, 0 … 2³² − 1
     * @param hostMs the reader's own clock, ms from any zero
     * @return whether the controller restarted since the last one
     */
    public boolean restarted(long uptimeMs, long hostMs) {
        boolean fell = lastMs >= 0 && uptimeMs < lastMs;
        boolean wrapped = false;
        if (fell && throughTheWrap(lastMs, uptimeMs)) {
            long forward = uptimeMs + WRAP_MS - lastMs;
            long passed = hostMs - lastHostMs;
            wrapped = Math.abs(forward - passed) <= LEEWAY_MS + passed / LEEWAY_PART;
        }
        lastMs = uptimeMs;
        lastHostMs = hostMs;
        if (wrapped) {
            wraps++;
        } else if (fell) {
            wraps = 0;
        }
        return fell && !wrapped;
    }

    /** Milliseconds since the controller's last start, the wraps seen so far bridged. */
    public long sinceStartMs() {
        return wraps * WRAP_MS + Math.max(lastMs, 0);
    }
}
