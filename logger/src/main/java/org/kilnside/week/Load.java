package org.kilnside.week;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.outlook.Ware;
import org.kilnside.schedule.Schedule;

/**
 * A load that is to be fired.
 *
 * @param name by which the potter knows it
 * @param planName the plan's short name
 * @param plan how it is fired
 * @param kg ware and furniture, where weighed; above 0
 * @param ware what it is
 * @param ready when it is dry and may be packed; empty for at once
 * @param after what has to be out of the kiln before; empty for nothing
 * @param due when it has to be out; empty for when the week is due
 * @param packed whether it stands in the kiln already
 */
public record Load(
        String name,
        String planName,
        Schedule plan,
        OptionalDouble kg,
        Ware ware,
        Optional<Instant> ready,
        Optional<After> after,
        Optional<Instant> due,
        boolean packed) {
    /**
     * The same ware fired before.
     *
     * @param load the name of the load it was in
     * @param drying how long it takes from its unloading until it is glazed and dry again, night and day
     */
    public record After(String load, Duration drying) {
        public After {
            if (drying.isNegative()) {
                throw new IllegalArgumentException("drying takes time, found " + drying);
            }
        }
    }
}
