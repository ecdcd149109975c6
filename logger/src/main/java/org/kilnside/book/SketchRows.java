package org.kilnside.book;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.quantity.Temperature;

/** Works a firing's sketch out from its readings, and looks after it in the book. */
final class SketchRows {
    /** Counted up whenever curve or cone are worked out in another way: older sketches are then made anew. */
    static final int METHOD = 3;

    private SketchRows() {}

    /** The sketch of a firing as its readings are now, and its sensor is known by now. */
    static CurveSketch workOut(KilnHistory history, long firing) {
        Trace good = history.curve(firing);
        return CurveSketch.of(
                good,
                history.coneOf(firing, good)
                        .map(reached -> new CurveSketch.Cone(reached.series(), reached.cone(), reached.top())));
    }

    /** A firing has other witness cones: they decide by which kind it is judged, and say more of its kiln's sensor. */
    static void outdate(Connection connection, long firing) throws SQLException {
        try (PreparedStatement update = connection.prepareStatement("UPDATE sketch SET method = 0 WHERE firing = ?1 OR"
                + " firing IN (SELECT number FROM firing WHERE kiln = (SELECT kiln FROM firing WHERE number = ?1))")) {
            update.setLong(1, firing);
            update.executeUpdate();
        }
    }

    /**
     * More is known of a kiln's sensors: what its sketches show is no longer the best that can be said. They are shown
     * until they are made anew, as a list without its curves says less.
     */
    static void outdateOfKiln(Connection connection, String kiln) throws SQLException {
        try (PreparedStatement update = connection.prepareStatement(
                "UPDATE sketch SET method = 0 WHERE firing IN (SELECT number FROM firing WHERE kiln = ?)")) {
            update.setString(1, kiln);
            update.executeUpdate();
        }
    }

    /** Keeps a sketch; what stood there before is replaced. Readings that came meanwhile make it out of date at once. */
    static void store(Connection connection, long firing, CurveSketch sketch, long readingCount) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("INSERT OR REPLACE INTO sketch (firing, method,"
                + " reading_count, last_elapsed_ms, highest_c, peak_c, cone_past, cone_next, cone_fraction, cone_top,"
                + " cone_series) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")) {
            insert.setLong(1, firing);
            insert.setInt(2, METHOD);
            insert.setLong(3, readingCount);
            insert.setLong(4, sketch.lengthMs());
            insert.setBytes(5, sketch.bytes());
            if (sketch.peak().isPresent()) {
                insert.setDouble(6, sketch.peak().get().celsius());
            } else {
                insert.setNull(6, Types.REAL);
            }
            Optional<ConePosition> position = sketch.cone().map(CurveSketch.Cone::position);
            insert.setString(
                    7, position.flatMap(ConePosition::past).map(Cone::number).orElse(null));
            insert.setString(
                    8, position.flatMap(ConePosition::next).map(Cone::number).orElse(null));
            OptionalDouble fraction = position.map(ConePosition::fraction).orElse(OptionalDouble.empty());
            if (fraction.isPresent()) {
                insert.setDouble(9, fraction.getAsDouble());
            } else {
                insert.setNull(9, Types.REAL);
            }
            insert.setString(10, sketch.cone().map(cone -> cone.top().name()).orElse(null));
            insert.setString(
                    11,
                    sketch.cone().map(cone -> WitnessRows.word(cone.series())).orElse(null));
            insert.executeUpdate();
        }
    }

    /** The sketch in a row that has its columns; empty where there is none. */
    static Optional<CurveSketch> sketch(ResultSet row, String lengthColumn, String peakColumn) throws SQLException {
        byte[] highest = row.getBytes("highest_c");
        if (highest == null) {
            return Optional.empty();
        }
        double peakC = row.getDouble(peakColumn);
        Optional<Temperature> peak = row.wasNull() ? Optional.empty() : Optional.of(Temperature.ofCelsius(peakC));
        return Optional.of(CurveSketch.ofBytes(row.getLong(lengthColumn), highest, peak, cone(row)));
    }

    private static Optional<CurveSketch.Cone> cone(ResultSet row) throws SQLException {
        Optional<ConeReached.Top> top = FiringRows.text(row, "cone_top").flatMap(SketchRows::top);
        if (top.isEmpty()) {
            return Optional.empty();
        }
        double fraction = row.getDouble("cone_fraction");
        OptionalDouble known = row.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(fraction);
        return Optional.of(new CurveSketch.Cone(
                FiringRows.series(row, "cone_series"),
                new ConePosition(
                        FiringRows.text(row, "cone_past").flatMap(Cone::find),
                        FiringRows.text(row, "cone_next").flatMap(Cone::find),
                        known),
                top.get()));
    }

    private static Optional<ConeReached.Top> top(String name) {
        for (ConeReached.Top top : ConeReached.Top.values()) {
            if (top.name().equals(name)) {
                return Optional.of(top);
            }
        }
        return Optional.empty();
    }
}
