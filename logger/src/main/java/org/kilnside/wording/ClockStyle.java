package org.kilnside.wording;

/** How the hours of a day are counted. */
public enum ClockStyle {
    TWENTY_FOUR_HOURS,
    TWELVE_HOURS;

    public ClockStyle other() {
        return this == TWENTY_FOUR_HOURS ? TWELVE_HOURS : TWENTY_FOUR_HOURS;
    }
}
