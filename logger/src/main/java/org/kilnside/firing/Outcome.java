package org.kilnside.firing;

/** How a batch came out of a firing. The names are stored in the book and never change their meaning. */
public enum Outcome {
    /** Nobody has said yet. */
    NOT_SAID,
    /** As it was meant to. */
    WELL,
    /** Sold as a second. */
    SECOND,
    /** Goes into a firing once more. */
    REFIRE,
    /** Broken, cracked or stuck. */
    LOST
}
