package org.kilnside.files;

import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.StringJoiner;
import org.kilnside.firing.Trace;

/**
 * A log file's content.
 *
 * @param trace the curve; times are the file's own elapsed seconds, or count from its first reading where it has
 *     instants alone
 * @param coldJunction the cold-junction column; every value empty when the file has none
 * @param startedAt the instant at elapsed time 0; empty when the file does not say
 * @param withoutTemperature when the file has a row but no temperature in it: on the trace's clock, ms, rising. The
 *     controller spoke and its sensor gave nothing
 * @param report what was left out, and why
 */
public record Log(
        Trace trace,
        ColdJunction coldJunction,
        Optional<Instant> startedAt,
        List<Long> withoutTemperature,
        Report report) {
    public Log {
        withoutTemperature = List.copyOf(withoutTemperature);
    }

    /** °C at the amplifier's terminals, reading by reading, beside the trace. */
    public interface ColdJunction {
        /** The value at a reading of the trace; empty when the file does not say. */
        OptionalDouble celsius(int index);
    }

    /** Why a row was left out. */
    public enum Reason {
        /** No time, or no temperature. */
        HOLE("with a hole"),
        /** Text where a number or a time should be. */
        TEXT("with text where a number or a time should be"),
        /** NaN or infinity. */
        NOT_A_NUMBER("with NaN or infinity"),
        /** A temperature below absolute zero or above 3000 °C, or a time beyond three hundred years. */
        IMPOSSIBLE("with an impossible number"),
        /** More fields than the header names: a decimal comma in a file separated by commas. */
        TOO_MANY_FIELDS("with more fields than the header"),
        /** The time of the row before. */
        SAME_TIME("with the time of the row before"),
        /** A time that does not fit between the rows around it. */
        OUT_OF_ORDER("out of order in time");

        private final String words;

        Reason(String words) {
            this.words = words;
        }

        String words() {
            return words;
        }
    }

    /**
     * One row that was left out.
     *
     * @param line its line in the file, counted from 1
     * @param found the cell that is to blame; empty when it is the whole row
     */
    public record LeftOut(int line, Reason reason, Optional<String> found) {}

    /**
     * A cell of another column than time and temperature that cannot be used; its row is kept.
     *
     * @param line its line in the file, counted from 1
     * @param column its name in the header
     * @param expected in words
     */
    public record IgnoredCell(int line, String column, String found, String expected) {}

    /**
     * What was made of the rows.
     *
     * @param rows rows of readings in the file, good or not
     * @param counts how many were left out for each reason
     * @param examples the first rows left out, in the file's order; at most {@link #MOST_EXAMPLES}
     * @param ignoredCells cells of other columns than time and temperature that cannot be used; their rows are kept
     * @param firstIgnored the first of these
     * @param ignoredColumns columns in the header that were not used
     */
    public record Report(
            int rows,
            Map<Reason, Integer> counts,
            List<LeftOut> examples,
            int ignoredCells,
            Optional<IgnoredCell> firstIgnored,
            List<String> ignoredColumns) {
        public static final int MOST_EXAMPLES = 100;

        public Report {
            counts = Map.copyOf(counts);
            examples = List.copyOf(examples);
            ignoredColumns = List.copyOf(ignoredColumns);
        }

        public int leftOut() {
            return counts.values().stream().mapToInt(Integer::intValue).sum();
        }

        /** One plain sentence for a person; empty when every row and every column was used. */
        public Optional<String> sentence() {
            StringJoiner parts = new StringJoiner("; ");
            if (leftOut() > 0) {
                StringJoiner reasons = new StringJoiner(", ");
                new EnumMap<>(counts)
                        .forEach((reason, count) -> reasons.add(count + " " + reason.words() + lines(reason, count)));
                parts.add(leftOut() + " of " + rows + " rows were left out: " + reasons);
            }
            firstIgnored.ifPresent(cell ->
                    parts.add((ignoredCells == 1 ? "1 cell counts" : ignoredCells + " cells count") + " as not given: "
                            + (ignoredCells == 1 ? "" : "the first is ") + cell.column() + " in line " + cell.line()
                            + ", found " + UnitText.quoted(cell.found()) + ", expected " + cell.expected()));
            if (!ignoredColumns.isEmpty()) {
                parts.add((ignoredColumns.size() == 1 ? "the column " : "the columns ")
                        + String.join(", ", ignoredColumns)
                        + (ignoredColumns.size() == 1 ? " was" : " were") + " not used");
            }
            return parts.length() == 0 ? Optional.empty() : Optional.of(parts.toString());
        }

        private String lines(Reason reason, int count) {
            List<String> numbers = examples.stream()
                    .filter(example -> example.reason() == reason)
                    .limit(3)
                    .map(example -> Integer.toString(example.line()))
                    .toList();
            if (numbers.isEmpty()) {
                return "";
            }
            return (count == 1 ? " (line " : " (lines ")
                    + String.join(", ", numbers)
                    + (count > numbers.size() ? ", …)" : ")");
        }
    }
}
