package org.kilnside.command;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.kilnside.alarm.Alarm;

/**
 * The alarms that a person has answered at this computer: here they are quiet, also where the recorder is gone or only
 * lets this copy look, until they are raised again. From any thread.
 */
final class AnsweredHere {
    /** By id, and how often each had been raised then. */
    private final Map<String, Integer> timesRaised = new HashMap<>();

    /** A person knows of this one. */
    synchronized void answer(Alarm alarm) {
        timesRaised.put(alarm.id(), alarm.times());
    }

    /** Whether it may be heard here. */
    synchronized boolean isAudible(Alarm alarm) {
        return timesRaised.getOrDefault(alarm.id(), 0) < alarm.times();
    }

    /** An alarm as it stands for who sits before this computer. */
    Alarm asAnswered(Alarm alarm) {
        return alarm.rings() && !isAudible(alarm) ? alarm.acknowledged(alarm.raisedMs()) : alarm;
    }

    /** Forgets what does not stand any more. */
    synchronized void keepOnly(List<Alarm> standing) {
        timesRaised
                .keySet()
                .removeIf(id -> standing.stream().noneMatch(alarm -> alarm.id().equals(id)));
    }
}
