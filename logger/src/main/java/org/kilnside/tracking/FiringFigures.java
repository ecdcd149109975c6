package org.kilnside.tracking;

import java.time.Duration;
import java.util.ArrayList;
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
 * @param below for each temperature asked for, when the kiln was below it on its way down
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
        List<Below> below) {
    public FiringFigures {
        below = List.copyOf(below);
    }

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

    /**
     * When the kiln was below a temperature on its way down. Under an open lid the number is room air's: then what a shut
     * kiln would have come to counts in its place, as ware in an open one is no hotter than that.
     *
     * @param limit the temperature
     * @param atMs the first such moment on the recording's clock; empty when there was none
     * @param airOnly whether the number was below it, but never otherwise than as air's
     */
    public record Below(Temperature limit, OptionalLong atMs, boolean airOnly) {}

    /**
     * The figures; empty when there is no good temperature at all.
     *
     * @param limits the temperatures asked for, such as those for opening and unloading
     */
    public static Optional<FiringFigures> of(
            Trace curve,
            Optional<Schedule> plan,
            List<PlanPosition.PlanPoint> aligned,
            List<FiringEvent> events,
            List<Temperature> limits) {
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
                below(curve, peak, limits)));
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

    private static List<Below> below(Trace curve, int peak, List<Temperature> limits) {
        int count = limits.size();
        long[] atMs = new long[count];
        boolean[] found = new boolean[count];
        boolean[] air = new boolean[count];
        TemperatureTrend trend = new TemperatureTrend();
        OpenLid lid = new OpenLid();
        for (int i = 0; i < curve.size(); i++) {
            long nowMs = curve.elapsedMs(i);
            double nowC = curve.temperatureC(i);
            if (trend.add(nowMs, nowC) && i > peak) {
                lid.look(trend);
            }
            double wareC = Math.max(nowC, lid.wareC(nowMs).orElse(nowC));
            for (int j = 0; i >= peak && j < count; j++) {
                double limitC = limits.get(j).celsius();
                if (!found[j] && curve.temperatureC(peak) >= limitC && nowC < limitC) {
                    found[j] = wareC < limitC;
                    atMs[j] = nowMs;
                    air[j] = true;
                }
            }
        }
        List<Below> below = new ArrayList<>();
        for (int j = 0; j < count; j++) {
            below.add(new Below(
                    limits.get(j), found[j] ? OptionalLong.of(atMs[j]) : OptionalLong.empty(), air[j] && !found[j]));
        }
        return below;
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
