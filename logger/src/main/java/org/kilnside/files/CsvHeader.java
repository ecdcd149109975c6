package org.kilnside.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.kilnside.files.FileRefusedException.Problem;

/** Which column of a log is what. */
final class CsvHeader {
    static final List<String> KNOWN = List.of(
            "elapsed_s",
            "time",
            "temp_c",
            "temp_f",
            "output_pct",
            "setpoint_c",
            "setpoint_f",
            "cold_junction_c",
            "cold_junction_f");
    private static final Map<String, String> WORDS = Map.ofEntries(
            Map.entry("seconds", "elapsed_s"),
            Map.entry("elapsed", "elapsed_s"),
            Map.entry("time_s", "elapsed_s"),
            Map.entry("t_s", "elapsed_s"),
            Map.entry("t", "elapsed_s"),
            Map.entry("timestamp", "time"),
            Map.entry("date", "time"),
            Map.entry("datetime", "time"),
            Map.entry("temperature", "temp_c"),
            Map.entry("temp", "temp_c"),
            Map.entry("output", "output_pct"),
            Map.entry("setpoint", "setpoint_c"));
    /** Temperatures that no reading of a log has, by the name of their column. */
    private static final String IN_KELVIN = "(t|temp|temperature)?[_ (\\[]*(k|kelvin)[)\\]]?";

    private static final String DO = "; the first line names the columns, such as elapsed_s,temp_c";

    private final Map<String, Integer> columns = new LinkedHashMap<>();
    private final List<String> ignored = new ArrayList<>();
    private final int count;

    /** @throws FileRefusedException when the line does not name a time and a temperature */
    CsvHeader(CsvFields fields, String file, int line) {
        count = fields.count();
        boolean numbers = false;
        for (int i = 0; i < count; i++) {
            String found = fields.text(i);
            String name = found.toLowerCase(Locale.ROOT);
            numbers |= name.matches("[+-]?[0-9].*");
            if (!KNOWN.contains(name)) {
                if (!found.isEmpty()) {
                    ignored.add(found);
                }
            } else if (columns.putIfAbsent(name, i) != null) {
                throw refused(file, line, "the header names \"" + name + "\" twice; remove or rename one of the two");
            }
        }
        if (columns.isEmpty() && numbers) {
            throw refused(
                    file,
                    line,
                    "the log has no header: found " + firstFields(fields) + " where the columns'" + " names should be"
                            + DO);
        }
        if (columns.isEmpty() && count < 2) {
            throw refused(file, line, "this is no log: found " + firstFields(fields) + ", expected a header" + DO);
        }
        boolean both = (has("elapsed_s") || has("time")) && (has("temp_c") || has("temp_f"));
        if (!both) {
            String missing = has("elapsed_s") || has("time")
                    ? "a temperature, temp_c or temp_f"
                    : "a time, elapsed_s (seconds) or time (ISO 8601)";
            throw refused(
                    file,
                    line,
                    "the header does not name " + missing + ": found " + firstFields(fields) + DO + nearest());
        }
        dropDoubles("temp_c", "temp_f");
        dropDoubles("setpoint_c", "setpoint_f");
        dropDoubles("cold_junction_c", "cold_junction_f");
    }

    /** The column of a name; negative when there is none. */
    int column(String name) {
        return columns.getOrDefault(name, -1);
    }

    boolean has(String name) {
        return columns.containsKey(name);
    }

    /** The name of a column that is used. */
    String name(int column) {
        return columns.entrySet().stream()
                .filter(each -> each.getValue() == column)
                .map(Map.Entry::getKey)
                .findFirst()
                .orElseThrow();
    }

    int count() {
        return count;
    }

    /** Columns that are there and not used. */
    List<String> ignored() {
        return List.copyOf(ignored);
    }

    private void dropDoubles(String taken, String dropped) {
        if (has(taken) && columns.remove(dropped) != null) {
            ignored.add(dropped);
        }
    }

    private String nearest() {
        for (String name : ignored) {
            if (!has("temp_c")
                    && !has("temp_f")
                    && name.toLowerCase(Locale.ROOT).matches(IN_KELVIN)) {
                return "; " + UnitText.quoted(name)
                        + " looks like kelvin: take 273.15 from each number and name the column temp_c";
            }
            Optional<String> near = Optional.ofNullable(WORDS.get(name.toLowerCase(Locale.ROOT)))
                    .or(() -> NearMatch.of(name, KNOWN))
                    .filter(candidate -> !has(candidate));
            if (near.isPresent()) {
                return "; did you mean \"" + near.get() + "\" by " + UnitText.quoted(name) + "?";
            }
        }
        return "";
    }

    private static String firstFields(CsvFields fields) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < Math.min(4, fields.count()); i++) {
            text.append(i == 0 ? "" : String.valueOf(fields.separator())).append(fields.text(i));
        }
        return UnitText.quoted(text.append(fields.count() > 4 ? " …" : "").toString());
    }

    private static FileRefusedException refused(String file, int line, String sentence) {
        return new FileRefusedException(new Problem(file, line, 0, sentence));
    }
}
