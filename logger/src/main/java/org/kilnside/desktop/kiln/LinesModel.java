package org.kilnside.desktop.kiln;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.kilnside.session.Connection.State;
import org.kilnside.session.LineView;
import org.kilnside.session.LineView.Sort;
import org.kilnside.session.LineView.Verdict;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;

/**
 * What the live line view says.
 *
 * @param sentence how the connection stands and how often lines come
 * @param trouble whether that needs a person
 * @param newest how old the newest line is; empty before the first
 * @param rows the last lines, oldest first
 * @param tallies how many lines there were of each sort, good ones first
 * @param advice what the spoilt lines of late most likely mean; empty when hardly any is spoilt
 */
record LinesModel(
        String sentence, boolean trouble, String newest, List<Row> rows, List<Tally> tallies, Optional<String> advice) {
    /** Lines from which it is said how often they come. */
    private static final int RATE_LINES = 20;

    /** Lines of late, in which a few spoilt ones are worth a word. */
    private static final int LATE = 60;

    private static final int FEW = 3;
    private static final double WORTH_A_WORD = 0.05;

    LinesModel {
        rows = List.copyOf(rows);
        tallies = List.copyOf(tallies);
    }

    /**
     * A line.
     *
     * @param number counts all lines since the connection was made
     * @param when how long ago it came
     * @param mark the sign of its sort, so that colour is not needed
     * @param verdict what became of it
     * @param text the line itself
     * @param why what that means and what to do about it
     */
    record Row(long number, String when, String mark, String verdict, String text, Sort sort, String why) {}

    /** How many lines of a sort came, and of which verdicts. */
    record Tally(Sort sort, String mark, String title, String count, List<Part> parts) {
        Tally {
            parts = List.copyOf(parts);
        }
    }

    /** How many lines met one verdict. */
    record Part(String title, String count) {}

    static LinesModel of(LineView view, Snapshot snapshot, long nowMs, Words words) {
        List<Row> rows =
                view.lines().stream().map(line -> row(line, nowMs, words)).toList();
        String newest = view.lines().isEmpty()
                ? ""
                : words.text(
                        "kiln.lines.newest", ago(view.lines().get(view.lines().size() - 1), nowMs, words));
        Optional<String> advice = advice(view, words);
        State state = snapshot.connection().state();
        boolean wrong =
                state == State.SILENT || state == State.LOST && !snapshot.link().isEmpty() || state == State.GIVEN_UP;
        return new LinesModel(
                sentence(view, snapshot, nowMs, words), wrong, newest, rows, tallies(view, words), advice);
    }

    private static String sentence(LineView view, Snapshot snapshot, long nowMs, Words words) {
        State state = snapshot.connection().state();
        if (snapshot.link().isEmpty() && view.lines().isEmpty()) {
            return words.text("kiln.lines.nobody");
        }
        boolean coming = state == State.RECEIVING || state == State.CONNECTING;
        if (!coming || view.lines().isEmpty()) {
            return new StateWords(words).connection(snapshot.connection(), nowMs);
        }
        String origin = Origins.name(snapshot.link(), words);
        String regular = rate(view, words)
                .map(rate -> words.text("kiln.lines.coming_rate", origin, rate))
                .orElse(words.text("kiln.lines.coming", origin));
        return snapshot.connection()
                .detail()
                .map(detail -> regular + " " + detail)
                .orElse(regular);
    }

    /** How often lines come, from the last few; empty while there are too few. */
    static Optional<String> rate(LineView view, Words words) {
        List<LineView.Line> lines = view.lines();
        int first = Math.max(0, lines.size() - RATE_LINES);
        int gaps = lines.size() - 1 - first;
        if (gaps < 2) {
            return Optional.empty();
        }
        double seconds =
                (lines.get(lines.size() - 1).hostMs() - lines.get(first).hostMs()) / 1000.0 / gaps;
        if (seconds >= 1.5) {
            return Optional.of(words.text("kiln.lines.every", words.duration(Duration.ofSeconds(Math.round(seconds)))));
        }
        if (seconds > 0.66) {
            return Optional.of(words.text("kiln.lines.each_second"));
        }
        return seconds * 1000 < 1
                ? Optional.of(words.text("kiln.lines.flood"))
                : Optional.of(words.text("kiln.lines.a_second", words.number(1 / seconds, 0)));
    }

    private static Row row(LineView.Line line, long nowMs, Words words) {
        String text = line.text() + (line.cut() ? " …" : "");
        return new Row(
                line.number(),
                ago(line, nowMs, words),
                mark(line.verdict().sort()),
                words.named("line", line.verdict()),
                text,
                line.verdict().sort(),
                words.named("line.why", line.verdict()));
    }

    private static String ago(LineView.Line line, long nowMs, Words words) {
        return words.duration(Duration.ofMillis(Math.max(0, nowMs - line.hostMs())));
    }

    private static String mark(Sort sort) {
        return switch (sort) {
            case READING -> "✓";
            case OTHER -> "·";
            case SPOILT -> "!";
        };
    }

    private static List<Tally> tallies(LineView view, Words words) {
        return Arrays.stream(Sort.values())
                .map(sort -> new Tally(
                        sort,
                        mark(sort),
                        words.named("line.sort", sort),
                        String.valueOf(view.count(sort)),
                        parts(view, sort, words)))
                .toList();
    }

    private static List<Part> parts(LineView view, Sort sort, Words words) {
        List<Part> parts = new ArrayList<>();
        Arrays.stream(Verdict.values())
                .filter(verdict -> verdict.sort() == sort && verdict != Verdict.READING && view.count(verdict) > 0)
                .sorted(Comparator.comparingLong((Verdict verdict) -> view.count(verdict))
                        .reversed())
                .forEach(verdict ->
                        parts.add(new Part(words.named("line", verdict), String.valueOf(view.count(verdict)))));
        return parts;
    }

    private static Optional<String> advice(LineView view, Words words) {
        List<LineView.Line> late = view.lines()
                .subList(Math.max(0, view.lines().size() - LATE), view.lines().size());
        List<Verdict> spoilt = late.stream()
                .map(LineView.Line::verdict)
                .filter(verdict -> verdict.sort() == Sort.SPOILT)
                .toList();
        if (spoilt.size() < FEW || spoilt.size() < late.size() * WORTH_A_WORD) {
            return Optional.empty();
        }
        Verdict most = spoilt.stream()
                .max(Comparator.comparingLong(
                        verdict -> spoilt.stream().filter(verdict::equals).count()))
                .orElseThrow();
        String said = words.text("kiln.lines.spoilt", spoilt.size(), late.size(), words.named("line", most)) + " "
                + words.named("line.why", most);
        return Optional.of(mayNeedAPattern(late, most) ? said + " " + words.text("kiln.lines.pattern") : said);
    }

    /** Where no line at all is read, another controller's lines are likelier than a disturbed wire. */
    private static boolean mayNeedAPattern(List<LineView.Line> late, Verdict most) {
        boolean foreign =
                most == Verdict.CHECKSUM_MISSING || most == Verdict.BAD_KIND || most == Verdict.NOT_THE_PATTERN;
        return foreign && late.stream().noneMatch(line -> line.verdict().sort() == Sort.READING);
    }
}
