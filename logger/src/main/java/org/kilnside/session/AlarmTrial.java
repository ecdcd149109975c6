package org.kilnside.session;

import java.util.Optional;

/** Tries tonight's alarm on this computer. */
public interface AlarmTrial {
    /**
     * Does all that an alarm to come now would do, and waits for it.
     *
     * @return what did not work, in a sentence or two; empty when everything did as far as the computer can tell
     */
    Optional<String> tryIt();

    /** A person heard it: this moment is remembered. */
    void heard();
}
