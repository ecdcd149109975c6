package org.kilnside.book;

import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.session.FiringBook.ClockTie;
import org.kilnside.session.FiringBook.FiringStart;

/**
 * A firing that is over and comes into the book as a whole, from a log file or another book.
 *
 * @param start what it started with
 * @param sensors what stood behind the channels
 * @param readings in any order
 * @param events what happened
 * @param clockTies moments at which both clocks were read
 * @param loadText what was in the kiln
 * @param notes the potter's notes
 * @param endedElapsedMs when it ended, on the recording's clock, ms
 */
public record FinishedFiring(
        FiringStart start,
        List<SensorEpoch> sensors,
        List<Reading> readings,
        List<FiringEvent> events,
        List<ClockTie> clockTies,
        Optional<String> loadText,
        Optional<String> notes,
        long endedElapsedMs) {
    public FinishedFiring {
        sensors = List.copyOf(sensors);
        readings = List.copyOf(readings);
        events = List.copyOf(events);
        clockTies = List.copyOf(clockTies);
    }

    void write(BookWriter writer, long number) throws SQLException {
        writer.begin(number, start);
        for (SensorEpoch epoch : sensors) {
            writer.sensors(number, epoch.fromElapsedMs(), epoch.probes());
        }
        for (ClockTie tie : clockTies) {
            writer.clockTie(number, tie);
        }
        for (Reading reading : readings) {
            writer.reading(number, ReadingRow.of(reading));
        }
        for (FiringEvent event : events) {
            writer.event(number, event);
        }
        writer.texts(number, loadText, notes);
        writer.end(number, endedElapsedMs);
    }
}
