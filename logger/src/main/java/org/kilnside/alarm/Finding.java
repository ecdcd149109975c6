package org.kilnside.alarm;

import java.util.Optional;

/**
 * What a detector sees.
 *
 * @param sinceMs since when it shows in the readings, ms on the recording's clock
 * @param badness how bad, in steps of which one more is worth waking somebody again
 * @param seen the number seen
 * @param expected the number expected
 */
record Finding(long sinceMs, double badness, Optional<Measure> seen, Optional<Measure> expected) {
    static Finding since(long sinceMs) {
        return new Finding(sinceMs, 0, Optional.empty(), Optional.empty());
    }

    static Finding since(long sinceMs, Measure seen, Measure expected) {
        return new Finding(sinceMs, 0, Optional.of(seen), Optional.of(expected));
    }

    Finding withBadness(double steps) {
        return new Finding(sinceMs, steps, seen, expected);
    }
}
