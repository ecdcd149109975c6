package org.kilnside.desktop.plan;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlanLimits;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/** What may be done to a plan; each gives a new plan, or none where it cannot be done. Segments are counted from 1. */
final class PlanEdits {
    private static final HeatingRate NEW_RATE = HeatingRate.ofKelvinPerHour(100);
    private static final double NEW_STEP_K = 50;

    private PlanEdits() {}

    /** A plan to begin with. */
    static Schedule blank(String name) {
        return new Schedule(
                name,
                List.of(
                        new Segment.Ramp(NEW_RATE, Temperature.ofCelsius(600), Duration.ZERO),
                        new Segment.FreeCooling()));
    }

    static Schedule named(Schedule plan, String name) {
        return new Schedule(name, plan.aimsFor(), plan.clay(), plan.notes(), plan.segments());
    }

    static Schedule aimingFor(Schedule plan, Optional<String> cone) {
        return new Schedule(plan.name(), cone, plan.clay(), plan.notes(), plan.segments());
    }

    static Schedule forClay(Schedule plan, Optional<String> clay) {
        return new Schedule(plan.name(), plan.aimsFor(), clay, plan.notes(), plan.segments());
    }

    static Schedule noted(Schedule plan, Optional<String> notes) {
        return new Schedule(plan.name(), plan.aimsFor(), plan.clay(), notes, plan.segments());
    }

    static Optional<Schedule> withRamp(Schedule plan, int number, UnaryOperator<Segment.Ramp> change) {
        if (number < 1
                || number > plan.segments().size()
                || !(plan.segments().get(number - 1) instanceof Segment.Ramp ramp)) {
            return Optional.empty();
        }
        List<Segment> segments = new ArrayList<>(plan.segments());
        segments.set(number - 1, change.apply(ramp));
        return Optional.of(with(plan, segments));
    }

    /** A new segment behind one, half-way to the next; behind free cooling nothing can come. */
    static Optional<Schedule> inserted(Schedule plan, int afterNumber) {
        List<Segment> segments = new ArrayList<>(plan.segments());
        if (segments.size() >= PlanLimits.MOST_SEGMENTS || afterNumber < 0 || afterNumber > segments.size()) {
            return Optional.empty();
        }
        int at = afterNumber;
        if (at > 0 && segments.get(at - 1) instanceof Segment.FreeCooling) {
            at--;
        }
        double beforeC =
                at == 0 ? 20 : segments.get(at - 1).target().orElseThrow().celsius();
        Optional<Double> afterC =
                at < segments.size() ? segments.get(at).target().map(Temperature::celsius) : Optional.empty();
        double toC = afterC.map(next -> (double) Math.round((beforeC + next) / 10) * 5)
                .orElse(beforeC + NEW_STEP_K);
        Temperature to = Temperature.ofCelsius(
                Math.min(PlanLimits.HOTTEST_TARGET.celsius(), Math.max(PlanLimits.COOLEST_TARGET.celsius(), toC)));
        segments.add(at, new Segment.Ramp(NEW_RATE, to, Duration.ZERO));
        return Optional.of(with(plan, segments));
    }

    /** Takes a segment out; one that heats stays. */
    static Optional<Schedule> removed(Schedule plan, int number) {
        List<Segment> segments = new ArrayList<>(plan.segments());
        if (number < 1 || number > segments.size()) {
            return Optional.empty();
        }
        segments.remove(number - 1);
        return segments.isEmpty() || !(segments.get(0) instanceof Segment.Ramp)
                ? Optional.empty()
                : Optional.of(with(plan, segments));
    }

    /** Moves a segment up or down; free cooling stays last. */
    static Optional<Schedule> moved(Schedule plan, int number, int by) {
        int to = number + by;
        List<Segment> segments = new ArrayList<>(plan.segments());
        if (number < 1 || number > segments.size() || to < 1 || to > segments.size()) {
            return Optional.empty();
        }
        Segment moved = segments.get(number - 1);
        if (moved instanceof Segment.FreeCooling || segments.get(to - 1) instanceof Segment.FreeCooling) {
            return Optional.empty();
        }
        segments.remove(number - 1);
        segments.add(to - 1, moved);
        return Optional.of(with(plan, segments));
    }

    /** Whether the kiln cools by itself at the end: puts that in or takes it out. */
    static Schedule freeCooling(Schedule plan, boolean wanted) {
        List<Segment> segments = new ArrayList<>(plan.segments());
        if (plan.endsInFreeCooling() && !wanted) {
            segments.remove(segments.size() - 1);
        } else if (!plan.endsInFreeCooling() && wanted) {
            segments.add(new Segment.FreeCooling());
        }
        return with(plan, segments);
    }

    /** Every segment that goes to the top goes to another. */
    static Schedule withTop(Schedule plan, Temperature top) {
        Temperature before = plan.top();
        List<Segment> segments = new ArrayList<>();
        for (Segment segment : plan.segments()) {
            segments.add(
                    segment instanceof Segment.Ramp ramp && ramp.to().equals(before)
                            ? new Segment.Ramp(ramp.rate(), top, ramp.hold())
                            : segment);
        }
        return with(plan, segments);
    }

    /** The last segment that goes to the top holds for another time. */
    static Schedule withTopHold(Schedule plan, Duration hold) {
        for (int number = plan.segments().size(); number >= 1; number--) {
            if (plan.segments().get(number - 1).target().equals(Optional.of(plan.top()))) {
                return withRamp(plan, number, ramp -> new Segment.Ramp(ramp.rate(), ramp.to(), hold))
                        .orElseThrow();
            }
        }
        throw new IllegalStateException("a plan has a top");
    }

    private static Schedule with(Schedule plan, List<Segment> segments) {
        return new Schedule(plan.name(), plan.aimsFor(), plan.clay(), plan.notes(), segments);
    }
}
