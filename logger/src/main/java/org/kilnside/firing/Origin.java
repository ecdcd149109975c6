package org.kilnside.firing;

/** How a reading came to the book. */
public enum Origin {
    /** Received as it was taken. */
    LIVE,
    /** Asked for after a gap, from what the controller had kept, at a coarser resolution. */
    FILLED_IN,
    /** From a log file. */
    IMPORTED
}
