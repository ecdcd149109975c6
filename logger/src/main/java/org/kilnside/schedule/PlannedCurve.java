package org.kilnside.schedule;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.kilnside.quantity.Temperature;

/**
 * The curve a plan means: temperature against planned time, from the temperature at which the kiln is lit. Time 0 is
 * the lighting. Free cooling has no planned temperature, so the curve ends where it begins.
 *
 * <p>Raw doubles, as tracking and charts read it in inner loops: °C, and ms of planned time.
 */
public final class PlannedCurve {
    private static final double MS_PER_HOUR = 3_600_000.0;

    private final Schedule schedule;
    private final Temperature start;
    private final List<Leg> legs;

    PlannedCurve(Schedule schedule, Temperature start) {
        this.schedule = schedule;
        this.start = start;
        this.legs = List.copyOf(legsOf(schedule, start.celsius()));
    }

    /** What a stretch of the curve does. */
    public enum Kind {
        RAMP,
        HOLD,
        CONTROLLED_COOLING
    }

    /**
     * One straight stretch of the curve; a segment has a ramp or controlled cooling, then its hold if it has one.
     *
     * @param segment the plan's segment, counted from 1
     * @param kind what it does
     * @param fromMs planned time at which it begins
     * @param toMs planned time at which it ends, not before {@code fromMs}; equal when the ramp has nothing to do
     * @param fromC temperature at its beginning, °C
     * @param toC temperature at its end, °C
     */
    public record Leg(int segment, Kind kind, long fromMs, long toMs, double fromC, double toC) {
        public long durationMs() {
            return toMs - fromMs;
        }

        /** The planned °C at a time inside the leg; before and after it, the nearer end. */
        public double temperatureC(long plannedMs) {
            if (plannedMs >= toMs) {
                return toC;
            }
            if (plannedMs <= fromMs) {
                return fromC;
            }
            return fromC + (toC - fromC) * ((double) (plannedMs - fromMs) / (toMs - fromMs));
        }
    }

    private static List<Leg> legsOf(Schedule schedule, double startC) {
        List<Leg> legs = new ArrayList<>();
        double atC = startC;
        long atMs = 0;
        for (int number = 1; number <= schedule.segments().size(); number++) {
            if (!(schedule.segments().get(number - 1) instanceof Segment.Ramp ramp)) {
                break;
            }
            double toC = ramp.to().celsius();
            boolean cooling = schedule.isControlledCooling(number);
            // A kiln lit while it is above a heating ramp's target has nothing to heat there: the ramp takes no time.
            double spanK = Math.max(0, cooling ? atC - toC : toC - atC);
            long rampMs = Math.round(spanK / ramp.rate().kelvinPerHour() * MS_PER_HOUR);
            legs.add(new Leg(
                    number,
                    cooling ? Kind.CONTROLLED_COOLING : Kind.RAMP,
                    atMs,
                    atMs + rampMs,
                    rampMs == 0 ? toC : atC,
                    toC));
            atMs += rampMs;
            if (!ramp.hold().isZero()) {
                legs.add(new Leg(number, Kind.HOLD, atMs, atMs + ramp.hold().toMillis(), toC, toC));
                atMs += ramp.hold().toMillis();
            }
            atC = toC;
        }
        return legs;
    }

    public Schedule schedule() {
        return schedule;
    }

    /** The temperature at which the kiln is lit. */
    public Temperature start() {
        return start;
    }

    /** The straight stretches in order; never empty. */
    public List<Leg> legs() {
        return legs;
    }

    /** From lighting to the end of what is planned: free cooling, which takes as long as it takes, is not in it. */
    public Duration duration() {
        return Duration.ofMillis(legs.get(legs.size() - 1).toMs());
    }

    /** From lighting until the top temperature is first reached. */
    public Duration timeToTop() {
        int top = schedule.topSegment();
        return Duration.ofMillis(legs.stream()
                .filter(leg -> leg.segment() == top)
                .findFirst()
                .orElseThrow()
                .toMs());
    }

    /** The planned °C at a time after lighting; empty before the lighting and after the curve's end. */
    public OptionalDouble temperatureC(long plannedMs) {
        if (plannedMs < 0 || plannedMs > legs.get(legs.size() - 1).toMs()) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(legAt(plannedMs).temperatureC(plannedMs));
    }

    /** The leg at a time after lighting; half-open, so that at a corner it is the later one. The last leg goes on for ever. */
    public Leg legAt(long plannedMs) {
        for (Leg leg : legs) {
            if (plannedMs < leg.toMs()) {
                return leg;
            }
        }
        return legs.get(legs.size() - 1);
    }
}
