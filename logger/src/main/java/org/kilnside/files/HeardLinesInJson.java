package org.kilnside.files;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;
import org.kilnside.session.LineView;
import org.kilnside.session.LineView.Verdict;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The lines heard on the wire as a part of the stream of snapshots: each line travels once. */
final class HeardLinesInJson {
    private static final String LINES = "heard";
    private static final String COUNTS = "heard_counts";

    private HeardLinesInJson() {}

    /** Writes what is new of them into one line of the stream. */
    static final class Writer {
        private long sent;

        void write(LineView view, long hostNowMs, ObjectNode into) {
            if (view.lines().isEmpty()) {
                return;
            }
            LineView.Line newest = view.lines().get(view.lines().size() - 1);
            if (newest.number() == sent) {
                return;
            }
            ArrayNode lines = into.putArray(LINES);
            for (LineView.Line line : view.lines()) {
                if (line.number() > sent) {
                    lines.add(line.number())
                            .add(hostNowMs - line.hostMs())
                            .add(line.verdict().name())
                            .add(line.cut())
                            .add(line.text());
                }
            }
            sent = newest.number();
            ObjectNode counts = into.putObject(COUNTS);
            view.counts().forEach((verdict, count) -> counts.put(verdict.name(), count));
        }
    }

    /** Puts them together again. */
    static final class Reader {
        private static final int FIELDS = 5;

        private final Deque<LineView.Line> lines = new ArrayDeque<>();
        private LineView view = LineView.NONE;

        LineView view() {
            return view;
        }

        /** @throws IllegalArgumentException when a verdict is not known, as from another version of the program */
        void take(JsonNode from, long hostNowMs) {
            JsonNode added = from.path(LINES);
            if (added.isEmpty()) {
                return;
            }
            for (int i = 0; i + FIELDS <= added.size(); i += FIELDS) {
                lines.addLast(new LineView.Line(
                        added.get(i).asLong(),
                        hostNowMs - added.get(i + 1).asLong(),
                        added.get(i + 4).asString(),
                        added.get(i + 3).asBoolean(),
                        Verdict.valueOf(added.get(i + 2).asString())));
            }
            while (lines.size() > LineView.MOST_LINES) {
                lines.removeFirst();
            }
            Map<Verdict, Long> counts = new EnumMap<>(Verdict.class);
            from.path(COUNTS)
                    .properties()
                    .forEach(count -> counts.put(
                            Verdict.valueOf(count.getKey()), count.getValue().asLong()));
            view = new LineView(new ArrayList<>(lines), counts);
        }
    }
}
