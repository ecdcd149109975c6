package org.kilnside.wording;

/** What closes the kiln: texts name what the kiln has. */
public enum Opening {
    LID,
    DOOR
}
