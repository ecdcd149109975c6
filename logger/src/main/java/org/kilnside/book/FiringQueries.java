package org.kilnside.book;

import static org.kilnside.book.ReadingRow.ABSENT;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.function.Consumer;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.Thermometer;
import org.kilnside.session.Snapshot.Peak;

/**
 * Reads a firing's readings, many at a time: plain statements, as each column asked for and each test for NULL is a
 * call into C.
 */
final class FiringQueries {
    /** Codes repeat for minutes; the correction behind them is worked out once for each of these. */
    private static final int REMEMBERED = 1 << 12;

    private FiringQueries() {}

    /**
     * How far the readings of a firing reach.
     *
     * @param peak the highest temperature that is not one reading's alone; empty without a good reading
     */
    record Extent(long readingCount, OptionalLong lastElapsedMs, Optional<Peak> peak) {}

    static OptionalLong newestMs(Connection connection, long firing) throws SQLException {
        try (PreparedStatement select =
                connection.prepareStatement("SELECT max(elapsed_ms) FROM reading WHERE firing = ?")) {
            select.setLong(1, firing);
            try (ResultSet found = select.executeQuery()) {
                long newest = found.next() ? found.getLong(1) : 0;
                return found.wasNull() ? OptionalLong.empty() : OptionalLong.of(newest);
            }
        }
    }

    static boolean hasEnded(Connection connection, long firing) throws SQLException {
        try (PreparedStatement select =
                connection.prepareStatement("SELECT 1 FROM firing WHERE number = ? AND ended_elapsed_ms IS NOT NULL")) {
            select.setLong(1, firing);
            try (ResultSet found = select.executeQuery()) {
                return found.next();
            }
        }
    }

