package org.kilnside.tracking;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.schedule.Schedule;

/**
 * Follows one firing, reading by reading: where it stands, what happened, and where in the plan it is if there is one.
 * Everything follows from the readings in their order, so that it comes out the same live, after a restart and when a
 * log is read. Costs a few dozen nanoseconds a reading; {@link #position()} is worked out when asked for.
 *
 * <p>Expects good temperatures only: outliers, faults and unknown values are kept from it. Confined to one thread.
 */
public final class FiringTracker {
    private final Optional<PlanTracker> plan;
    private final FiringDetector detector = new FiringDetector();
    private final TemperatureTrend trend = new TemperatureTrend();
    private final List<FiringEvent> happened = new ArrayList<>();
    private boolean begun;
    private boolean topSaid;
    private boolean coolingSaid;
    private boolean endSaid;

    public FiringTracker(Optional<Schedule> plan) {
        this.plan = plan.map(PlanTracker::new);
    }

    /**
     * Takes a good reading.
     *
     * @param elapsedMs ms on the recording's clock
     * @param temperatureC °C, outliers left out
     * @param controller what the controller says of itself
     * @throws IllegalArgumentException when the time lies before the last reading's, or the temperature is not finite
     */
    public void take(long elapsedMs, double temperatureC, ControllerReport controller) {
        long step = trend.isEmpty() ? 0 : elapsedMs - trend.lastMs();
        if (step < 0 || !Double.isFinite(temperatureC)) {
            throw new IllegalArgumentException("a firing is followed forward in time and by finite temperatures, found "
                    + temperatureC + " °C at " + elapsedMs + " ms after " + trend.lastMs() + " ms");
        }
        boolean look = trend.add(elapsedMs, temperatureC);
        detector.output(elapsedMs, controller, step);
        detector.reading(elapsedMs, trend.smoothC());
        if (look) {
            detector.look(trend);
            lookForBegin();
        }
        if (plan.isPresent() && begun) {
            plan.get().take(elapsedMs, trend, look, controller);
        }
        if (look) {
            say(elapsedMs);
        }
    }

    private void lookForBegin() {
        if (begun || detector.litMs().isEmpty()) {
            return;
        }
        begun = true;
        long litMs = detector.litMs().getAsLong();
        happened.add(FiringEvent.of(litMs, Kind.FIRING_BEGAN));
        if (plan.isEmpty()) {
            return;
        }
        if (detector.joined()) {
            plan.get().joined(trend.lastMs(), trend.smoothC(), detector.stage());
        } else {
            plan.get().lit(litMs, detector.litC());
        }
    }

    private void say(long elapsedMs) {
        if (!begun) {
            return;
        }
        plan.ifPresent(tracker -> {
            if (tracker.takeHoldBegan()) {
                happened.add(FiringEvent.of(elapsedMs, Kind.HOLD_BEGAN));
            }
            if (tracker.topReached() && !topSaid) {
                topSaid = true;
                happened.add(FiringEvent.of(elapsedMs, Kind.TOP_REACHED));
            }
            if (tracker.isOnLeg() && detector.stage() == FiringStage.ENDED && !endSaid) {
                detector.goesOn();
            }
        });
        boolean cooling = plan.map(PlanTracker::heatingIsOver).orElse(true)
                && (detector.stage() == FiringStage.COOLING || (plan.isPresent() && stage() == FiringStage.COOLING));
        if (plan.isPresent() && !plan.get().heatingIsOver()) {
            // Heat is back, or the program was begun again: when it cools for good, that is said anew.
            coolingSaid = false;
        }
        if (cooling && !coolingSaid) {
            coolingSaid = true;
            happened.add(FiringEvent.of(Math.min(elapsedMs, detector.nearPeakMs()), Kind.COOLING_BEGAN));
        }
        if (detector.stage() == FiringStage.ENDED && !endSaid) {
            endSaid = true;
            plan.ifPresent(PlanTracker::end);
            happened.add(FiringEvent.of(elapsedMs, Kind.FIRING_ENDED));
        }
    }

    /** Where the firing stands. */
    public FiringStage stage() {
        FiringStage seen = detector.stage();
        if (!begun || seen == FiringStage.ENDED || plan.isEmpty()) {
            return seen;
        }
        if (plan.get().isThrough()) {
            return FiringStage.COOLING;
        }
        return plan.get().stageOnLeg();
    }

    /** Where in the plan it is; empty without a plan. */
    public Optional<PlanPosition> position() {
        return plan.map(PlanTracker::position);
    }

    /** When heat began to go in; empty while it has not. */
    public OptionalLong litMs() {
        return detector.litMs();
    }

    /** What happened since last asked, oldest first. */
    public List<FiringEvent> takeHappened() {
        if (happened.isEmpty()) {
            return List.of();
        }
        List<FiringEvent> taken = List.copyOf(happened);
        happened.clear();
        return taken;
    }

    /** Whether the kiln has been lit again after this firing: what comes now belongs to a new one. */
    public boolean litAgain() {
        return detector.litAgain();
    }

    /** A person says that the firing begins with the newest reading. */
    public void beginsByHand() {
        if (!begun) {
            detector.beginsByHand(trend.lastMs(), trend.smoothC());
            lookForBegin();
        }
    }

    /** A person says that the firing is over. */
    public void endsByHand() {
        detector.endsByHand();
        plan.ifPresent(PlanTracker::end);
        endSaid = true;
    }
}
