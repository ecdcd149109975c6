package org.kilnside.session;

import java.time.Instant;

/** The host's two clocks. The monotonic one measures; the wall clock only names moments, and may jump. */
public interface HostClock {
    /** Milliseconds on a clock that never jumps, from an arbitrary zero; it may stand still while the computer sleeps. */
    long monotonicMs();

    Instant wallClock();
}
