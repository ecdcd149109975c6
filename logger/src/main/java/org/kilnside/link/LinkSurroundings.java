package org.kilnside.link;

import org.kilnside.files.ProfileLibrary;
import org.kilnside.session.HostClock;

/**
 * What a link needs of the world around it.
 *
 * @param clock the host's clocks
 * @param pauses how host time passes
 * @param library where plans and line patterns are looked up by name
 * @param patient whether a port that is not there yet is waited for, as by a recorder that starts with the computer;
 *     otherwise it is given up at once, for a person to look at
 */
public record LinkSurroundings(HostClock clock, Pauses pauses, ProfileLibrary library, boolean patient) {
    /** For a link opened by a person, who wants to know at once what is wrong. */
    public static LinkSurroundings of(HostClock clock, ProfileLibrary library) {
        return new LinkSurroundings(clock, Pauses.REAL, library, false);
    }

    /** The same, waiting for a port that is not there yet. */
    public LinkSurroundings waiting() {
        return new LinkSurroundings(clock, pauses, library, true);
    }
}
