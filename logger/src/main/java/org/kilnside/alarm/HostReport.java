package org.kilnside.alarm;

import java.util.OptionalLong;

/**
 * What the recording computer says of itself.
 *
 * @param onBattery it runs on its battery
 * @param mayFallAsleep it is about to sleep, or nothing keeps it from it
 * @param diskFreeBytes room left where the book lies; empty when it cannot say
 */
public record HostReport(boolean onBattery, boolean mayFallAsleep, OptionalLong diskFreeBytes) {
    /** Nothing is known, and nothing suspected. */
    public static final HostReport UNKNOWN = new HostReport(false, false, OptionalLong.empty());
}
