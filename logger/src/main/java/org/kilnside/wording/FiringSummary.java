package org.kilnside.wording;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.schedule.Schedule;
import org.kilnside.session.OpeningNotes;
import org.kilnside.session.Snapshot;
import org.kilnside.tracking.FiringFigures;
import org.kilnside.tracking.PlanPosition;

/**
 * What a potter wants to read when a firing is over.
 *
 * @param headline the firing in one sentence
 * @param lines the figures, each with its label
 */
public record FiringSummary(String headline, List<Line> lines) {
    public FiringSummary {
        lines = List.copyOf(lines);
    }

    /** One figure. */
    public record Line(String label, String value) {}

    /** The summary of the firing a snapshot shows; empty when no good temperature came. */
    public static Optional<FiringSummary> of(Snapshot snapshot, Words words) {
        List<PlanPosition.PlanPoint> aligned =
                snapshot.position().map(PlanPosition::aligned).orElse(List.of());
        Optional<FiringSummary> summary = of(
                snapshot.curve(),
                snapshot.plan(),
                aligned,
                snapshot.events(),
                snapshot.wallClock(),
                snapshot.speed(),
                snapshot.thresholds(),
                words);
        Optional<ConeReached> cone = snapshot.findings().isDistrusted()
                ? Optional.empty()
                : snapshot.findings().cone();
        return cone.isEmpty() ? summary : summary.map(figures -> figures.with(cone.get(), words));
    }

    private FiringSummary with(ConeReached reached, Words words) {
        ConeWords cones = new ConeWords(words, ConeTable.of(reached.series()));
        List<Line> all = new ArrayList<>();
        all.add(new Line(
                words.text("record.cone_label"),
                words.sentence(reached.isBelowScale() ? cones.reached(reached) : cones.nearest(reached))));
        all.addAll(lines);
        return new FiringSummary(headline, all);
    }

    /**
     * The summary of any firing.
     *
     * @param aligned the plan laid over what happened; empty when that is not known
     * @param wallClock by which moments get their time of day; empty when that is not known
     * @param speed kiln time over host time while it was recorded; times are on the wall clock only at 1
     * @param thresholds the kiln's, for opening and unloading
     */
    public static Optional<FiringSummary> of(
            Trace curve,
            Optional<Schedule> plan,
            List<PlanPosition.PlanPoint> aligned,
            List<FiringEvent> events,
            Optional<WallClockLine> wallClock,
            double speed,
            Kiln.Thresholds thresholds,
            Words words) {
        List<Temperature> limits =
                Stream.of(thresholds.crack(), thresholds.unload()).distinct().toList();
        return FiringFigures.of(curve, plan, aligned, events, limits).map(figures -> {
            Writer writer = new Writer(figures, events, wallClock, speed, words);
            return new FiringSummary(writer.headline(plan), writer.lines(plan));
        });
    }

    /** The summary as plain lines, the labels in one column. */
    public List<String> asLines() {
        int width = lines.stream().mapToInt(line -> line.label().length()).max().orElse(0);
        List<String> plain = new ArrayList<>();
        plain.add(headline);
        for (Line line : lines) {
            plain.add("  " + line.label() + " ".repeat(width - line.label().length() + 2) + line.value());
        }
        return plain;
    }

    private static final class Writer {
        private final FiringFigures figures;
        private final List<FiringEvent> events;
        private final Optional<WallClockLine> wallClock;
        private final double speed;
        private final Words words;
        private final StateWords state;

        Writer(
                FiringFigures figures,
                List<FiringEvent> events,
                Optional<WallClockLine> wallClock,
                double speed,
                Words words) {
            this.figures = figures;
            this.events = events;
            this.wallClock = wallClock;
            this.speed = speed;
            this.words = words;
            this.state = new StateWords(words);
        }

        String headline(Optional<Schedule> plan) {
            String peak = words.temperature(figures.peak());
            String length = words.durationInWords(figures.length());
            if (figures.top().isPresent() && figures.top().get().behind().isEmpty()) {
                return words.text(
                        "summary.not_reached",
                        words.temperature(figures.top().get().planned()),
                        peak,
                        length);
            }
            return plan.map(written -> words.text("summary.headline_plan", written.name(), peak, length))
                    .orElseGet(() -> words.text("summary.headline", peak, length));
        }

        List<Line> lines(Optional<Schedule> plan) {
            List<Line> lines = new ArrayList<>();
            add(lines, "summary.duration", duration());
            add(
                    lines,
                    "summary.peak",
                    words.text("summary.at", words.temperature(figures.peak()), when(figures.peakMs())));
            figures.top().ifPresent(top -> {
                add(
                        lines,
                        "summary.hold",
                        words.text(
                                "summary.hold_value",
                                words.duration(top.held()),
                                words.temperature(top.planned()),
                                words.duration(top.hold()),
                                words.span(TemperatureDifference.ofKelvin(FiringFigures.HOLD_BAND_K))));
                top.behind()
                        .ifPresent(behind -> add(
                                lines,
                                "summary.top",
                                behind.abs().toMinutes() < 1
                                        ? words.text("summary.on_time")
                                        : words.text(
                                                behind.isNegative() ? "summary.ahead" : "summary.behind",
                                                words.duration(behind))));
            });
            figures.largest()
                    .ifPresent(largest -> add(
                            lines,
                            "summary.deviation",
                            words.text(
                                    "summary.at", words.difference(largest.difference()), when(largest.elapsedMs()))));
            add(
                    lines,
                    "summary.gaps",
                    figures.gaps() == 0
                            ? words.text("summary.no_gaps")
                            : words.text("summary.gaps_value", figures.gaps(), words.duration(figures.longestGap())));
            add(lines, "summary.energy", words.text("summary.energy_unknown"));
            figures.below().forEach(below -> below(lines, below));
            if (plan.isEmpty()) {
                add(lines, "summary.plan", words.text("summary.no_plan"));
            }
            return lines;
        }

        private String duration() {
            if (figures.coolingMs().isEmpty()) {
                return words.duration(figures.length());
            }
            long cooling = figures.coolingMs().getAsLong();
            return words.text(
                    "summary.duration_value",
                    words.duration(figures.length()),
                    words.duration(Duration.ofMillis(cooling - figures.beganMs())),
                    words.duration(Duration.ofMillis(figures.endedMs() - cooling)));
        }

        /** Of ware under an open lid nobody knows: the curve tells of one, or somebody noted it. */
        private void below(List<Line> lines, FiringFigures.Below below) {
            boolean air = below.airOnly()
                    || below.atMs().isPresent()
                            && OpeningNotes.isLidOpen(events, below.atMs().getAsLong());
            String when = below.atMs().isPresent() ? moment(below.atMs().getAsLong()) : words.text("summary.not_seen");
            lines.add(new Line(
                    words.text("summary.below", words.temperature(below.limit())),
                    air ? words.text("summary.air") : when));
        }

        private String moment(long elapsedMs) {
            return state.momentWithDay(elapsedMs, wallClock.map(line -> line.zeroFor(elapsedMs)), speed);
        }

        private String when(long elapsedMs) {
            return state.when(elapsedMs, wallClock.map(line -> line.zeroFor(elapsedMs)), speed);
        }

        private void add(List<Line> lines, String label, String value) {
            lines.add(new Line(words.text(label), value));
        }
    }
}
