package org.kilnside.book;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.book.BookException.Reason;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.WitnessOffset;

/** Reads and writes witness cones, and the copies of what they say. */
final class WitnessRows {
    private WitnessRows() {}

    /** A firing's cones, in the order they were noted. */
    static List<NotedCone> of(Connection connection, long firing) throws SQLException {
        List<NotedCone> cones = new ArrayList<>();
        try (PreparedStatement select =
                connection.prepareStatement("SELECT * FROM witness_cone WHERE firing = ? ORDER BY number")) {
            select.setLong(1, firing);
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    cones.add(cone(row));
                }
            }
        }
        return cones;
    }

    static Optional<NotedCone> cone(Connection connection, long number) throws SQLException {
        try (PreparedStatement select = connection.prepareStatement("SELECT * FROM witness_cone WHERE number = ?")) {
            select.setLong(1, number);
            try (ResultSet row = select.executeQuery()) {
                return row.next() ? Optional.of(cone(row)) : Optional.empty();
            }
        }
    }

    private static NotedCone cone(ResultSet row) throws SQLException {
        double degrees = row.getDouble("bent_degrees");
        OptionalDouble bent = row.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(degrees);
        try {
            return new NotedCone(
                    row.getLong("number"),
                    row.getString("shelf"),
                    FiringRows.series(row, "series"),
                    Cone.parse(row.getString("cone")),
                    bent,
                    FiringRows.number(row, "seen_down_elapsed_ms"));
        } catch (IllegalArgumentException e) {
            throw new BookException(
                    Reason.DAMAGED, "The firing book has a witness cone that is none: " + e.getMessage() + ".", e);
        }
    }

    /** A series as the book writes it. */
    static String word(ConeSeries series) {
        return series.name().toLowerCase(Locale.ROOT);
    }

    static void insert(Connection connection, long firing, NotedCone cone) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("INSERT INTO witness_cone (number, firing, shelf,"
                + " series, cone, bent_degrees, seen_down_elapsed_ms) VALUES (?, ?, ?, ?, ?, ?, ?)")) {
            insert.setLong(1, cone.number());
            insert.setLong(2, firing);
            insert.setString(3, cone.shelf());
            insert.setString(4, word(cone.series()));
            insert.setString(5, cone.cone().number());
            if (cone.degrees().isPresent()) {
                insert.setDouble(6, cone.degrees().getAsDouble());
            } else {
                insert.setNull(6, Types.REAL);
            }
            if (cone.seenDownMs().isPresent()) {
                insert.setLong(7, cone.seenDownMs().getAsLong());
            } else {
                insert.setNull(7, Types.INTEGER);
            }
            insert.executeUpdate();
        }
    }

    static void delete(Connection connection, long number) throws SQLException {
        execute(connection, "DELETE FROM witness_cone WHERE number = ?", number);
    }

    /** What a firing's cones said is to be worked out anew. */
    static void forgetOffset(Connection connection, long firing) throws SQLException {
        execute(connection, "DELETE FROM witness_offset WHERE firing = ?", firing);
    }

    /** What the cones of a sensor's firings said is to be worked out anew. */
    static void forgetOffsetsOf(Connection connection, long sensor) throws SQLException {
        execute(connection, "DELETE FROM witness_offset WHERE sensor = ?", sensor);
    }

    static void store(Connection connection, long firing, long sensor, WitnessOffset offset) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("INSERT OR REPLACE INTO witness_offset (firing,"
                + " sensor, correction_k, half_width_k, at_c, disagree) VALUES (?, ?, ?, ?, ?, ?)")) {
            insert.setLong(1, firing);
            insert.setLong(2, sensor);
            insert.setDouble(3, offset.correctionK());
            insert.setDouble(4, offset.halfWidthK());
            insert.setDouble(5, offset.atC());
            insert.setInt(6, offset.disagree() ? 1 : 0);
            insert.executeUpdate();
        }
    }

    private static void execute(Connection connection, String sql, long number) throws SQLException {
        try (PreparedStatement statement = connection.prepareStatement(sql)) {
            statement.setLong(1, number);
            statement.executeUpdate();
        }
    }
}
