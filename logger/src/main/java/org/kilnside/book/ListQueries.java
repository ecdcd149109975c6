package org.kilnside.book;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kilnside.quantity.Temperature;

/** Reads the book's list: everything a person sees of all firings at once, without touching a reading. */
final class ListQueries {
    private ListQueries() {}

    /** All firings, newest first. */
    static List<ListedFiring> list(Connection connection) throws SQLException {
        Map<Long, List<String>> loads = loads(connection);
        List<ListedFiring> all = new ArrayList<>();
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("SELECT f.number, f.kiln, f.plan_name, f.started_at,"
                        + " (SELECT min(e.elapsed_ms) FROM event e WHERE e.firing = f.number AND e.kind = 'FIRING_BEGAN')"
                        + " AS began_ms, f.ended_elapsed_ms, f.reading_count, f.last_elapsed_ms, f.peak_c, f.load_text, f.notes,"
                        + " s.method, s.reading_count AS sketched_count, s.last_elapsed_ms AS sketched_ms, s.highest_c,"
                        + " s.peak_c AS sketched_peak_c, s.cone_past, s.cone_next, s.cone_fraction, s.cone_top, s.cone_series"
                        + " FROM firing f LEFT JOIN sketch s ON s.firing = f.number ORDER BY f.number DESC")) {
            while (row.next()) {
                all.add(listed(connection, row, loads.getOrDefault(row.getLong("number"), List.of())));
            }
        }
        return all;
    }

    private static ListedFiring listed(Connection connection, ResultSet row, List<String> load) throws SQLException {
        long number = row.getLong("number");
        OptionalLong ended = FiringRows.number(row, "ended_elapsed_ms");
        OptionalLong count = FiringRows.number(row, "reading_count");
        OptionalLong last = count.isPresent()
                ? FiringRows.number(row, "last_elapsed_ms")
                : FiringQueries.newestMs(connection, number);
        // From when heat began, as the firing's own page counts.
        long beganMs = FiringRows.number(row, "began_ms").orElse(0);
        Optional<CurveSketch> sketch = SketchRows.sketch(row, "sketched_ms", "sketched_peak_c");
        boolean upToDate = sketch.isPresent()
                && row.getInt("method") == SketchRows.METHOD
                && count.isPresent()
                && count.getAsLong() == row.getLong("sketched_count");
        double peakC = row.getDouble("peak_c");
        Optional<Temperature> peak =
                row.wasNull() ? sketch.flatMap(CurveSketch::peak) : Optional.of(Temperature.ofCelsius(peakC));
        Optional<String> loadText = FiringRows.text(row, "load_text").filter(text -> !text.isBlank());
        Optional<String> kiln = FiringRows.text(row, "kiln");
        Optional<String> plan = FiringRows.text(row, "plan_name");
        Optional<String> notes = FiringRows.text(row, "notes");
        return new ListedFiring(
                number,
                kiln,
                plan,
                FiringRows.instant(row, "started_at"),
                Duration.ofMillis(Math.max(0, ended.orElse(last.orElse(0)) - beganMs)),
                peak,
                ended.isPresent(),
                sketch,
                upToDate,
                load.isEmpty() ? loadText : Optional.of(load.get(0)),
                Stream.of(kiln, plan, notes, loadText, load.stream().reduce((a, b) -> a + "\n" + b))
                        .flatMap(Optional::stream)
                        .collect(Collectors.joining("\n"))
                        .toLowerCase(Locale.ROOT));
    }

    /** For each firing: its batches in few words, then all that is written of them. */
    private static Map<Long, List<String>> loads(Connection connection) throws SQLException {
        Map<Long, List<String>> names = new HashMap<>();
        Map<Long, List<String>> rest = new HashMap<>();
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("SELECT l.firing, l.pieces, b.name, coalesce(b.clay, ''),"
                        + " coalesce(l.glaze, ''), coalesce(l.shelf, ''), coalesce(l.remark, ''),"
                        + " coalesce((SELECT group_concat(p.name, ' ') FROM glaze_part p"
                        + " WHERE p.loaded_batch = l.number), '')"
                        + " FROM loaded_batch l JOIN batch b ON b.number = l.batch ORDER BY l.firing, l.number")) {
            while (row.next()) {
                long firing = row.getLong(1);
                OptionalLong pieces = FiringRows.number(row, "pieces");
                names.computeIfAbsent(firing, key -> new ArrayList<>())
                        .add(pieces.isPresent() ? pieces.getAsLong() + " " + row.getString(3) : row.getString(3));
                List<String> words = rest.computeIfAbsent(firing, key -> new ArrayList<>());
                for (int column = 4; column <= 8; column++) {
                    words.add(row.getString(column));
                }
            }
        }
        Map<Long, List<String>> loads = new HashMap<>();
        names.forEach((firing, its) ->
                loads.put(firing, List.of(String.join(", ", its), String.join("\n", rest.get(firing)))));
        return loads;
    }

    /** A number that changes with whatever the list shows, but for the newest reading of a firing going on. */
    static long changes(Connection connection) throws SQLException {
        try (PreparedStatement select = connection.prepareStatement("SELECT count(*), coalesce(max(number), 0),"
                        + " coalesce(sum(edits), 0), count(ended_elapsed_ms), coalesce(sum(reading_count), 0)"
                        + " FROM firing");
                ResultSet found = select.executeQuery()) {
            found.next();
            long sum = 17;
            for (int column = 1; column <= 5; column++) {
                sum = sum * 1_000_003 + found.getLong(column);
            }
            return sum;
        }
    }
}
