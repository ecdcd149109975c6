package org.kilnside.files;

import java.io.IOException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.files.CellReader.Kind;
import org.kilnside.files.FileRefusedException.Problem;
import org.kilnside.files.Log.LeftOut;
import org.kilnside.files.Log.Reason;
import org.kilnside.firing.Trace;

/** Reads one log. */
final class CsvLogReader {
    private static final double COLDEST_C = -273.15;
    private static final double HOTTEST_C = 3000;
    private static final double LONGEST_S = 1e10;
    private static final long DAY_MS = 86_400_000L;
    private static final long LONGEST_FIRING_MS = 30 * DAY_MS;
    private static final long SELDOM_MS = 100_000;
    /** A log of which more than this share lies out of order is two logs, or one sorted backwards. */
    private static final double MOST_OUT_OF_ORDER = 0.1;

    /** So many of the hottest readings may be a relay's spikes. */
    private static final int SPIKES = 2;

    private final LineSource lines;
    private final String file;
    private final CellReader cells;

    private final Map<Reason, Integer> counts = new EnumMap<>(Reason.class);
    private final List<LeftOut> examples = new ArrayList<>();
    private int rows;
    private final IgnoredCells ignoredCells = new IgnoredCells();
    private final IgnoredCells ignoredOutputs = new IgnoredCells();
    private final OutputScale outputScale = new OutputScale();

    /** The kept rows: ms of the log's clock, °C, output 0…1, set-point °C, cold junction °C; NaN = not given. */
    private long[] atMs = new long[1024];

    private double[] temperatureC = new double[1024];
    private double[] output = new double[1024];
    private double[] setpointC = new double[1024];
    private double[] coldJunctionC = new double[1024];
    private int[] lineOf = new int[1024];
    private int size;
    private final List<Long> withoutTemperatureMs = new ArrayList<>();
    /** Instant of the log's clock at 0, epoch ms; known once a row gives both, or the instant alone. */
    private Optional<Long> zeroEpochMs = Optional.empty();

    CsvLogReader(LineSource lines, String file, ZoneId zone) {
        this.lines = lines;
        this.file = file;
        this.cells = new CellReader(zone);
    }

    Log read() throws IOException {
        CsvFields fields = header();
        cells.commaMayGroup(fields.separator() == ',');
        CsvHeader header = new CsvHeader(fields, file, lines.number());
        CsvColumns columns = new CsvColumns(header);
        lines.zerosAreDamage();
        while (lines.next()) {
            if (isBlankOrComment()) {
                continue;
            }
            rows++;
            fields.split(lines.line(), lines.length());
            row(fields, columns);
        }
        int[] kept = new TimeOrder(atMs, size).rising();
        noteDropped(kept);
        refuseDisorder();
        if (kept.length < 2) {
            throw tooFew(kept.length);
        }
        if (header.has("elapsed_s")) {
            refuseMilliseconds(kept);
        }
        return log(kept, header);
    }

    private CsvFields header() throws IOException {
        while (lines.next()) {
            char[] line = lines.line();
            if (lines.number() == 1 && lines.length() > 0 && line[0] == '\ufeff') {
                line[0] = ' ';
            }
            String text = new String(line, 0, lines.length()).strip();
            // "sep=;" tells one spreadsheet program how to read the file.
            if (isBlankOrComment() || text.toLowerCase(Locale.ROOT).matches("\"?sep=.\"?")) {
                continue;
            }
            char separator = ',';
            for (char candidate : new char[] {';', '\t'}) {
                if (count(text, candidate) > count(text, separator)) {
                    separator = candidate;
                }
            }
            CsvFields fields = new CsvFields(separator);
            fields.split(line, lines.length());
            return fields;
        }
        throw new FileRefusedException(
                Problem.of(file, "this file is empty, expected a log as CSV text; check that it is the right file"));
    }

    private static long count(String text, char wanted) {
        return text.chars().filter(c -> c == wanted).count();
    }

    private boolean isBlankOrComment() {
        char[] line = lines.line();
        for (int i = 0; i < lines.length(); i++) {
            if (!Character.isWhitespace(line[i])) {
                return line[i] == '#';
            }
        }
        return true;
    }

