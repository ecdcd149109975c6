package org.kilnside.book;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.book.BookException.Reason;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.ToleranceClass;

/** Reads what stands in the kilns to read their temperature, and what is known of it. */
final class SensorRows {
    private SensorRows() {}

    static List<FittedSensor> of(Connection connection, String kiln) throws SQLException {
        List<FittedSensor> sensors = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(
                "SELECT * FROM sensor WHERE kiln = ? ORDER BY channel, fitted_at, number")) {
            select.setString(1, kiln);
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    sensors.add(sensor(row));
                }
            }
        }
        return sensors;
    }

    static Optional<FittedSensor> sensor(Connection connection, long number) throws SQLException {
        try (PreparedStatement select = connection.prepareStatement("SELECT * FROM sensor WHERE number = ?")) {
            select.setLong(1, number);
            try (ResultSet row = select.executeQuery()) {
                return row.next() ? Optional.of(sensor(row)) : Optional.empty();
            }
        }
    }

    private static FittedSensor sensor(ResultSet row) throws SQLException {
        Probe probe = new Probe(
                known(ThermocoupleType.class, row, "thermocouple_type"), known(Amplifier.class, row, "amplifier"));
        Optional<Amplifier> uncorrected = row.getString("uncorrected") == null
                ? Optional.empty()
                : Optional.of(known(Amplifier.class, row, "uncorrected"));
        return new FittedSensor(
                row.getLong("number"),
                row.getString("kiln"),
                row.getInt("channel"),
                new SensorInPlace(
                        probe,
                        row.getString("name"),
                        row.getString("place"),
                        ToleranceClass.values()[row.getInt("tolerance_class") - 1],
                        uncorrected,
                        Calibration.NONE),
                FiringRows.instant(row, "fitted_at"),
                row.getString("removed_at") == null
                        ? Optional.empty()
                        : Optional.of(FiringRows.instant(row, "removed_at")));
    }

    static List<ComparedPoint> points(Connection connection, long sensor) throws SQLException {
        List<ComparedPoint> points = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(
                "SELECT * FROM calibration_point WHERE sensor = ? ORDER BY found_at, number")) {
            select.setLong(1, sensor);
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    points.add(point(row));
                }
            }
        }
        return points;
    }

    static Optional<ComparedPoint> point(Connection connection, long number) throws SQLException {
        try (PreparedStatement select =
                connection.prepareStatement("SELECT * FROM calibration_point WHERE number = ?")) {
            select.setLong(1, number);
            try (ResultSet row = select.executeQuery()) {
                return row.next() ? Optional.of(point(row)) : Optional.empty();
            }
        }
    }

    private static ComparedPoint point(ResultSet row) throws SQLException {
        double readingC = row.getDouble("reading_c");
        OptionalDouble reading = row.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(readingC);
        return new ComparedPoint(
                row.getLong("number"),
                row.getLong("sensor"),
                reading,
                row.getDouble("correction_k"),
                row.getDouble("half_width_k"),
                known(Calibration.By.class, row, "compared_with"),
                FiringRows.instant(row, "found_at"));
    }

    /** What a firing's cones said of its sensor, where that has been worked out. */
    static Optional<WitnessOffset> offset(Connection connection, long firing) throws SQLException {
        try (PreparedStatement select = connection.prepareStatement("SELECT * FROM witness_offset WHERE firing = ?")) {
            select.setLong(1, firing);
            try (ResultSet row = select.executeQuery()) {
                return row.next()
                        ? Optional.of(new WitnessOffset(
                                row.getDouble("correction_k"),
                                row.getDouble("half_width_k"),
                                row.getDouble("at_c"),
                                row.getInt("disagree") == 1))
                        : Optional.empty();
            }
        }
    }

    /** The ended firings of a kiln within a time that have witness cones, oldest first. */
    static List<Long> firingsWithCones(Connection connection, String kiln, Instant from, Optional<Instant> to)
            throws SQLException {
        List<Long> firings = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(
                "SELECT number FROM firing WHERE kiln = ? AND ended_elapsed_ms IS NOT NULL AND started_at >= ?"
                        + " AND (? IS NULL OR started_at < ?)"
                        + " AND number IN (SELECT firing FROM witness_cone) ORDER BY started_at, number")) {
            select.setString(1, kiln);
            select.setString(2, from.toString());
            select.setString(3, to.map(Instant::toString).orElse(null));
            select.setString(4, to.map(Instant::toString).orElse(null));
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    firings.add(row.getLong(1));
                }
            }
        }
        return firings;
    }

    /** Ended firings of a kiln before one, the newest first. */
    static List<Long> firingsBefore(Connection connection, String kiln, long firing, int most) throws SQLException {
        List<Long> firings = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement("SELECT number FROM firing WHERE kiln = ?"
                + " AND ended_elapsed_ms IS NOT NULL AND number < ? ORDER BY number DESC LIMIT ?")) {
            select.setString(1, kiln);
            select.setLong(2, firing);
            select.setInt(3, most);
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    firings.add(row.getLong(1));
                }
            }
        }
        return firings;
    }

    /** Whether a firing of a kiln began at this very moment. */
    static boolean beginsWithAFiring(Connection connection, String kiln, Instant at) throws SQLException {
        try (PreparedStatement select =
                connection.prepareStatement("SELECT 1 FROM firing WHERE kiln = ? AND started_at = ?")) {
            select.setString(1, kiln);
            select.setString(2, at.toString());
            try (ResultSet row = select.executeQuery()) {
                return row.next();
            }
        }
    }

    /** Sums over all that what is known of a kiln's sensors rests on; cheap, as none of the tables is long. */
    static String changes(Connection connection, String kiln) throws SQLException {
        try (PreparedStatement select = connection.prepareStatement(
                "SELECT coalesce((SELECT group_concat(number || fitted_at || coalesce(removed_at, '') || place || name"
                        + " || coalesce(uncorrected, '')) FROM sensor WHERE kiln = ?), '') || '/' ||"
                        + " coalesce((SELECT group_concat(number || ':' || sensor || ':' || correction_k || ':' ||"
                        + " half_width_k) FROM calibration_point), '') || '/' ||"
                        + " (SELECT count(*) || ':' || total(number) || ':' || total(bent_degrees) || ':' ||"
                        + " total(seen_down_elapsed_ms) FROM witness_cone) || '/' ||"
                        + " (SELECT count(*) FROM firing WHERE kiln = ? AND ended_elapsed_ms IS NOT NULL)")) {
            select.setString(1, kiln);
            select.setString(2, kiln);
            try (ResultSet row = select.executeQuery()) {
                row.next();
                return row.getString(1);
            }
        }
    }

    private static <E extends Enum<E>> E known(Class<E> kind, ResultSet row, String column) throws SQLException {
        String word = row.getString(column);
        try {
            return Enum.valueOf(kind, word);
        } catch (IllegalArgumentException e) {
            throw new BookException(
                    Reason.NEWER,
                    "The firing book knows a sensor in a way this Kilnside does not (" + column + " " + word
                            + "): read it with the program that wrote it.",
                    e);
        }
    }
}
