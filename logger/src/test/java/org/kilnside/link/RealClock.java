package org.kilnside.link;

import java.time.Instant;
import org.kilnside.session.HostClock;

/** The computer's own clocks, for tests with real pseudo-terminals and sockets. */
final class RealClock implements HostClock {
    @Override
    public long monotonicMs() {
        return System.nanoTime() / 1_000_000;
    }

    @Override
    public Instant wallClock() {
        return Instant.now();
    }
}
