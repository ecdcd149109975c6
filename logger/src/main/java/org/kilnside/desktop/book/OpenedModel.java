package org.kilnside.desktop.book;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import org.kilnside.chart.Overlay;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.quantity.Temperature;
import org.kilnside.review.Review;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.PlanPosition.PlanPoint;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.FiringSummary;
import org.kilnside.wording.Moments;
import org.kilnside.wording.ReviewWords;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;

/**
 * What is open: one firing, and those laid over it. Immutable.
 *
 * @param firings the one that was opened first
 * @param study what follows from all its readings; empty while that is worked out
 * @param review why it came out as it did; empty while that is worked out, and where there is nothing to compare with
 * @param common the temperature at which all are laid over each other, °C; empty for the begin of each
 * @param markMs a moment of the first firing that is marked, on its recording's clock, ms
 * @param quartz whether 573 °C is marked
 */
public record OpenedModel(
        List<OpenedFiring> firings,
        Optional<FiringStudy> study,
        Optional<Review> review,
        OptionalDouble common,
        OptionalLong markMs,
        boolean quartz) {
    public OpenedModel {
        firings = List.copyOf(firings);
    }

    /** A firing that has just been opened. */
    public static OpenedModel of(List<OpenedFiring> firings) {
        return new OpenedModel(
                firings, Optional.empty(), Optional.empty(), OptionalDouble.empty(), OptionalLong.empty(), false);
    }

    public OpenedFiring first() {
        return firings.get(0);
    }

    public boolean isAlone() {
        return firings.size() == 1;
    }

    public OpenedModel with(FiringStudy its) {
        return new OpenedModel(firings, Optional.of(its), review, common, markMs, quartz);
    }

    public OpenedModel with(Review its) {
        return new OpenedModel(firings, study, Optional.of(its), common, markMs, quartz);
    }

    public OpenedModel withCommon(OptionalDouble celsius) {
        return new OpenedModel(firings, study, review, celsius, markMs, quartz);
    }

    public OpenedModel marking(OptionalLong elapsedMs) {
        return new OpenedModel(firings, study, review, common, elapsedMs, quartz);
    }

    public OpenedModel withQuartz(boolean shown) {
        return new OpenedModel(firings, study, review, common, markMs, shown);
    }

    /** The same with the first firing's record as it is now. */
    public OpenedModel with(OpenedFiring other) {
        List<OpenedFiring> all = new ArrayList<>(firings);
        all.set(0, other);
        return new OpenedModel(all, study, review, common, markMs, quartz);
    }

    /** The drawing. A firing that never came to the common temperature is not in it; {@link #leftOut} says so. */
    public Overlay overlay(Words words) {
        List<Overlay.Line> lines = new ArrayList<>();
        OptionalLong firstShift = OptionalLong.empty();
        for (OpenedFiring firing : firings) {
            OptionalLong shift = shiftMs(firing);
            if (shift.isPresent()) {
                lines.add(new Overlay.Line(
                        isAlone() ? peak(firing, words) : words.text("overlay.name", firing.number()),
                        firing.levels(),
                        shift.getAsLong()));
            }
            firstShift = firing == first() ? shift : firstShift;
        }
        long shift = firstShift.orElse(0);
        List<PlanPoint> plan = firstShift.isEmpty()
                ? List.of()
                : plan().stream()
                        .map(corner -> new PlanPoint(corner.elapsedMs() + shift, corner.temperatureC()))
                        .toList();
        return new Overlay(
                lines,
                plan,
                isAlone() ? zero() : Optional.empty(),
                isAlone() ? OptionalDouble.empty() : common,
                markMs.isPresent() ? OptionalLong.of(markMs.getAsLong() + shift) : OptionalLong.empty(),
                quartz);
    }

    private static String peak(OpenedFiring firing, Words words) {
        Trace curve = firing.levels().curve();
        double peakC = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < curve.size(); i++) {
            peakC = Math.max(peakC, curve.temperatureC(i));
        }
        return curve.isEmpty() ? "" : words.temperature(Temperature.ofCelsius(peakC));
    }

    /** How the recording's time becomes the drawing's; empty where the firing never came to the common temperature. */
    private OptionalLong shiftMs(OpenedFiring firing) {
        if (isAlone()) {
            return OptionalLong.of(0);
        }
        if (common.isEmpty()) {
            return OptionalLong.of(-firing.beganMs());
        }
        OptionalLong at = firing.firstAtMs(common.getAsDouble());
        return at.isEmpty() ? at : OptionalLong.of(-at.getAsLong());
    }

    /** Until it is laid over what happened, the plan stands as it was written, from the begin. */
    private List<PlanPoint> plan() {
        if (study.isPresent() && !study.get().aligned().isEmpty()) {
            return study.get().aligned();
        }
        Optional<Schedule> plan = first().firing().start().plan();
        Trace curve = first().levels().curve();
        if (plan.isEmpty() || curve.isEmpty()) {
            return List.of();
        }
        long began = first().beganMs();
        double litC = curve.temperatureC(Math.max(0, curve.indexAt(began)));
        List<PlanPoint> corners = new ArrayList<>();
        for (PlannedCurve.Leg leg :
                plan.get().curveFrom(Temperature.ofCelsius(litC)).legs()) {
            if (corners.isEmpty()) {
                corners.add(new PlanPoint(began + leg.fromMs(), leg.fromC()));
            }
            corners.add(new PlanPoint(began + leg.toMs(), leg.toC()));
        }
        return corners;
    }

    /** The wall clock at the drawing's zero, right at the firing's end, where people look. */
    private Optional<Instant> zero() {
        Trace curve = first().levels().curve();
        return first().clock().map(line -> line.zeroFor(curve.isEmpty() ? 0 : curve.elapsedMs(curve.size() - 1)));
    }

    /** Which of the firings never came to the common temperature, in one sentence; empty when all did. */
    public Optional<String> leftOut(Words words) {
        if (isAlone() || common.isEmpty()) {
            return Optional.empty();
        }
        List<String> names = firings.stream()
                .filter(firing -> shiftMs(firing).isEmpty())
                .map(firing -> words.text("overlay.name", firing.number()))
                .toList();
        return names.isEmpty()
                ? Optional.empty()
                : Optional.of(words.text(
                        "overlay.left_out",
                        String.join(", ", names),
                        words.temperature(Temperature.ofCelsius(common.getAsDouble()))));
    }

    /** The firing in its first words: number, kiln, day. */
    public String title(Words words) {
        OpenedFiring first = first();
        String title = words.text(
                "record.title",
                first.number(),
                first.firing().start().kiln().orElse(words.text("book.kiln_not_given")),
                words.date(first.firing().start().startedAt()));
        if (isAlone()) {
            return title;
        }
        List<String> others = firings.stream()
                .skip(1)
                .map(firing -> Long.toString(firing.number()))
                .toList();
        return title + "  ·  " + words.text("record.with", String.join(", ", others));
    }

    /** The firing in one sentence: of one that goes on, no more than how far it is. */
    public String headline(Words words) {
        Trace curve = first().levels().curve();
        if (first().firing().endedElapsedMs().isEmpty() && !curve.isEmpty()) {
            return words.text(
                    "record.going_on",
                    first().firing()
                            .start()
                            .plan()
                            .map(Schedule::name)
                            .orElse(words.text("overlay.name", first().number())),
                    words.temperature(Temperature.ofCelsius(highestC(curve))),
                    words.durationInWords(Duration.ofMillis(curve.elapsedMs(curve.size() - 1) - first().beganMs())));
        }
        return summary(words).map(FiringSummary::headline).orElse(words.text("book.no_curve"));
    }

    private static double highestC(Trace curve) {
        return IntStream.range(0, curve.size())
                .mapToDouble(curve::temperatureC)
                .max()
                .orElseThrow();
    }

    /** The cone it came to, in one phrase; empty while that is not known. */
    public Optional<String> cone(Words words) {
        return study.flatMap(FiringStudy::cone)
                .map(reached -> words.text("record.cone", cones(reached, words).reached(reached)));
    }

    private static ConeWords cones(ConeReached reached, Words words) {
        return new ConeWords(words, ConeTable.of(reached.series()));
    }

    /** The figures, each with its label. */
    public List<FiringSummary.Line> figures(Words words) {
        List<FiringSummary.Line> lines = new ArrayList<>();
        study.flatMap(FiringStudy::cone).ifPresent(reached -> {
            ConeWords cones = cones(reached, words);
            lines.add(new FiringSummary.Line(words.text("record.cone_label"), cones.reached(reached)));
            Trace curve = first().levels().curve();
            cones.details(reached, curve, curve.elapsedMs(0))
                    .forEach(detail -> lines.add(new FiringSummary.Line("", detail)));
        });
        summary(words).ifPresent(summary -> lines.addAll(summary.lines()));
        first().firing().start().plan().ifPresent(plan -> {
            StateWords state = new StateWords(words);
            String label = words.text("record.plan");
            for (int i = 0; i < plan.segments().size(); i++) {
                lines.add(new FiringSummary.Line(
                        i == 0 ? label : "", state.segment(plan.segments().get(i))));
            }
        });
        return lines;
    }

    /** Why it came out as it did, a line each; headings end in a colon and what stands under them is indented. */
    public List<String> reviewed(Words words) {
        if (first().firing().start().plan().isEmpty()) {
            return List.of(words.text("record.review_needs_plan"));
        }
        return review.map(its -> new ReviewWords(words, zero(), 0, its).lines(its))
                .orElseGet(() -> List.of(words.text("record.review_coming")));
    }

    private Optional<FiringSummary> summary(Words words) {
        OpenedFiring first = first();
        return FiringSummary.of(
                first.levels().curve(),
                first.firing().start().plan(),
                study.map(FiringStudy::aligned).orElse(List.of()),
                first.firing().events(),
                first.clock(),
                first.speed(),
                first.thresholds(),
                words);
    }

    /**
     * Something that happened, in words.
     *
     * @param elapsedMs when, on the recording's clock
     * @param when its time of day with the day, or the time since the begin for a kiln that ran faster than life
     */
    public record Happened(long elapsedMs, String when, String what) {}

    /** What happened, oldest first. */
    public List<Happened> happened(Words words) {
        StateWords state = new StateWords(words);
        Moments moments = Moments.of(first().clock(), first().speed(), words);
        List<Happened> lines = new ArrayList<>();
        for (FiringEvent event : first().firing().events()) {
            String when = first().clock()
                    .map(line -> words.dayAndTime(line.at(event.elapsedMs())))
                    .orElseGet(() -> state.elapsed(event.elapsedMs()));
            lines.add(new Happened(event.elapsedMs(), when, state.event(event, moments)));
        }
        return lines;
    }

    /** What stands at a moment of the drawing: its time, then each line. */
    public List<String> readout(Overlay overlay, long timeMs, Words words) {
        StateWords state = new StateWords(words);
        List<String> rows = new ArrayList<>();
        rows.add(
                overlay.zero().isPresent()
                        ? words.dayAndTime(overlay.zero().get().plusMillis(timeMs))
                        : state.elapsed(timeMs));
        for (Overlay.Line line : overlay.lines()) {
            String name = isAlone() ? words.text("chart.actual") : line.name();
            overlay.at(line, timeMs)
                    .ifPresent(there -> rows.add(words.text("overlay.at", name, words.temperature(there))));
        }
        overlay.plannedAt(timeMs)
                .ifPresent(there ->
                        rows.add(words.text("overlay.at", words.text("chart.plan"), words.temperature(there))));
        return rows;
    }
}