    private void row(CsvFields fields, CsvColumns columns) {
        for (int i = columns.count; i < fields.count(); i++) {
            if (!fields.isEmpty(i)) {
                leaveOut(Reason.TOO_MANY_FIELDS, lines.number(), Optional.empty());
                return;
            }
        }
        long ms;
        if (columns.elapsed >= 0) {
            if (!number(fields, columns.elapsed, 0)) {
                return;
            }
            if (Math.abs(cells.number()) > LONGEST_S) {
                leaveOut(Reason.IMPOSSIBLE, lines.number(), Optional.of(fields.text(columns.elapsed)));
                return;
            }
            ms = Math.round(cells.number() * 1000);
        } else {
            if (!time(fields, columns.time)) {
                return;
            }
            ms = cells.epochMs();
        }
        if (!number(fields, columns.temperature, 0)) {
            withoutTemperatureMs.add(ms);
            return;
        }
        double celsius = columns.fahrenheit ? (cells.number() - 32) / 1.8 : cells.number();
        if (celsius < COLDEST_C || celsius > HOTTEST_C) {
            leaveOut(Reason.IMPOSSIBLE, lines.number(), Optional.of(fields.text(columns.temperature)));
            withoutTemperatureMs.add(ms);
            return;
        }
        double share = output(fields, columns);
        double wanted = optional(fields, columns, columns.setpoint, HOTTEST_C, columns.setpointFahrenheit);
        double cold = optional(fields, columns, columns.coldJunction, 200, columns.coldJunctionFahrenheit);
        if (columns.elapsed >= 0 && columns.time >= 0 && zeroEpochMs.isEmpty() && !fields.isEmpty(columns.time)) {
            int field = columns.time;
            if (cells.readTime(fields.letters(field), fields.from(field), fields.to(field)) == Kind.NUMBER) {
                zeroEpochMs = Optional.of(cells.epochMs() - ms);
            } else {
                ignoredCells.add(lines.number(), "time", fields.text(field), "a time such as 2026-11-25T06:30:00Z");
            }
        }
        keep(ms, celsius, share, wanted, cold);
    }

    private boolean number(CsvFields fields, int field, int tenths) {
        if (fields.isEmpty(field)) {
            leaveOut(Reason.HOLE, lines.number(), Optional.empty());
            return false;
        }
        return taken(
                cells.readNumber(fields.letters(field), fields.from(field), fields.to(field), tenths), fields, field);
    }

    private boolean time(CsvFields fields, int field) {
        if (fields.isEmpty(field)) {
            leaveOut(Reason.HOLE, lines.number(), Optional.empty());
            return false;
        }
        return taken(cells.readTime(fields.letters(field), fields.from(field), fields.to(field)), fields, field);
    }

    private boolean taken(Kind kind, CsvFields fields, int field) {
        switch (kind) {
            case NUMBER:
                return true;
            case EMPTY:
                leaveOut(Reason.HOLE, lines.number(), Optional.empty());
                return false;
            case NOT_A_NUMBER:
                leaveOut(Reason.NOT_A_NUMBER, lines.number(), Optional.of(fields.text(field)));
                return false;
            default:
                leaveOut(Reason.TEXT, lines.number(), Optional.of(fields.text(field)));
                return false;
        }
    }

    /** The output of a row, 0 … 1; NaN where it is missing, or cannot be read, or lies outside its range. */
    private double output(CsvFields fields, CsvColumns columns) {
        int field = columns.output;
        if (field < 0 || fields.isEmpty(field)) {
            return Double.NaN;
        }
        if (cells.readNumber(fields.letters(field), fields.from(field), fields.to(field), 2) == Kind.NUMBER) {
            double share = cells.number();
            outputScale.saw(share, lines.number());
            if (share >= 0 && share <= 1) {
                return share;
            }
        }
        ignoredOutputs.add(
                lines.number(), columns.header.name(field), fields.text(field), IgnoredCells.range(0, 1, 2, false));
        return Double.NaN;
    }

    /** A temperature that may be missing, °C; NaN when it is, or cannot be read, or lies outside its range. */
    private double optional(CsvFields fields, CsvColumns columns, int field, double highest, boolean fahrenheit) {
        if (field < 0 || fields.isEmpty(field)) {
            return Double.NaN;
        }
        if (cells.readNumber(fields.letters(field), fields.from(field), fields.to(field), 0) == Kind.NUMBER) {
            double value = fahrenheit ? (cells.number() - 32) / 1.8 : cells.number();
            if (value >= COLDEST_C && value <= highest) {
                return value;
            }
        }
        ignoredCells.add(
                lines.number(),
                columns.header.name(field),
                fields.text(field),
                IgnoredCells.range(COLDEST_C, highest, 0, fahrenheit));
        return Double.NaN;
    }

    private void keep(long ms, double celsius, double share, double wanted, double cold) {
        if (size == atMs.length) {
            int larger = 2 * size;
            atMs = Arrays.copyOf(atMs, larger);
            temperatureC = Arrays.copyOf(temperatureC, larger);
            output = Arrays.copyOf(output, larger);
            setpointC = Arrays.copyOf(setpointC, larger);
            coldJunctionC = Arrays.copyOf(coldJunctionC, larger);
            lineOf = Arrays.copyOf(lineOf, larger);
        }
        atMs[size] = ms;
        temperatureC[size] = celsius;
        output[size] = share;
        setpointC[size] = wanted;
        coldJunctionC[size] = cold;
        lineOf[size++] = lines.number();
    }

