package org.kilnside.link;

import java.time.Instant;
import org.kilnside.session.HostClock;

/** A clock that moves when told, and pauses that move it. */
final class HandMovedClock implements HostClock, Pauses {
    private static final Instant ZERO = Instant.parse("2026-11-25T06:00:00Z");

    private volatile long nowMs = 1_000;

    @Override
    public long monotonicMs() {
        return nowMs;
    }

    @Override
    public Instant wallClock() {
        return ZERO.plusMillis(nowMs);
    }

    @Override
    public void pause(long milliseconds) {
        nowMs += milliseconds;
    }

    void advance(long milliseconds) {
        nowMs += milliseconds;
    }
}
