package org.kilnside.session;

/** Counts what the controller had kept as it comes in after a gap, and tells when the last of it has come. */
final class GapFill {
    private int count;
    private long lastHostMs;

    void came(long hostMs) {
        count++;
        lastHostMs = hostMs;
    }

    boolean settled(long hostMs, long quietMs) {
        return count > 0 && hostMs - lastHostMs >= quietMs;
    }

    /** How many came, once. */
    int take() {
        int taken = count;
        count = 0;
        return taken;
    }
}
