package org.kilnside.book;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Types;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Origin;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Probe;
import org.kilnside.session.FiringBook.ClockTie;
import org.kilnside.session.FiringBook.FiringStart;

/**
 * Puts entries into an open transaction. Readings, of which there are many, go through prepared statements in batches.
 * Confined to one thread. After a rollback {@link #forget()} what it remembers.
 */
final class BookWriter implements AutoCloseable {
    private static final int FILLED_IN = ReadingRow.codeOf(Origin.FILLED_IN);

    private final Connection connection;
    private final PreparedStatement insertReading;
    private final PreparedStatement insertFurther;
    private final Map<Long, Newest> newestOf = new HashMap<>();
    private final Set<Long> toSummarise = new HashSet<>();
    private final Set<Long> staleSummaries = new HashSet<>();
    private final Set<Long> going = new HashSet<>();
    private boolean readingsBatched;
    private boolean furtherBatched;

    BookWriter(Connection connection) throws SQLException {
        this.connection = connection;
        insertReading = connection.prepareStatement("INSERT INTO reading (firing, elapsed_ms, repeat,"
                + " thermocouple_code, cold_junction_code, fault_bits, output_hundredths_pct, setpoint_hundredths_c,"
                + " segment, origin) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
        insertFurther = connection.prepareStatement("INSERT INTO further_channel (firing, elapsed_ms, repeat, channel,"
                + " thermocouple_code, cold_junction_code, fault_bits) VALUES (?, ?, ?, ?, ?, ?, ?)");
    }

    void begin(long firing, FiringStart start) throws SQLException {
        summariseEnded();
        try (PreparedStatement insert = connection.prepareStatement("INSERT INTO firing (number, kiln, link,"
                + " started_at, plan_name, plan_text, series) VALUES (?, ?, ?, ?, ?, ?, ?)")) {
            insert.setLong(1, firing);
            setText(insert, 2, start.kiln());
            insert.setString(3, start.link());
            insert.setString(4, start.startedAt().toString());
            setText(insert, 5, start.plan().map(Schedule::name));
            setText(insert, 6, start.planText());
            insert.setString(7, WitnessRows.word(start.series()));
            insert.executeUpdate();
        }
        if (start.plan().isPresent()) {
            plan(firing, start.plan().get());
        }
    }

    private void plan(long firing, Schedule plan) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("INSERT INTO plan_segment (firing, position,"
                + " rate_c_per_hour, target_c, hold_ms) VALUES (?, ?, ?, ?, ?)")) {
            int position = 0;
            for (Segment segment : plan.segments()) {
                insert.setLong(1, firing);
                insert.setInt(2, ++position);
                if (segment instanceof Segment.Ramp ramp) {
                    insert.setDouble(3, ramp.rate().kelvinPerHour());
                    insert.setDouble(4, ramp.to().celsius());
                    insert.setLong(5, ramp.hold().toMillis());
                } else {
                    insert.setNull(3, Types.REAL);
                    insert.setNull(4, Types.REAL);
                    insert.setNull(5, Types.INTEGER);
                }
                insert.executeUpdate();
            }
        }
    }

    void reading(long firing, ReadingRow row) throws SQLException {
        Newest newest = newest(firing);
        int repeat = 0;
        if (row.elapsedMs == newest.elapsedMs && row.origin != FILLED_IN) {
            repeat = newest.lines;
        } else if (row.elapsedMs <= newest.elapsedMs) {
            flush();
            List<ReadingRow> there = FiringQueries.rowsAt(connection, firing, row.elapsedMs);
            if (row.origin == FILLED_IN && there.stream().anyMatch(row::saysTheSameAs)) {
                return; // the controller sent again what it kept, and the book has it
            }
            repeat = there.size();
        }
        newest.take(row.elapsedMs);
        if (!going.contains(firing) && staleSummaries.add(firing)) {
            unsummarise(firing);
        }
        insertReading.setLong(1, firing);
        insertReading.setLong(2, row.elapsedMs);
        insertReading.setInt(3, repeat);
        setCode(insertReading, 4, row.thermocoupleCode);
        setCode(insertReading, 5, row.coldJunctionCode);
        insertReading.setInt(6, row.faultBits);
        setCode(insertReading, 7, row.outputHundredthsPct);
        setCode(insertReading, 8, row.setpointHundredthsC);
        setCode(insertReading, 9, row.segment);
        insertReading.setInt(10, row.origin);
        insertReading.addBatch();
        readingsBatched = true;
        for (ReadingRow.FurtherChannel channel : row.further()) {
            insertFurther.setLong(1, firing);
            insertFurther.setLong(2, row.elapsedMs);
            insertFurther.setInt(3, repeat);
            insertFurther.setInt(4, channel.channel());
            setCode(insertFurther, 5, channel.thermocoupleCode());
            setCode(insertFurther, 6, channel.coldJunctionCode());
            insertFurther.setInt(7, channel.faultBits());
            insertFurther.addBatch();
            furtherBatched = true;
        }
    }

    /** Looked up once for each firing, as the batches rise from there. */
    private Newest newest(long firing) throws SQLException {
        Newest newest = newestOf.get(firing);
        if (newest == null) {
            newest = new Newest();
            OptionalLong there = FiringQueries.newestMs(connection, firing);
            if (there.isPresent()) {
                newest.elapsedMs = there.getAsLong();
                newest.lines = FiringQueries.rowsAt(connection, firing, newest.elapsedMs)
                        .size();
            }
            newestOf.put(firing, newest);
            if (!FiringQueries.hasEnded(connection, firing)) {
                going.add(firing);
            }
        }
        return newest;
    }

    /** The newest millisecond of a firing that has readings, and how many lines fell into it; −∞ and none at first. */
    private static final class Newest {
        private long elapsedMs = Long.MIN_VALUE;
        private int lines;

        void take(long rowElapsedMs) {
            if (rowElapsedMs > elapsedMs) {
                elapsedMs = rowElapsedMs;
                lines = 1;
            } else if (rowElapsedMs == elapsedMs) {
                lines++;
            }
        }
    }

    void event(long firing, FiringEvent event) throws SQLException {
        try (PreparedStatement insert =
                connection.prepareStatement("INSERT INTO event (firing, elapsed_ms, kind, text) VALUES (?, ?, ?, ?)")) {
            insert.setLong(1, firing);
            insert.setLong(2, event.elapsedMs());
            insert.setString(3, event.kind().name());
            setText(insert, 4, event.text());
            insert.executeUpdate();
        }
    }

    void sensors(long firing, long fromElapsedMs, List<Probe> probes) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("INSERT OR REPLACE INTO probe (firing,"
                + " from_elapsed_ms, channel, thermocouple_type, amplifier) VALUES (?, ?, ?, ?, ?)")) {
            for (int i = 0; i < probes.size(); i++) {
                insert.setLong(1, firing);
                insert.setLong(2, fromElapsedMs);
                insert.setInt(3, i + 1);
                insert.setString(4, probes.get(i).type().name());
                insert.setString(5, probes.get(i).amplifier().name());
                insert.executeUpdate();
            }
        }
    }

    void clockTie(long firing, ClockTie tie) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement(
                "INSERT OR REPLACE INTO clock_tie (firing, elapsed_ms, uptime_ms, wall_clock) VALUES (?, ?, ?, ?)")) {
            insert.setLong(1, firing);
            insert.setLong(2, tie.elapsedMs());
            if (tie.uptimeMs().isPresent()) {
                insert.setLong(3, tie.uptimeMs().getAsLong());
            } else {
                insert.setNull(3, Types.INTEGER);
            }
            insert.setString(4, tie.wall().toString());
            insert.executeUpdate();
        }
    }

    void texts(long firing, Optional<String> load, Optional<String> notes) throws SQLException {
        try (PreparedStatement update =
                connection.prepareStatement("UPDATE firing SET load_text = ?, notes = ? WHERE number = ?")) {
            setText(update, 1, load);
            setText(update, 2, notes);
            update.setLong(3, firing);
            update.executeUpdate();
        }
    }

    void end(long firing, long elapsedMs) throws SQLException {
        try (PreparedStatement update =
                connection.prepareStatement("UPDATE firing SET ended_elapsed_ms = ? WHERE number = ?")) {
            update.setLong(1, elapsedMs);
            update.setLong(2, firing);
            update.executeUpdate();
        }
        going.remove(firing);
        toSummarise.add(firing);
    }

    /** Sends what is batched and brings the list's columns up to date; to be called before each commit. */
    void finish() throws SQLException {
        flush();
        for (long firing : toSummarise) {
            summarise(firing);
        }
        // Readings that come in a later commit make these sums stale anew.
        staleSummaries.removeAll(toSummarise);
        toSummarise.clear();
    }

    /** A firing that has ended may go on receiving readings for days: it is summed up anew when that is over. */
    private void unsummarise(long firing) throws SQLException {
        try (PreparedStatement update = connection.prepareStatement("UPDATE firing SET reading_count = NULL,"
                + " last_elapsed_ms = NULL, peak_c = NULL, peak_elapsed_ms = NULL WHERE number = ?")) {
            update.setLong(1, firing);
            update.executeUpdate();
        }
    }

    /** Sums up every firing that has ended and is not; until then the list works it out each time. */
    void summariseEnded() throws SQLException {
        flush();
        for (long firing : FiringQueries.endedButNotSummarised(connection)) {
            summarise(firing);
        }
        staleSummaries.clear();
    }

    private void summarise(long firing) throws SQLException {
        FiringQueries.Extent extent = FiringQueries.extent(connection, firing);
        try (PreparedStatement update = connection.prepareStatement("UPDATE firing SET reading_count = ?,"
                + " last_elapsed_ms = ?, peak_c = ?, peak_elapsed_ms = ? WHERE number = ?")) {
            update.setLong(1, extent.readingCount());
            if (extent.lastElapsedMs().isPresent()) {
                update.setLong(2, extent.lastElapsedMs().getAsLong());
            } else {
                update.setNull(2, Types.INTEGER);
            }
            if (extent.peak().isPresent()) {
                update.setDouble(3, extent.peak().get().temperature().celsius());
                update.setLong(4, extent.peak().get().elapsedMs());
            } else {
                update.setNull(3, Types.REAL);
                update.setNull(4, Types.INTEGER);
            }
            update.setLong(5, firing);
            update.executeUpdate();
        }
    }

    private void flush() throws SQLException {
        if (readingsBatched) {
            insertReading.executeBatch();
            readingsBatched = false;
        }
        if (furtherBatched) {
            insertFurther.executeBatch();
            furtherBatched = false;
        }
    }

    /** Forgets everything since the last commit, and what was known of the book before it. */
    void forget() throws SQLException {
        insertReading.clearBatch();
        insertFurther.clearBatch();
        readingsBatched = false;
        furtherBatched = false;
        newestOf.clear();
        going.clear();
        toSummarise.clear();
        staleSummaries.clear();
    }

    private static void setCode(PreparedStatement statement, int index, int code) throws SQLException {
        if (code == ReadingRow.ABSENT) {
            statement.setNull(index, Types.INTEGER);
        } else {
            statement.setInt(index, code);
        }
    }

    private static void setText(PreparedStatement statement, int index, Optional<String> text) throws SQLException {
        statement.setString(index, text.orElse(null));
    }

    @Override
    public void close() throws SQLException {
        insertReading.close();
        insertFurther.close();
    }
}