    private void leaveOut(Reason reason, int line, Optional<String> found) {
        counts.merge(reason, 1, Integer::sum);
        if (examples.size() < Log.Report.MOST_EXAMPLES) {
            examples.add(new LeftOut(line, reason, found));
        }
    }

    private void noteDropped(int[] kept) {
        int next = 0;
        for (int row = 0; row < size; row++) {
            if (next < kept.length && kept[next] == row) {
                next++;
                continue;
            }
            boolean same = next > 0 && atMs[kept[next - 1]] == atMs[row];
            leaveOut(same ? Reason.SAME_TIME : Reason.OUT_OF_ORDER, lineOf[row], Optional.empty());
        }
        examples.sort(Comparator.comparingInt(LeftOut::line));
    }

    private void refuseDisorder() {
        if (counts.getOrDefault(Reason.OUT_OF_ORDER, 0) <= Math.max(2, MOST_OUT_OF_ORDER * size)) {
            return;
        }
        int back = 1;
        int falls = 0;
        for (int row = size - 1; row > 0; row--) {
            if (atMs[row] < atMs[row - 1]) {
                back = row;
                falls++;
            }
        }
        String sentence = falls > size / 2
                ? "time runs backwards from line to line, expected the oldest reading first; sort the file by time"
                : "time runs backwards here and stays behind, expected one recording with rising times; if it holds two"
                        + " recordings, make a file of each";
        throw new FileRefusedException(new Problem(file, lineOf[back], 0, sentence));
    }

    /** Seconds that run over months are milliseconds: a log a reading a second would be a reading in a quarter of an hour. */
    private void refuseMilliseconds(int[] kept) {
        long spanMs = atMs[kept[kept.length - 1]] - atMs[kept[0]];
        if (spanMs > LONGEST_FIRING_MS && spanMs / (kept.length - 1) >= SELDOM_MS) {
            throw new FileRefusedException(new Problem(
                    file,
                    lineOf[kept[1]],
                    0,
                    "elapsed_s runs over " + spanMs / DAY_MS
                            + " days, expected the hours of a firing in seconds; if these are"
                            + " milliseconds, divide them by 1000"));
        }
    }

    private FileRefusedException tooFew(int kept) {
        String found = "found " + kept + (kept == 1 ? " good reading" : " good readings") + " in " + rows
                + (rows == 1 ? " row" : " rows") + ", expected at least 2";
        if (examples.isEmpty()) {
            return new FileRefusedException(Problem.of(file, found + "; check that it is the right file"));
        }
        LeftOut first = examples.get(0);
        String hint = switch (first.reason()) {
            case TOO_MANY_FIELDS -> "separate the columns with \";\" if the numbers have decimal commas";
            case TEXT -> "numbers stand alone in their cells, times are ISO 8601 such as 2026-11-25T06:30:00Z";
            default -> "mend these rows or export the log anew";
        };
        return new FileRefusedException(new Problem(
                file,
                first.line(),
                0,
                found + "; this is the first row " + first.reason().words()
                        + first.found()
                                .map(cell -> ", " + UnitText.quoted(cell))
                                .orElse("") + "; " + hint));
    }

    private Log log(int[] kept, CsvHeader header) {
        boolean instants = !header.has("elapsed_s");
        long zero = instants ? atMs[kept[0]] : 0;
        Trace.Builder trace = new Trace.Builder();
        double[] rising = Arrays.stream(kept)
                .mapToDouble(row -> temperatureC[row])
                .sorted()
                .toArray();
        double hottestC = rising[Math.max(0, rising.length - 1 - SPIKES)];
        Optional<String> noPercentage = outputScale.noPercentage(temperatureC[kept[0]], hottestC);
        double[] cold = new double[kept.length];
        for (int i = 0; i < kept.length; i++) {
            int row = kept[i];
            trace.add(
                    atMs[row] - zero,
                    temperatureC[row],
                    noPercentage.isPresent() ? OptionalDouble.empty() : known(output[row]),
                    known(setpointC[row]));
            cold[i] = coldJunctionC[row];
        }
        List<String> ignored = new ArrayList<>(header.ignored());
        noPercentage.ifPresentOrElse(
                why -> ignored.add("output_pct (" + why + ")"), () -> ignoredCells.addAll(ignoredOutputs));
        Optional<Instant> startedAt = (instants ? Optional.of(zero) : zeroEpochMs).map(Instant::ofEpochMilli);
        return new Log(
                trace.view(),
                index -> known(cold[index]),
                startedAt,
                withoutTemperatureMs.stream().map(ms -> ms - zero).sorted().toList(),
                new Log.Report(rows, counts, examples, ignoredCells.count(), ignoredCells.first(), ignored));
    }

    private static OptionalDouble known(double value) {
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }
}
