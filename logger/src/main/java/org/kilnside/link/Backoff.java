package org.kilnside.link;

/** How long to wait before the next attempt: half a second at first, twice as long each time, ten seconds at most. */
final class Backoff {
    private static final long FIRST_MS = 500;
    private static final long LONGEST_MS = 10_000;

    private long nextMs = FIRST_MS;

    long nextMs() {
        long now = nextMs;
        nextMs = Math.min(2 * nextMs, LONGEST_MS);
        return now;
    }

    void reset() {
        nextMs = FIRST_MS;
    }
}
