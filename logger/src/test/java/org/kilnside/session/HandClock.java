package org.kilnside.session;

import java.time.Duration;
import java.time.Instant;

/** A clock moved by hand. The two faces can be moved apart, as when a system's clock is set. */
public final class HandClock implements HostClock {
    private volatile long monotonicMs = 1_000_000;
    private volatile Instant wall = Instant.parse("2026-11-25T18:00:00Z");

    public HandClock forward(Duration time) {
        monotonicMs += time.toMillis();
        wall = wall.plus(time);
        return this;
    }

    public HandClock forwardMs(long ms) {
        return forward(Duration.ofMillis(ms));
    }

    /** The wall clock alone is set, as by a time server. */
    public HandClock wallJumps(Duration by) {
        wall = wall.plus(by);
        return this;
    }

    /** The wall clock alone shows this. */
    public HandClock wallIs(Instant shown) {
        wall = shown;
        return this;
    }

    @Override
    public long monotonicMs() {
        return monotonicMs;
    }

    @Override
    public Instant wallClock() {
        return wall;
    }
}
