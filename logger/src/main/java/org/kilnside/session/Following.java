package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.Schedule;
import org.kilnside.session.Snapshot.Stage;
import org.kilnside.tracking.PlanPosition;

/**
 * What is worked out from the readings of one firing: curve, rates, highest temperature, place in the plan, and what
 * happened. All of it follows from the readings alone, in order, so that it comes out the same live, after a restart
 * and when a gap has been filled. Confined to the session's thread.
 */
final class Following {
    private final Optional<Schedule> plan;
    private Trace.Builder curve = new Trace.Builder();
    private final RateMeter rateMeter = new RateMeter();
    private Optional<Snapshot.Peak> peak = Optional.empty();
    private final List<FiringEvent> happened = new ArrayList<>();

    Following(Optional<Schedule> plan) {
        this.plan = plan;
    }

    /** Takes the next reading; true when its temperature is left out as a false one. */
    boolean take(Reading reading) {
        if (reading instanceof Reading.Measured measured) {
            curve.add(measured);
            if (peak.isEmpty() || measured.temperature().isAbove(peak.get().temperature())) {
                peak = Optional.of(new Snapshot.Peak(measured.temperature(), measured.elapsedMs()));
            }
        }
        return false;
    }

    void catchUp() {
        happened.clear();
    }

    void beginsByHand() {}

    boolean litAgain() {
        return false;
    }

    void reset() {
        curve = new Trace.Builder();
        rateMeter.reset();
        peak = Optional.empty();
    }

    boolean hasReadingNear(long elapsedMs, long withinMs) {
        Trace view = curve.view();
        int at = view.indexAt(elapsedMs + withinMs);
        return at >= 0 && Math.abs(view.elapsedMs(at) - elapsedMs) <= withinMs;
    }

    void mergeAndFollowAnew(List<Reading> filled) {}

    List<FiringEvent> takeHappened() {
        List<FiringEvent> taken = List.copyOf(happened);
        happened.clear();
        return taken;
    }

    Stage stage() {
        return plan.isPresent() ? Stage.HEATING : Stage.WAITING_TO_START;
    }

    Trace curve() {
        return curve.view();
    }

    Snapshot.Rates rates() {
        return rateMeter.after(curve.view());
    }

    Optional<PlanPosition> position() {
        return Optional.empty();
    }

    Optional<Snapshot.Peak> peak() {
        return peak;
    }
}
