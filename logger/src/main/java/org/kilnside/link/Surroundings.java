package org.kilnside.link;

import org.kilnside.session.HostClock;

/**
 * What a link needs of the world around it.
 *
 * @param clock the host's clocks
 * @param pauses how host time passes
 * @param virtualControllers where a {@code virtual:} link gets its controller
 * @param patient whether a port that is not there yet is waited for, as by a recorder that starts with the computer;
 *     otherwise it is given up at once, for a person to look at
 */
public record Surroundings(HostClock clock, Pauses pauses, VirtualControllers virtualControllers, boolean patient) {
    /** A link opened by a person, who wants to know at once what is wrong. */
    public static Surroundings of(HostClock clock, VirtualControllers virtualControllers) {
        return new Surroundings(clock, Pauses.REAL, virtualControllers, false);
    }

    /** These surroundings, waiting for a port that is not there yet. */
    public Surroundings waiting() {
        return new Surroundings(clock, pauses, virtualControllers, true);
    }
}
