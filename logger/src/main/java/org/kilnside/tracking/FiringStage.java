package org.kilnside.tracking;

/** Where a firing stands, found from its curve. */
public enum FiringStage {
    /** No heat yet: a delayed start, or nothing is going on. */
    WAITING_TO_START,
    HEATING,
    HOLDING,
    COOLING,
    ENDED
}
