package org.kilnside.book;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.firing.GlazeMix;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.firing.Outcome;

/** Reads what people have written into a firing's record. */
final class RecordRows {
    private static final String LOADED = "SELECT l.number, l.firing, l.batch, b.name, l.pieces, b.clay,"
            + " b.thickness_mm, l.glaze, l.coats, l.shelf, l.outcome, l.remark"
            + " FROM loaded_batch l JOIN batch b ON b.number = l.batch";

    private RecordRows() {}

    static WrittenRecord of(Connection connection, long firing) throws SQLException {
        try (PreparedStatement select =
                connection.prepareStatement("SELECT notes, load_text, edits FROM firing WHERE number = ?")) {
            select.setLong(1, firing);
            try (ResultSet row = select.executeQuery()) {
                if (!row.next()) {
                    return WrittenRecord.EMPTY;
                }
                return new WrittenRecord(
                        FiringRows.text(row, "notes"),
                        FiringRows.text(row, "load_text"),
                        load(connection, firing),
                        WitnessRows.of(connection, firing),
                        photos(connection, firing),
                        row.getLong("edits"));
            }
        }
    }

    private static List<LoadedBatch> load(Connection connection, long firing) throws SQLException {
        List<LoadedBatch> load = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(LOADED + " WHERE l.firing = ? ORDER BY l.number")) {
            select.setLong(1, firing);
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    load.add(loaded(row, mix(connection, row.getLong("number"))));
                }
            }
        }
        return load;
    }

    static Optional<LoadedBatch> loaded(Connection connection, long number) throws SQLException {
        try (PreparedStatement select = connection.prepareStatement(LOADED + " WHERE l.number = ?")) {
            select.setLong(1, number);
            try (ResultSet row = select.executeQuery()) {
                return row.next() ? Optional.of(loaded(row, mix(connection, number))) : Optional.empty();
            }
        }
    }

    private static GlazeMix mix(Connection connection, long loaded) throws SQLException {
        List<GlazeMix.Part> parts = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(
                "SELECT name, parts FROM glaze_part WHERE loaded_batch = ? ORDER BY position")) {
            select.setLong(1, loaded);
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    parts.add(new GlazeMix.Part(row.getString(1), row.getDouble(2)));
                }
            }
        }
        return new GlazeMix(parts);
    }

    private static LoadedBatch loaded(ResultSet row, GlazeMix mix) throws SQLException {
        double thickness = row.getDouble("thickness_mm");
        OptionalDouble thicknessMm = row.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(thickness);
        return new LoadedBatch(
                row.getLong("number"),
                row.getLong("batch"),
                row.getString("name"),
                whole(row, "pieces"),
                FiringRows.text(row, "clay"),
                thicknessMm,
                FiringRows.text(row, "glaze"),
                mix,
                whole(row, "coats"),
                FiringRows.text(row, "shelf"),
                outcome(row.getString("outcome")),
                FiringRows.text(row, "remark"));
    }

    private static OptionalInt whole(ResultSet row, String column) throws SQLException {
        OptionalLong value = FiringRows.number(row, column);
        return value.isPresent() ? OptionalInt.of((int) value.getAsLong()) : OptionalInt.empty();
    }

    /** A later program may know more of them: what this one does not know it does not say. */
    private static Outcome outcome(String name) {
        for (Outcome outcome : Outcome.values()) {
            if (outcome.name().equals(name)) {
                return outcome;
            }
        }
        return Outcome.NOT_SAID;
    }

    private static List<StoredPhoto> photos(Connection connection, long firing) throws SQLException {
        List<StoredPhoto> photos = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement("SELECT number, name, thumbnail FROM photo"
                + " WHERE firing = ? AND taken_out_at IS NULL ORDER BY number")) {
            select.setLong(1, firing);
            try (ResultSet row = select.executeQuery()) {
                while (row.next()) {
                    photos.add(new StoredPhoto(row.getLong(1), row.getString(2), row.getBytes(3)));
                }
            }
        }
        return photos;
    }

    static Optional<byte[]> picture(Connection connection, long photo) throws SQLException {
        try (PreparedStatement select =
                connection.prepareStatement("SELECT picture FROM photo WHERE number = ? AND taken_out_at IS NULL")) {
            select.setLong(1, photo);
            try (ResultSet row = select.executeQuery()) {
                return row.next() ? Optional.of(row.getBytes(1)) : Optional.empty();
            }
        }
    }

    /** Every batch that has been in a firing, the one last put in first. */
    static List<KnownBatch> batches(Connection connection) throws SQLException {
        Map<Long, LoadedBatch> newest = new LinkedHashMap<>();
        Map<Long, List<Long>> firings = new HashMap<>();
        try (PreparedStatement select = connection.prepareStatement(LOADED + " ORDER BY l.firing DESC, l.number DESC");
                ResultSet row = select.executeQuery()) {
            while (row.next()) {
                long batch = row.getLong("batch");
                if (!newest.containsKey(batch)) {
                    newest.put(batch, loaded(row, mix(connection, row.getLong("number"))));
                }
                List<Long> its = firings.computeIfAbsent(batch, key -> new ArrayList<>());
                if (!its.contains(row.getLong("firing"))) {
                    its.add(0, row.getLong("firing"));
                }
            }
        }
        List<KnownBatch> batches = new ArrayList<>();
        newest.forEach((batch, loaded) -> batches.add(new KnownBatch(loaded, firings.get(batch))));
        return batches;
    }
}
