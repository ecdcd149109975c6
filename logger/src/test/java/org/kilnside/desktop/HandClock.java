package org.kilnside.desktop;

import java.time.Instant;
import org.kilnside.session.HostClock;
import org.kilnside.wording.SampleSnapshots;

/** A host's clock moved by hand. */
public final class HandClock implements HostClock {
    private volatile long nowMs = SampleSnapshots.HOST_MS;

    public void set(long ms) {
        nowMs = ms;
    }

    @Override
    public long monotonicMs() {
        return nowMs;
    }

    @Override
    public Instant wallClock() {
        return SampleSnapshots.BEGAN.plusMillis(nowMs);
    }
}
