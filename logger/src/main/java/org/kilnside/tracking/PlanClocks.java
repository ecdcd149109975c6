package org.kilnside.tracking;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;
import org.kilnside.tracking.PlanPosition.PlanPoint;

/**
 * The two clocks that run through a plan, both in planned time:
 *
 * <ul>
 *   <li>the <b>position</b>, where the kiln really is: on a ramp the planned time of the temperature it has, in a hold
 *       the time held so far. Time gone by less position is how far it is behind: a controller that waits makes that
 *       grow once, by what it waited, and a kiln that cannot follow makes it grow for as long as it falls back;
 *   <li>the <b>aligned clock</b>, what the plan wants of it now: it runs with time and follows the controller's
 *       set-point where there is one that moves; else it stays within {@link #WAIT_BAND_K} of the kiln, as a controller
 *       does that waits for temperature.
 * </ul>
 */
final class PlanClocks {
    /** A controller that waits lets its set-point run ahead by no more than about this (common practice). */
    private static final double WAIT_BAND_K = 15;

    private static final double SMOOTH_LATE_MS = 60_000;

    private final AlignedPlan aligned = new AlignedPlan();
    private long zeroMs;
    private long lastMs;
    private double positionMs;
    private double alignedMs;
    private double lateMs;
    private boolean lateKnown = true;

    /** Starts both at a place in the plan: up to now all went as planned. */
    void start(long elapsedMs, double plannedMs) {
        lastMs = elapsedMs;
        upToNowAsPlanned(plannedMs);
    }

    /** How long the leg so far was held or heated is not known: it was as long as planned. */
    void upToNowAsPlanned(double plannedMs) {
        zeroMs = lastMs - Math.round(plannedMs);
    }

    /** How far behind can never be known. */
    void lateIsUnknown() {
        lateKnown = false;
    }

    /** Time goes by. */
    void reading(long elapsedMs) {
        lastMs = elapsedMs;
    }

    /** Both stand in a leg, at this planned time or the leg's end nearest to it. */
    void enter(Leg leg, double plannedMs) {
        positionMs = Math.min(leg.toMs(), Math.max(leg.fromMs(), plannedMs));
        alignedMs = positionMs;
        lateMs = goneByMs() - positionMs;
    }

    /** The kiln is at this planned time. */
    void at(double plannedMs) {
        positionMs = plannedMs;
    }

    /** What this leg wants now is laid down as the plan's way so far. */
    void laysDown(Leg leg) {
        aligned.wants(lastMs, wantedC(leg));
    }

    /** Runs both on by a reading's step. */
    void run(long step, Leg leg, ControllerVoice voice, double nowC) {
        double late = goneByMs() - positionMs;
        lateMs += (late - lateMs) * (step / (step + SMOOTH_LATE_MS));
        if (leg.kind() == Kind.HOLD) {
            alignedMs = positionMs;
        } else if (voice.setpointCanBeFollowed()) {
            alignedMs = PlanLegs.plannedTimeOf(leg, voice.setpointOr(nowC));
        } else {
            double bandMs = WAIT_BAND_K / Math.max(1, ControllerVoice.perHour(leg)) * 3_600_000;
            alignedMs = Math.max(positionMs - bandMs, Math.min(positionMs + bandMs, alignedMs + step));
            alignedMs = Math.min(leg.toMs(), Math.max(leg.fromMs(), alignedMs));
        }
        laysDown(leg);
    }

    /** Milliseconds since the plan's beginning. */
    long goneByMs() {
        return lastMs - zeroMs;
    }

    long lastMs() {
        return lastMs;
    }

    double positionMs() {
        return positionMs;
    }

    /** What a leg wants now, °C. */
    double wantedC(Leg leg) {
        return leg.temperatureC(Math.round(alignedMs));
    }

    /** How far behind the plan as written, negative = ahead; empty where that cannot be known. */
    Optional<Duration> behind() {
        return lateKnown ? Optional.of(Duration.ofMillis(Math.round(lateMs))) : Optional.empty();
    }

    /** The plan's way so far and its corners to come, from this leg on. */
    List<PlanPoint> planAround(List<Leg> legs, int at) {
        return aligned.points(legs, at, goneByMs() - Math.round(lateMs));
    }

    List<PlanPoint> pastPlan() {
        return aligned.pastAlone();
    }
}
