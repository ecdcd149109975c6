package org.kilnside.link;

import java.util.Locale;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.session.HostClock;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/**
 * What a link needs of the world around it.
 *
 * @param clock the host's clocks
 * @param pauses how host time passes
 * @param library where plans and line patterns are looked up by name
 * @param patient whether a port that is not there yet is waited for, as by a recorder that starts with the computer;
 *     otherwise it is given up at once, for a person to look at
 * @param words says what is wrong with a connection
 */
public record LinkSurroundings(HostClock clock, Pauses pauses, ProfileLibrary library, boolean patient, Words words) {
    /** Where what is wrong is said in English. */
    public LinkSurroundings(HostClock clock, Pauses pauses, ProfileLibrary library, boolean patient) {
        this(clock, pauses, library, patient, Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH)));
    }

    /** For a link opened by a person, who wants to know at once what is wrong. */
    public static LinkSurroundings of(HostClock clock, ProfileLibrary library) {
        return new LinkSurroundings(clock, Pauses.REAL, library, false);
    }

    /** The same, waiting for a port that is not there yet. */
    public LinkSurroundings waiting() {
        return new LinkSurroundings(clock, pauses, library, true, words);
    }

    /** The same in a person's language. */
    public LinkSurroundings saying(Words its) {
        return new LinkSurroundings(clock, pauses, library, patient, its);
    }
}
