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
     * Takes the next uptime as sent; see {@link #restarted(long, boolean, long)}. For readers that do not look at
     * sequence numbers, or whose lines never wait in a buffer.
     */
    public boolean restarted(long uptimeMs, long hostMs) {
        return restarted(uptimeMs, false, hostMs);
    }

    /**
     * Takes the next uptime as sent.
     *
     * @param uptimeMs as sent, 0 … 2³² − 1
     * @param followsOn whether the line's sequence number is the one after the last line's: then nothing happened in
     *     between, however long the line waited in a buffer
     * @param hostMs the reader's own clock, ms from any zero
     * @return whether the controller restarted since the last one: its uptime fell and not through the wrap, or it has
     *     run for less time than has passed since
     */
    public boolean restarted(long uptimeMs, boolean followsOn, long hostMs) {
        boolean any = lastMs >= 0;
        long passed = hostMs - lastHostMs;
        long leeway = LEEWAY_MS + passed / LEEWAY_PART;
        boolean fell = any && uptimeMs < lastMs;
        boolean wrapped =
                fell && throughTheWrap(lastMs, uptimeMs) && Math.abs(uptimeMs + WRAP_MS - lastMs - passed) <= leeway;
        boolean younger = any && !wrapped && !followsOn && uptimeMs + leeway < passed;
        boolean restarted = fell && !wrapped || younger;
        lastMs = uptimeMs;
        lastHostMs = hostMs;
        if (wrapped) {
            wraps++;
        } else if (restarted) {
            wraps = 0;
        }
        return restarted;
    }

    /** Milliseconds since the controller's last start, the wraps seen so far bridged. */
    public long sinceStartMs() {
        return wraps * WRAP_MS + Math.max(lastMs, 0);
    }
}
