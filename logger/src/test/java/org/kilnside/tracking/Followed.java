package org.kilnside.tracking;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.FiringEvent;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.PlanPosition.KnownFrom;
import org.kilnside.tracking.PlanPosition.Leg;
import org.kilnside.tracking.SimulatedFiring.Line;

/** A firing followed to its end, and how often and how far it was off the truth. */
final class Followed {
    final FiringTracker tracker;
    final List<FiringEvent.Kind> kinds = new ArrayList<>();
    final List<String> legs = new ArrayList<>();
    double wrongShare;
    double knownFromController;
    double mostBehindMin = Double.NEGATIVE_INFINITY;
    double mostAheadMin = Double.NEGATIVE_INFINITY;
    double finalBehindMin;
    double doneMin;
    double coolingMin;
    int mostPoints;

    private Followed(Schedule plan) {
        tracker = new FiringTracker(Optional.of(plan));
    }

    static Followed of(Schedule plan, SimulatedFiring firing) {
        Followed followed = new Followed(plan);
        long running = 0;
        long wrong = 0;
        long byController = 0;
        for (Line line : firing.run(plan)) {
            followed.tracker.take(line.elapsedMs(), line.temperatureC(), line.report());
            for (FiringEvent event : followed.tracker.takeHappened()) {
                followed.kinds.add(event.kind());
                if (event.kind() == FiringEvent.Kind.COOLING_BEGAN) {
                    followed.coolingMin = event.elapsedMs() / 60_000.0;
                }
            }
            PlanPosition position = followed.tracker.position().get();
            String leg = position.segment() + position.leg().name();
            if (followed.legs.isEmpty()
                    || !followed.legs.get(followed.legs.size() - 1).equals(leg)) {
                followed.legs.add(leg);
            }
            followed.mostPoints =
                    Math.max(followed.mostPoints, position.aligned().size());
            if (!line.lit() || line.done()) {
                continue;
            }
            running++;
            boolean right = position.segment() == line.segment() && (position.leg() == Leg.HOLD) == line.hold();
            wrong += right ? 0 : 1;
            byController += position.knownFrom() == KnownFrom.CONTROLLER ? 1 : 0;
            followed.doneMin = line.elapsedMs() / 60_000.0;
            if (position.behind().isPresent()) {
                followed.finalBehindMin = position.behind().get().toMillis() / 60_000.0;
                followed.mostBehindMin = Math.max(followed.mostBehindMin, followed.finalBehindMin);
                followed.mostAheadMin = Math.max(followed.mostAheadMin, -followed.finalBehindMin);
            }
        }
        followed.wrongShare = wrong / (double) running;
        followed.knownFromController = byController / (double) running;
        return followed;
    }
}
