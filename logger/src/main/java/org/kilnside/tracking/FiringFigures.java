package org.kilnside.tracking;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/**
 * What a firing comes to in figures: worked out from its curve, its events and its plan, so the same for a live firing
 * and for one out of the book.
 *
 * @param beganMs when heat began, or the curve's begin where nobody said so; recording's clock
 * @param endedMs when it ended, or the curve's end so far
 * @param coolingMs when cooling began; empty while it has not
 * @param peak the highest temperature
 * @param peakMs when that was
 * @param top what the plan's top asked, and what became of it; empty without a plan
 * @param largest the largest deviation from the aligned plan; empty without one
 * @param gaps how many times readings were missing for longer than expected
 * @param longestGap the longest of them; zero when there is none
 * @param below120Ms when the cooling curve first was below 120 °C; empty when that was not seen
 * @param below50Ms likewise for 50 °C
 */
public record FiringFigures(
        long beganMs,
        long endedMs,
        OptionalLong coolingMs,
        Temperature peak,
        long peakMs,
        Optional<Top> top,
        Optional<Deviation> largest,
        int gaps,
        Duration longestGap,
        OptionalLong below120Ms,
        OptionalLong below50Ms) {
    /** A kiln within this many kelvin below a hold's temperature is taken to hold it (common practice). */
    public static final double HOLD_BAND_K = 5;

    /** This close to a target is there: noise and rounding of readings. */
    private static final double THERE_K = 1;

    /** A pause this many times the usual interval, and no shorter than ten seconds, is a gap. */
    private static final int GAP_INTERVALS = 5;

    private static final long SHORTEST_GAP_MS = 10_000;

    /**
     * The plan's top.
     *
     * @param planned its temperature
     * @param hold how long the plan holds there
     * @param held how long the kiln, once there, was within {@link #HOLD_BAND_K} of it or above
     * @param behind how much later than planned it was reached, negative = earlier; empty when it was not reached
     */
    public record Top(Temperature planned, Duration hold, Duration held, Optional<Duration> behind) {}

    /** Actual less planned, and when. */
    public record Deviation(TemperatureDifference difference, long elapsedMs) {}

    /** The figures; empty when there is no good temperature at all. */
    public static Optional<FiringFigures> of(
            Trace curve, Optional<Schedule> plan, List<PlanPosition.PlanPoint> aligned, List<FiringEvent> events) {
        if (curve.isEmpty()) {
            return Optional.empty();
        }
        long began = first(events, FiringEvent.Kind.FIRING_BEGAN).orElse(curve.elapsedMs(0));
        long ended = first(events, FiringEvent.Kind.FIRING_ENDED).orElse(curve.elapsedMs(curve.size() - 1));
        OptionalLong cooling = last(events, FiringEvent.Kind.COOLING_BEGAN);
        int peak = peakOf(curve);
        Gaps gaps = Gaps.in(curve);
        return Optional.of(new FiringFigures(
                began,
                ended,
                cooling,
                Temperature.ofCelsius(curve.temperatureC(peak)),
                curve.elapsedMs(peak),
                plan.flatMap(written -> top(curve, written, began, peak)),
                largest(curve, aligned, began, plannedUntil(plan, cooling, ended)),
                gaps.count,
                Duration.ofMillis(gaps.longestMs),
                below(curve, peak, 120),
                below(curve, peak, 50)));
    }

    private static int peakOf(Trace curve) {
        int peak = 0;
        for (int i = 1; i < curve.size(); i++) {
            if (curve.temperatureC(i) > curve.temperatureC(peak)) {
                peak = i;
            }
        }
        return peak;
    }

    public Duration length() {
        return Duration.ofMillis(endedMs - beganMs);
    }

    /** A pause between two readings longer than this is a gap, ms: five times the usual interval, at least ten seconds. */
    public static long gapLimitMs(Trace curve) {
        if (curve.size() < 3) {
            return SHORTEST_GAP_MS;
        }
        long usual = (curve.elapsedMs(curve.size() - 1) - curve.elapsedMs(0)) / (curve.size() - 1);
        return Math.max(SHORTEST_GAP_MS, GAP_INTERVALS * usual);
    }

    private static OptionalLong first(List<FiringEvent> events, FiringEvent.Kind kind) {
        return events.stream()
                .filter(event -> event.kind() == kind)
                .mapToLong(FiringEvent::elapsedMs)
                .findFirst();
    }

    /** After a long power cut it may have begun to cool more than once: the last time is the one that counts. */
    private static OptionalLong last(List<FiringEvent> events, FiringEvent.Kind kind) {
        return events.stream()
                .filter(event -> event.kind() == kind)
                .mapToLong(FiringEvent::elapsedMs)
                .reduce((before, after) -> after);
    }

    /** A free cooling asks for nothing, so nothing can deviate from it. */
    private static long plannedUntil(Optional<Schedule> plan, OptionalLong cooling, long ended) {
        boolean free = plan.isPresent()
                && plan.get().segments().get(plan.get().segments().size() - 1) instanceof Segment.FreeCooling;
        return free && cooling.isPresent() ? cooling.getAsLong() : ended;
    }

    private static Optional<Top> top(Trace curve, Schedule plan, long began, int peak) {
        double topC = plan.top().celsius();
        double bandC = topC - HOLD_BAND_K;
        Duration hold =
                plan.segments().get(plan.topSegment() - 1) instanceof Segment.Ramp ramp ? ramp.hold() : Duration.ZERO;
        if (curve.temperatureC(peak) < bandC) {
            return Optional.of(new Top(plan.top(), hold, Duration.ZERO, Optional.empty()));
        }
        // A kiln that holds a little below its target has reached it when it first is where it then stays.
        double thereC = Math.min(topC, curve.temperatureC(peak)) - THERE_K;
        int reached = 0;
        while (curve.temperatureC(reached) < thereC) {
            reached++;
        }
        long heldMs = 0;
        for (int i = reached; i + 1 < curve.size(); i++) {
            if (curve.temperatureC(i) >= bandC && curve.temperatureC(i + 1) >= bandC) {
                heldMs += curve.elapsedMs(i + 1) - curve.elapsedMs(i);
            }
        }
        double litC = curve.temperatureC(Math.max(0, curve.indexAt(began)));
        Duration planned = plan.curveFrom(Temperature.ofCelsius(litC)).timeToTop();
        Duration took = Duration.ofMillis(curve.elapsedMs(reached) - began);
        return Optional.of(new Top(plan.top(), hold, Duration.ofMillis(heldMs), Optional.of(took.minus(planned))));
    }

    private static Optional<Deviation> largest(
            Trace curve, List<PlanPosition.PlanPoint> aligned, long fromMs, long untilMs) {
        Optional<Deviation> largest = Optional.empty();
        int leg = 0;
        for (int i = Math.max(0, curve.indexAt(fromMs)); i < curve.size(); i++) {
            long at = curve.elapsedMs(i);
            while (leg + 1 < aligned.size() && aligned.get(leg + 1).elapsedMs() <= at) {
                leg++;
            }
            if (at > untilMs || leg + 1 >= aligned.size()) {
                break;
            }
            if (at < aligned.get(leg).elapsedMs()) {
                continue;
            }
            double difference = curve.temperatureC(i) - between(aligned.get(leg), aligned.get(leg + 1), at);
            if (largest.isEmpty()
                    || Math.abs(difference)
                            > Math.abs(largest.get().difference().kelvin())) {
                largest = Optional.of(new Deviation(TemperatureDifference.ofKelvin(difference), at));
            }
        }
        return largest;
    }

    private static double between(PlanPosition.PlanPoint from, PlanPosition.PlanPoint to, long atMs) {
        double share = (double) (atMs - from.elapsedMs()) / (to.elapsedMs() - from.elapsedMs());
        return from.temperatureC() + share * (to.temperatureC() - from.temperatureC());
    }

    private static OptionalLong below(Trace curve, int peak, double limitC) {
        if (curve.temperatureC(peak) < limitC) {
            return OptionalLong.empty();
        }
        for (int i = peak; i < curve.size(); i++) {
            if (curve.temperatureC(i) < limitC) {
                return OptionalLong.of(curve.elapsedMs(i));
            }
        }
        return OptionalLong.empty();
    }

    private record Gaps(int count, long longestMs) {
        static Gaps in(Trace curve) {
            long limit = gapLimitMs(curve);
            int count = 0;
            long longest = 0;
            for (int i = 1; i < curve.size(); i++) {
                long pause = curve.elapsedMs(i) - curve.elapsedMs(i - 1);
                if (pause > limit) {
                    count++;
                    longest = Math.max(longest, pause);
                }
            }
            return new Gaps(count, longest);
        }
    }
}
