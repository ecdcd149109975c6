package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.tracking.PlanPosition;

/**
 * A firing out of the book or a log, followed as it would have been live: the same code, so the same answer.
 *
 * @param curve all good temperatures, outliers left out
 * @param peak the highest of them; empty without any
 * @param position where in the plan it ended, with the plan laid over what happened; empty without a plan
 * @param events what happened in it, as far as the curve shows: begin, holds, top, cooling, end
 */
public record FollowedFiring(
        Trace curve, Optional<Snapshot.Peak> peak, Optional<PlanPosition> position, List<FiringEvent> events) {
    public FollowedFiring {
        events = List.copyOf(events);
    }

    /** Follows readings in order of time; those of other channels than the guiding one are passed over. */
    public static FollowedFiring of(Optional<Schedule> plan, List<Reading> readings) {
        return of(plan, Optional.empty(), readings);
    }

    /** Follows readings of a sensor of which more is known than the readings themselves say. */
    public static FollowedFiring of(Optional<Schedule> plan, Optional<SensorInPlace> sensor, List<Reading> readings) {
        Following following =
                new Following(plan, sensor, ConeSeries.USUAL, (elapsedMs, celsius, controller, tracker, ware) -> {});
        sensor.map(SensorInPlace::probe).ifPresent(following::probe);
        readings.stream().filter(reading -> reading.first().number() == 1).forEach(following::take);
        return new FollowedFiring(following.curve(), following.peak(), following.position(), following.takeHappened());
    }
}
