package org.kilnside.tracking;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/**
 * Where in the plan the kiln is.
 *
 * @param segment the plan's segment now, counted from 1
 * @param segments how many the plan has
 * @param leg what that segment is doing
 * @param knownFrom who says so
 * @param planned what the aligned plan wants now; empty in free cooling and before the start
 * @param deviation actual − planned; empty where nothing is planned
 * @param behind how far behind the plan as written, negative = ahead; a controller that waits for temperature makes
 *     this grow once, by what it waited, and no further; in free cooling, what it was when that began; where recording
 *     began in mid-firing, counted from then; empty before the start, and where recording began in the cooling
 * @param holdLeft what is left of the hold; empty outside holds
 * @param heatEndedIn the segment in which the heat ended before the plan has it end; empty where it did not
 * @param top the plan's highest temperature
 * @param aligned the plan laid over what the kiln really did: the part gone by as it happened, the rest to come from now
 */
public record PlanPosition(
        int segment,
        int segments,
        Leg leg,
        KnownFrom knownFrom,
        Optional<Temperature> planned,
        Optional<TemperatureDifference> deviation,
        Optional<Duration> behind,
        Optional<Duration> holdLeft,
        OptionalInt heatEndedIn,
        Temperature top,
        List<PlanPoint> aligned) {
    public PlanPosition {
        aligned = List.copyOf(aligned);
    }

    /** Lit later: the first segment waits. */
    static PlanPosition waiting(int segments, Temperature top) {
        return new PlanPosition(
                1,
                segments,
                Leg.WAITING,
                KnownFrom.CURVE,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                OptionalInt.empty(),
                top,
                List.of());
    }

    /** All the controller was to do is done: nothing is planned any more. */
    static PlanPosition beyond(
            Leg now,
            int segments,
            KnownFrom knownFrom,
            Optional<Duration> behind,
            OptionalInt heatEndedIn,
            Temperature top,
            List<PlanPoint> past) {
        return new PlanPosition(
                segments,
                segments,
                now,
                knownFrom,
                Optional.empty(),
                Optional.empty(),
                behind,
                Optional.empty(),
                heatEndedIn,
                top,
                past);
    }

    /** What a segment is doing. */
    public enum Leg {
        /** Waiting for a delayed start: readings come, no heat yet. */
        WAITING,
        RAMP,
        HOLD,
        CONTROLLED_COOLING,
        FREE_COOLING,
        /** The plan is through. */
        DONE
    }

    /** Who says which segment it is. */
    public enum KnownFrom {
        CONTROLLER,
        CURVE
    }

    /** One corner of the aligned plan: °C at a time on the recording's clock. */
    public record PlanPoint(long elapsedMs, double temperatureC) {}
}
