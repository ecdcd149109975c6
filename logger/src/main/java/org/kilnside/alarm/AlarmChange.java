package org.kilnside.alarm;

/**
 * Something happened to an alarm: for the book, the bell and the screen.
 *
 * @param what what happened
 * @param alarm the alarm as it stands since
 * @param elapsedMs when, ms on the recording's clock
 */
public record AlarmChange(What what, Alarm alarm, long elapsedMs) {
    /** What can happen to an alarm. */
    public enum What {
        RAISED,
        /** It got worse, or was still true ten minutes after it was acknowledged. */
        RAISED_AGAIN,
        ACKNOWLEDGED,
        CLEARED
    }
}
