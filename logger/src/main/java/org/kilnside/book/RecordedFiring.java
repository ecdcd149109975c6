package org.kilnside.book;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.session.FiringBook;
import org.kilnside.session.FiringBook.ClockTie;
import org.kilnside.session.FiringBook.FiringStart;

/**
 * A firing as the book has it.
 *
 * @param number its number
 * @param start what it started with, the plan as it was included
 * @param curve all good temperatures of the guiding channel
 * @param events what happened, oldest first
 * @param sensors what stood behind the channels, oldest first
 * @param clockTies moments at which both clocks were read, oldest first
 * @param loadText what was in the kiln, in the potter's words
 * @param notes the potter's notes
 * @param endedElapsedMs when it ended, ms; empty while it goes on
 */
public record RecordedFiring(
        long number,
        FiringStart start,
        Trace curve,
        List<FiringEvent> events,
        List<SensorEpoch> sensors,
        List<ClockTie> clockTies,
        Optional<String> loadText,
        Optional<String> notes,
        OptionalLong endedElapsedMs) {
    public RecordedFiring {
        events = List.copyOf(events);
        sensors = List.copyOf(sensors);
        clockTies = List.copyOf(clockTies);
    }

    /** The line by which its moments get their time of day. */
    public WallClockLine wallClock() {
        return FiringBook.wallClock(start.startedAt(), clockTies);
    }
}