    static List<Long> endedButNotSummarised(Connection connection) throws SQLException {
        List<Long> numbers = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(
                        "SELECT number FROM firing WHERE ended_elapsed_ms IS NOT NULL AND reading_count IS NULL");
                ResultSet found = select.executeQuery()) {
            while (found.next()) {
                numbers.add(found.getLong(1));
            }
        }
        return numbers;
    }

    /** The lines within one millisecond, without their further channels. */
    static List<ReadingRow> rowsAt(Connection connection, long firing, long elapsedMs) throws SQLException {
        List<ReadingRow> rows = new ArrayList<>();
        try (PreparedStatement select =
                connection.prepareStatement(rowsWhere("firing = ? AND elapsed_ms = ? ORDER BY repeat"))) {
            select.setLong(1, firing);
            select.setLong(2, elapsedMs);
            try (ResultSet found = select.executeQuery()) {
                while (found.next()) {
                    rows.add(row(found));
                }
            }
        }
        return rows;
    }

    /** Every reading of a firing in order of time, one at a time. */
    static void readings(Connection connection, long firing, ProbeEpochs probes, Consumer<Reading> taker)
            throws SQLException {
        try (PreparedStatement select =
                        connection.prepareStatement(rowsWhere("firing = ? ORDER BY elapsed_ms, repeat"));
                PreparedStatement selectFurther = connection.prepareStatement("SELECT elapsed_ms, repeat, channel,"
                        + " coalesce(thermocouple_code, " + ABSENT + "), coalesce(cold_junction_code, " + ABSENT
                        + "), fault_bits FROM further_channel WHERE firing = ?"
                        + " ORDER BY elapsed_ms, repeat, channel")) {
            select.setLong(1, firing);
            selectFurther.setLong(1, firing);
            try (ResultSet lines = select.executeQuery();
                    ResultSet further = selectFurther.executeQuery()) {
                boolean more = further.next();
                while (lines.next()) {
                    ReadingRow row = row(lines);
                    int repeat = lines.getInt(9);
                    while (more && further.getLong(1) == row.elapsedMs && further.getInt(2) == repeat) {
                        row.addFurther(new ReadingRow.FurtherChannel(
                                further.getInt(3), further.getInt(4), further.getInt(5), further.getInt(6)));
                        more = further.next();
                    }
                    taker.accept(row.reading(probes));
                }
            }
        }
    }

    private static String rowsWhere(String condition) {
        return "SELECT elapsed_ms, coalesce(thermocouple_code, " + ABSENT + "), coalesce(cold_junction_code, " + ABSENT
                + "), fault_bits, coalesce(output_hundredths_pct, " + ABSENT + "), coalesce(setpoint_hundredths_c, "
                + ABSENT + "), coalesce(segment, " + ABSENT + "), origin, repeat FROM reading WHERE " + condition;
    }

    private static ReadingRow row(ResultSet found) throws SQLException {
        return new ReadingRow(
                found.getLong(1),
                found.getInt(2),
                found.getInt(3),
                found.getInt(4),
                found.getInt(5),
                found.getInt(6),
                found.getInt(7),
                found.getInt(8));
    }

    /** The good temperatures of the guiding channel as a curve. */
    static Trace trace(Connection connection, long firing, ProbeEpochs probes) throws SQLException {
        Trace.Builder curve = new Trace.Builder();
        RememberedTemperatures temperatures = new RememberedTemperatures();
        try (PreparedStatement select = connection.prepareStatement("SELECT elapsed_ms, "
                + pair("thermocouple_code", "coalesce(cold_junction_code, " + ABSENT + ")") + ", "
                + pair(
                        "coalesce(output_hundredths_pct, " + ABSENT + ")",
                        "coalesce(setpoint_hundredths_c, " + ABSENT + ")")
                + " FROM reading WHERE firing = ? AND fault_bits = 0 AND thermocouple_code IS NOT NULL"
                + " ORDER BY elapsed_ms, repeat")) {
            select.setLong(1, firing);
            try (ResultSet lines = select.executeQuery()) {
                Thermometer thermometer = probes.at(1, Long.MIN_VALUE);
                long changesMs = Long.MIN_VALUE;
                while (lines.next()) {
                    long elapsedMs = lines.getLong(1);
                    if (elapsedMs >= changesMs) {
                        thermometer = probes.at(1, elapsedMs);
                        changesMs = probes.nextChangeMs(1, elapsedMs);
                    }
                    OptionalDouble celsius = temperatures.celsius(thermometer, lines.getLong(2));
                    if (celsius.isPresent()) {
                        long report = lines.getLong(3);
                        curve.add(
                                elapsedMs,
                                celsius.getAsDouble(),
                                hundredths((int) (report >> 32), 10_000.0),
                                hundredths((int) report, 100.0));
                    }
                }
            }
        }
        return curve.view();
    }

    /** Two integers of 32 bits as one of 64: half the calls into C, and two thirds of the time. */
    private static String pair(String high, String low) {
        return "(" + high + " << 32) | (" + low + " & 4294967295)";
    }

    private static OptionalDouble hundredths(int code, double divisor) {
        return code == ABSENT ? OptionalDouble.empty() : OptionalDouble.of(code / divisor);
    }

    static long count(Connection connection, long firing) throws SQLException {
        try (PreparedStatement select = connection.prepareStatement("SELECT count(*) FROM reading WHERE firing = ?")) {
            select.setLong(1, firing);
            try (ResultSet found = select.executeQuery()) {
                found.next();
                return found.getLong(1);
            }
        }
    }

    static Extent extent(Connection connection, long firing) throws SQLException {
        long count = count(connection, firing);
        ProbeEpochs probes = new ProbeEpochs(FiringRows.sensors(connection, firing));
        return new Extent(count, newestMs(connection, firing), peak(trace(connection, firing, probes)));
    }

    /** The highest median of three neighbours, so that one false reading is not shown as the peak for years. */
    private static Optional<Peak> peak(Trace curve) {
        Optional<Peak> best = Optional.empty();
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < curve.size(); i++) {
            double before = curve.temperatureC(Math.max(i - 1, 0));
            double here = curve.temperatureC(i);
            double after = curve.temperatureC(Math.min(i + 1, curve.size() - 1));
            double median = Math.max(Math.min(before, here), Math.min(Math.max(before, here), after));
            if (median > highest) {
                highest = median;
                best = Optional.of(new Peak(Temperature.ofCelsius(median), curve.elapsedMs(i)));
            }
        }
        return best;
    }

    /** Remembers what pairs of codes came to, as long as the thermometer stays the same. */
    private static final class RememberedTemperatures {
        private final long[] keys = new long[REMEMBERED];
        private final OptionalDouble[] values = new OptionalDouble[REMEMBERED];
        private Thermometer thermometer;

        /** @param codes the thermocouple's code in the high half, the cold junction's in the low one */
        OptionalDouble celsius(Thermometer current, long codes) {
            if (current != thermometer) {
                Arrays.fill(values, null);
                thermometer = current;
            }
            int thermocouple = (int) (codes >> 32);
            int coldJunction = (int) codes;
            int slot = (thermocouple * 31 + coldJunction) & (REMEMBERED - 1);
            if (values[slot] == null || keys[slot] != codes) {
                keys[slot] = codes;
                Optional<Temperature> temperature = current.temperature(
                        new RawSignal(ReadingRow.known(thermocouple), ReadingRow.known(coldJunction), 0));
                values[slot] = temperature.isPresent()
                        ? OptionalDouble.of(temperature.get().celsius())
                        : OptionalDouble.empty();
            }
            return values[slot];
        }
    }
}
