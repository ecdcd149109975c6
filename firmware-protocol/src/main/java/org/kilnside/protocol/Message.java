package org.kilnside.protocol;

/** One good line from the controller. */
public sealed interface Message permits Hello, ReadingLine, KeptLine, KeptEnd {
    /** The smallest and largest uptime: a 32-bit count of milliseconds. */
    long UPTIME_MAX_MS = 0xFFFF_FFFFL;

    int SEQUENCE_MAX = 0xFFFF;

    /** Rises by one with each line sent, 0 … 65535, then 0 again. */
    int sequence();

    /** Milliseconds since the controller started, 0 … 4294967295, then 0 again (after 49.7 days). */
    long uptimeMs();

    /** @throws IllegalArgumentException when either is outside its range */
    static void checkHead(int sequence, long uptimeMs) {
        if (sequence < 0 || sequence > SEQUENCE_MAX) {
            throw new IllegalArgumentException("a sequence number lies in 0 … 65535, found " + sequence);
        }
        if (uptimeMs < 0 || uptimeMs > UPTIME_MAX_MS) {
            throw new IllegalArgumentException("an uptime lies in 0 … 4294967295 ms, found " + uptimeMs);
        }
    }
}
