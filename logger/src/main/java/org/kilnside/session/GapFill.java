package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.firing.Reading;

/** What the controller had kept, as it comes in after a gap, until the last of it has come. */
final class GapFill {
    private final List<Reading> readings = new ArrayList<>();
    private long lastHostMs;

    void add(Reading reading, long hostMs) {
        readings.add(reading);
        lastHostMs = hostMs;
    }

    boolean settled(long hostMs, long quietMs) {
        return !readings.isEmpty() && hostMs - lastHostMs >= quietMs;
    }

    /** All that has come, once. */
    List<Reading> take() {
        List<Reading> taken = List.copyOf(readings);
        readings.clear();
        return taken;
    }
}
