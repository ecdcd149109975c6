package org.kilnside.host;

import java.time.Instant;
import org.kilnside.session.HostClock;

/** The computer's own clocks. */
public final class SystemClock implements HostClock {
    @Override
    public long monotonicMs() {
        return System.nanoTime() / 1_000_000;
    }

    @Override
    public Instant wallClock() {
        return Instant.now();
    }
}
