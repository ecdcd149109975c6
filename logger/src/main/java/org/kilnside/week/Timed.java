package org.kilnside.week;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What the planner needs to know of a load.
 *
 * @param times how long its firing takes
 * @param ready when it may be packed; empty for at once
 * @param after the place of the load it waits for; empty for none
 * @param drying how long it waits after that one's unloading
 * @param due when it has to be out; empty for no date
 * @param packed whether it stands in the kiln already
 */
record Timed(
        FiringTimes times,
        Optional<Instant> ready,
        OptionalInt after,
        Duration drying,
        Optional<Instant> due,
        boolean packed) {
    Timed coolAtProbable() {
        return new Timed(times.coolAtProbable(), ready, after, drying, due, packed);
    }
}
