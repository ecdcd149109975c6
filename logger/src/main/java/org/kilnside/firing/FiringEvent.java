package org.kilnside.firing;

import java.util.Optional;

/**
 * Something that happened in a firing and belongs in its record.
 *
 * @param elapsedMs when, on the recording's clock
 * @param kind what sort of thing
 * @param text the person's own words, or the details of the kind as one plain line; empty when the kind says it all
 */
public record FiringEvent(long elapsedMs, Kind kind, Optional<String> text) {
    /** The kinds; the names are stored in the book and never change their meaning. */
    public enum Kind {
        /** Recording began. */
        RECORDING_BEGAN,
        /** Recording went on after the program had stopped. */
        RECORDING_RESUMED,
        /** The firing began: heat is going in. */
        FIRING_BEGAN,
        /** A hold of the plan began. */
        HOLD_BEGAN,
        /** The highest planned temperature was reached. */
        TOP_REACHED,
        /** Heating is over and the kiln cools. */
        COOLING_BEGAN,
        /** The firing ended. */
        FIRING_ENDED,
        /** The connection was lost. */
        CONNECTION_LOST,
        /** The connection came back. */
        CONNECTION_BACK,
        /** The controller started anew: its uptime fell. */
        CONTROLLER_RESTARTED,
        /** The sensor reported a fault. */
        SENSOR_FAULT,
        /** The sensor's fault is gone. */
        SENSOR_BACK,
        /** Readings were lost: a gap in the curve. */
        GAP,
        /** A gap was filled with what the controller had kept. */
        GAP_FILLED,
        /** The book could not be written and readings wait in memory. */
        BOOK_TROUBLE,
        /** An alarm was raised; the text is its entry as {@code alarm.AlarmEntry} writes and reads it. */
        ALARM_RAISED,
        /** An alarm was raised again: worse, or still true ten minutes after it was acknowledged. */
        ALARM_RAISED_AGAIN,
        /** A person acknowledged an alarm. */
        ALARM_ACKNOWLEDGED,
        /** An alarm ceased to be true. */
        ALARM_CLEARED,
        /** Something stands in the way of making an alarm heard: the user's command failed, there is no sound. */
        ALARM_UNHEARD,
        /** The list before lighting was gone through, or passed over. */
        LIGHTING,
        /** A note by a person. */
        NOTE;

        /** Whether something is or was wrong: to be marked where it is listed. */
        public boolean isTrouble() {
            return switch (this) {
                case CONNECTION_LOST,
                        CONTROLLER_RESTARTED,
                        SENSOR_FAULT,
                        GAP,
                        BOOK_TROUBLE,
                        ALARM_RAISED,
                        ALARM_RAISED_AGAIN,
                        ALARM_UNHEARD -> true;
                case RECORDING_BEGAN,
                        RECORDING_RESUMED,
                        FIRING_BEGAN,
                        HOLD_BEGAN,
                        TOP_REACHED,
                        COOLING_BEGAN,
                        FIRING_ENDED,
                        CONNECTION_BACK,
                        SENSOR_BACK,
                        GAP_FILLED,
                        ALARM_ACKNOWLEDGED,
                        ALARM_CLEARED,
                        LIGHTING,
                        NOTE -> false;
            };
        }
    }

    public static FiringEvent of(long elapsedMs, Kind kind) {
        return new FiringEvent(elapsedMs, kind, Optional.empty());
    }

    public static FiringEvent of(long elapsedMs, Kind kind, String text) {
        return new FiringEvent(elapsedMs, kind, Optional.of(text));
    }
}
