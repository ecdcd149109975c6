package org.kilnside.book;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.kilnside.book.BookException.Reason;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.session.FiringBook.ClockTie;
import org.kilnside.session.FiringBook.FiringStart;

/** Reads what a firing has beside its readings: how it started, its plan, sensors, clock ties and events. */
final class FiringRows {
    private FiringRows() {}

    static Optional<FiringStart> start(Connection connection, long firing) {
        Handle handle = handle(connection);
        List<Segment> segments = handle.createQuery("SELECT rate_c_per_hour, target_c, hold_ms FROM plan_segment"
                        + " WHERE firing = :firing ORDER BY position")
                .bind("firing", firing)
                .map((row, context) -> segment(row))
                .list();
        return handle.createQuery("SELECT kiln, link, started_at, plan_name, plan_text, series FROM firing"
                        + " WHERE number = :firing")
                .bind("firing", firing)
                .map((row, context) -> new FiringStart(
                        text(row, "kiln"),
                        row.getString("link"),
                        instant(row, "started_at"),
                        segments.isEmpty()
                                ? Optional.empty()
                                : Optional.of(new Schedule(row.getString("plan_name"), segments)),
                        text(row, "plan_text"),
                        series(row, "series")))
                .findOne();
    }

    static List<Long> numbers(Connection connection) {
        return handle(connection)
                .createQuery("SELECT number FROM firing ORDER BY number")
                .mapTo(Long.class)
                .list();
    }

    private static Segment segment(ResultSet row) throws SQLException {
        double rate = row.getDouble("rate_c_per_hour");
        return row.wasNull()
                ? new Segment.FreeCooling()
                : new Segment.Ramp(
                        HeatingRate.ofKelvinPerHour(rate),
                        Temperature.ofCelsius(row.getDouble("target_c")),
                        Duration.ofMillis(row.getLong("hold_ms")));
    }

    static List<SensorEpoch> sensors(Connection connection, long firing) {
        Map<Long, List<Probe>> epochs = new TreeMap<>();
        handle(connection)
                .createQuery("SELECT from_elapsed_ms, thermocouple_type, amplifier FROM probe"
                        + " WHERE firing = :firing ORDER BY from_elapsed_ms, channel")
                .bind("firing", firing)
                .map((row, context) -> Map.entry(
                        row.getLong("from_elapsed_ms"),
                        probe(row.getString("thermocouple_type"), row.getString("amplifier"))))
                .forEach(found -> epochs.computeIfAbsent(found.getKey(), from -> new ArrayList<>())
                        .add(found.getValue()));
        return epochs.entrySet().stream()
                .map(epoch -> new SensorEpoch(epoch.getKey(), epoch.getValue()))
                .toList();
    }

    private static Probe probe(String type, String amplifier) {
        try {
            return new Probe(ThermocoupleType.valueOf(type), Amplifier.valueOf(amplifier));
        } catch (IllegalArgumentException e) {
            throw new BookException(
                    Reason.NEWER,
                    "The firing was recorded with a sensor this Kilnside does not know (thermocouple " + type
                            + ", amplifier " + amplifier + "): read it with the program that wrote it.",
                    e);
        }
    }

    static List<ClockTie> clockTies(Connection connection, long firing) {
        return handle(connection)
                .createQuery("SELECT elapsed_ms, uptime_ms, wall_clock FROM clock_tie"
                        + " WHERE firing = :firing ORDER BY elapsed_ms")
                .bind("firing", firing)
                .map((row, context) -> clockTie(row))
                .list();
    }

    /** The ties of every firing, each firing's in order of time. */
    static Map<Long, List<ClockTie>> allClockTies(Connection connection) {
        return handle(connection)
                .createQuery("SELECT firing, elapsed_ms, uptime_ms, wall_clock FROM clock_tie"
                        + " ORDER BY firing, elapsed_ms")
                .map((row, context) -> Map.entry(row.getLong("firing"), clockTie(row)))
                .list()
                .stream()
                .collect(Collectors.groupingBy(
                        Map.Entry::getKey, Collectors.mapping(Map.Entry::getValue, Collectors.toList())));
    }

    private static ClockTie clockTie(ResultSet row) throws SQLException {
        return new ClockTie(row.getLong("elapsed_ms"), number(row, "uptime_ms"), instant(row, "wall_clock"));
    }

    static List<FiringEvent> events(Connection connection, long firing) {
        return handle(connection)
                .createQuery("SELECT elapsed_ms, kind, text FROM event WHERE firing = :firing"
                        + " ORDER BY elapsed_ms, number")
                .bind("firing", firing)
                .map((row, context) -> new FiringEvent(
                        row.getLong("elapsed_ms"), FiringEvent.Kind.valueOf(row.getString("kind")), text(row, "text")))
                .list();
    }

    /** Jdbi over a connection somebody else closes. */
    static Handle handle(Connection connection) {
        return Jdbi.create(connection).open();
    }

    static Optional<String> text(ResultSet row, String column) throws SQLException {
        return Optional.ofNullable(row.getString(column));
    }

    static ConeSeries series(ResultSet row, String column) throws SQLException {
        String text = String.valueOf(row.getString(column));
        return ConeSeries.ofWord(text)
                .orElseThrow(() -> new BookException(
                        Reason.NEWER,
                        "The firing book speaks of a kind of cone this Kilnside does not know (" + text
                                + "): read it with the program that wrote it."));
    }

    static Instant instant(ResultSet row, String column) throws SQLException {
        String text = String.valueOf(row.getString(column));
        try {
            return Instant.parse(text);
        } catch (DateTimeParseException e) {
            throw new BookException(
                    Reason.DAMAGED,
                    "The firing book is damaged: where a time should stand (" + column + ") it has \"" + text
                            + "\". Run \"book check\", and put a backup in its place.",
                    e);
        }
    }

    static OptionalLong number(ResultSet row, String column) throws SQLException {
        long value = row.getLong(column);
        return row.wasNull() ? OptionalLong.empty() : OptionalLong.of(value);
    }
}
