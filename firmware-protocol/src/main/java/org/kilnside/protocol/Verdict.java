package org.kilnside.protocol;

/** What became of one line. */
public enum Verdict {
    /** A line this reader understands wholly. */
    GOOD,
    /** Understood, but it carried keys this reader does not know and skipped. */
    GOOD_WITH_UNKNOWN_KEYS,
    /** A line with a good checksum, of a kind this reader does not know. */
    UNKNOWN_KIND,
    /** Its checksum does not match. */
    BAD_CHECKSUM,
    /** No line of the protocol. */
    MALFORMED;

    /** Whether there is a message. */
    public boolean good() {
        return this == GOOD || this == GOOD_WITH_UNKNOWN_KEYS;
    }
}
