package org.kilnside.alarm;

import java.util.Locale;

/** How bad it is, the worst first. */
public enum Grade {
    /** Repeats and gets louder until acknowledged, quiet hours or not. */
    COME_NOW,
    /** Said once, at any hour, and shown until acknowledged. */
    LOOK_SOON,
    /** Good news and changes; in quiet hours it is shown and not sounded. */
    GOOD_TO_KNOW;

    /** The stable code by which files, streams and commands name it: {@code come-now}. */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
