package org.kilnside.alarm;

import java.time.LocalTime;

/**
 * The hours in which good news is shown and not sounded. What matters rings through them.
 *
 * @param from the first quiet minute
 * @param to the first that is not quiet any more; before {@code from} where they go over midnight, equal to it = none
 */
public record QuietHours(LocalTime from, LocalTime to) {
    public static final QuietHours NONE = new QuietHours(LocalTime.MIDNIGHT, LocalTime.MIDNIGHT);

    public boolean contains(LocalTime time) {
        return from.isBefore(to)
                ? !time.isBefore(from) && time.isBefore(to)
                : from.isAfter(to) && (!time.isBefore(from) || time.isBefore(to));
    }
}
