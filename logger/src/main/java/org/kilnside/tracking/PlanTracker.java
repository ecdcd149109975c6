package org.kilnside.tracking;

import java.util.OptionalDouble;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.PlanPosition.KnownFrom;

/**
 * Follows one plan: decides which of its legs the kiln is on. Legs follow one another by the controller's segment where
 * it is believed, else by the curve; a curve that later proves it wrong (an overshoot taken for the next ramp, power that
 * comes back) takes a step back. The steps themselves are {@link PlanWalk}'s.
 */
final class PlanTracker {
    private static final long MINUTE_MS = 60_000;
    /** As close as this to a target is there: noise and rounding of readings. */
    static final double THERE_K = 1;
    /** In a hold, colder than this below the target does not count as held. */
    private static final double HOLD_PAUSES_K = 10;

    private static final double SETPOINT_BEYOND_K = 3;
    /** A fall as deep as this in mid-plan, and as long, is a firing given up and not a power cut. */
    private static final double GIVEN_UP_K = 100;

    private static final long GIVEN_UP_MS = 45 * MINUTE_MS;

    /** Further below its leg than this after a power cut, it is on another. */
    private static final double BELOW_ITS_LEG_K = 60;

    /** Readings missing for longer than this: the place in the plan is looked for anew if it does not fit any more. */
    private static final long GAP_MS = 10 * MINUTE_MS;

    /** A segment that begins later than this by the plan cannot be going on yet. */
    private static final long AHEAD_MS = 10 * MINUTE_MS;

    private final Schedule plan;
    private final ControllerVoice voice = new ControllerVoice();
    private final PlanClocks clocks = new PlanClocks();
    private final LegCurve curve = new LegCurve();
    private final PlanWalk walk;
    private long lastLookMs;
    private boolean joined;
    private long gapAtMs = Long.MIN_VALUE / 2;
    private boolean bySegment;

    PlanTracker(Schedule plan) {
        this.plan = plan;
        this.walk = new PlanWalk(plan, clocks, curve);
    }

    /**
     * The kiln was lit at a time and temperature; readings since then have been seen. One that is warmer than the first
     * target begins on the ramp that heats from there.
     */
    void lit(long elapsedMs, double celsius) {
        walk.layFrom(Temperature.ofCelsius(celsius));
        PlanLegs legs = walk.legs();
        walk.begin(elapsedMs, celsius, celsius > legs.get(0).toC() + THERE_K ? legs.heatingAt(celsius, false) : 0);
    }

    /**
     * Recording began in mid-firing: the place in the plan is where the temperature fits, and the time up to now is
     * taken to be as planned.
     */
    void joined(long elapsedMs, double celsius, FiringStage stage) {
        joined = true;
        int found = stage == FiringStage.COOLING
                ? walk.legs().coolingAt(celsius)
                : walk.legs().heatingAt(celsius, stage == FiringStage.HOLDING);
        if (found < 0) {
            walk.joinsAfterTheLast(elapsedMs, celsius);
        } else {
            walk.joins(elapsedMs, celsius, found);
        }
    }

    /** Takes a reading, and looks at the curve where half a minute of it has become full. */
    void take(long elapsedMs, TemperatureTrend trend, boolean look, ControllerReport controller) {
        if (!walk.isLit() || walk.isDone()) {
            return;
        }
        long step = elapsedMs - clocks.lastMs();
        clocks.reading(elapsedMs);
        curve.now(trend.smoothC());
        voice.take(controller, step);
        if (step > GAP_MS) {
            gapAtMs = elapsedMs;
            afterGap(step);
        }
        followSegment();
        if (walk.isOnLeg()) {
            advance(step);
            if (look) {
                lookOnLeg(trend);
            }
        } else if (walk.isFree() && look) {
            lookFree(trend);
        }
        curve.done();
        if (walk.isOnLeg()) {
            clocks.run(step, walk.leg(), voice, curve.nowC());
        }
    }

    /** The segment the controller says, where it is believed, decides. */
    private void followSegment() {
        int said = voice.segment(plan.segments().size());
        bySegment = said > 0;
        boolean saidAlready = said == walk.leg().segment();
        if (said == 0 || (walk.isOnLeg() && saidAlready)) {
            return;
        }
        PlanLegs legs = walk.legs();
        int target = legs.firstOf(said);
        long beginsMs = target == legs.size()
                ? legs.get(target - 1).toMs()
                : legs.get(target).fromMs();
        if (!joined && beginsMs > clocks.goneByMs() + Math.max(AHEAD_MS, beginsMs / 20)) {
            // No controller is ahead of its own plan: it counts otherwise, ramps and holds apart perhaps.
            voice.disbelieve();
            bySegment = false;
            return;
        }
        if (target == legs.size()) {
            if (walk.isOnLeg()) {
                walk.free();
            }
            return;
        }
        if (walk.isFree() && saidAlready) {
            // The number stands still after the end, or through a power cut: the curve decides.
            return;
        }
        walk.enterWhereItIs(target);
    }

    private void advance(long step) {
        double nowC = curve.nowC();
        Leg leg = walk.leg();
        if (leg.kind() == Kind.HOLD) {
            if (nowC >= leg.toC() - HOLD_PAUSES_K) {
                clocks.at(Math.min(leg.toMs(), clocks.positionMs() + step));
            }
            if (clocks.positionMs() >= leg.toMs()) {
                holdIsThrough();
            }
            return;
        }
        boolean down = leg.kind() == Kind.CONTROLLED_COOLING;
        if (down ? nowC <= leg.toC() + THERE_K : nowC >= leg.toC() - THERE_K) {
            reached();
        } else {
            clocks.at(PlanLegs.plannedTimeOf(leg, nowC));
        }
    }

    /** A ramp's target is reached: on to its hold, or the next segment. */
    private void reached() {
        walk.targetReached();
        boolean holdFollows = !walk.isOnLast() && walk.following().kind() == Kind.HOLD;
        if (holdFollows || !staysInSegment()) {
            walk.next();
        }
    }

    private void holdIsThrough() {
        boolean notLetGo = walk.isOnLast()
                && plan.endsInFreeCooling()
                && curve.nowC() > walk.leg().toC() - LegCurve.NEAR_K;
        if (!staysInSegment() && !notLetGo) {
            walk.next();
        }
    }

    /** The controller says it is still in this segment. */
    private boolean staysInSegment() {
        return bySegment && voice.segment(plan.segments().size()) == walk.leg().segment() && !walk.isOnLast();
    }

    private void lookOnLeg(TemperatureTrend trend) {
        voice.look(clocks.lastMs(), curve.nowC(), walk.leg(), clocks.lastMs() - lastLookMs);
        lastLookMs = clocks.lastMs();
        followSetpoint();
        double tenMinutes = trend.slope(10 * MINUTE_MS).orElse(0);
        if (lookFalling(trend, tenMinutes)) {
            return;
        }
        switch (walk.leg().kind()) {
            case HOLD -> lookHold(trend);
            case RAMP, CONTROLLED_COOLING -> lookRamp(trend, tenMinutes);
        }
    }

    /** A set-point that goes beyond this segment's target is in the next, wherever the kiln is. */
    private void followSetpoint() {
        Leg leg = walk.leg();
        PlanLegs legs = walk.legs();
        int next = legs.firstOf(leg.segment() + 1);
        if (bySegment || next == legs.size() || !voice.setpointCanBeFollowed()) {
            return;
        }
        double setpointC = voice.setpointOr(leg.toC());
        boolean wasThere = curve.setpointWasThere(leg, setpointC);
        boolean up = legs.get(next).kind() == Kind.RAMP;
        double beyond = up ? setpointC - leg.toC() : leg.toC() - setpointC;
        boolean turns = up != (leg.kind() != Kind.CONTROLLED_COOLING);
        if (beyond > SETPOINT_BEYOND_K && (!turns || wasThere)) {
            walk.enterWhereItIs(next);
        }
    }

    private void lookRamp(TemperatureTrend trend, double tenMinutes) {
        if (leavingWasOvershoot(trend)) {
            walk.backToHold();
        } else if (curve.levelNear(walk.leg(), trend, tenMinutes)) {
            reached();
        }
    }

    private boolean leavingWasOvershoot(TemperatureTrend trend) {
        OptionalDouble holdC = walk.leftHoldC();
        if (holdC.isEmpty()) {
            return false;
        }
        if (Math.abs(curve.nowC() - holdC.getAsDouble()) > 2 * LegCurve.BEYOND_OVERSHOOT_K) {
            walk.forgetLeftHold();
            return false;
        }
        return curve.turnsBack(walk.leg(), trend);
    }

    /** Whether the curve leaves a hold before it has been held as long as planned. */
    private void lookHold(TemperatureTrend trend) {
        OptionalDouble slope = trend.slope(5 * MINUTE_MS);
        if (slope.isEmpty() || bySegment || walk.isOnLast()) {
            return;
        }
        if (curve.leavesHold(walk.leg(), walk.following(), slope.getAsDouble())) {
            walk.leaveHold();
        }
    }

    /** The temperature falls where the plan does not: the hold or the heating is over, or the power is gone. */
    private boolean lookFalling(TemperatureTrend trend, double tenMinutes) {
        Leg leg = walk.leg();
        PlanLegs legs = walk.legs();
        if (leg.kind() == Kind.CONTROLLED_COOLING) {
            return false;
        }
        boolean unseen = clocks.lastMs() - gapAtMs < 2 * GAP_MS;
        if (!curve.falls(leg, trend, tenMinutes, unseen)) {
            return false;
        }
        boolean heatingIsOver =
                (leg.segment() == legs.lastHeatingSegment() && leg.kind() == Kind.HOLD) || heatingTimeIsUp();
        int next = legs.firstOf(legs.lastHeatingSegment() + 1);
        if (heatingIsOver && next < legs.size()) {
            walk.enterWhereItIs(next);
            return true;
        }
        double givenUp =
                Math.min(GIVEN_UP_K, 0.5 * (curve.highestC() - legs.start().celsius()));
        if (heatingIsOver || voice.hasEnded() || (curve.fallingMs() >= GIVEN_UP_MS && curve.dropK() >= givenUp)) {
            boolean wasThere =
                    leg.segment() == legs.lastHeatingSegment() && curve.highestC() > leg.toC() - HOLD_PAUSES_K;
            if (heatingIsOver || wasThere) {
                walk.free();
            } else {
                walk.endEarly();
            }
            return true;
        }
        return false;
    }

    /** By the plan as written, lit when it was, all heating would be through by now. */
    private boolean heatingTimeIsUp() {
        PlanLegs legs = walk.legs();
        int following = legs.firstOf(legs.lastHeatingSegment() + 1);
        long through = following < legs.size()
                ? legs.get(following).fromMs()
                : legs.get(legs.size() - 1).toMs();
        return clocks.goneByMs() >= through;
    }

    private void lookFree(TemperatureTrend trend) {
        // A controller that says it is past the plan heats no more of it, whatever the curve does.
        PlanLegs legs = walk.legs();
        boolean past = bySegment && legs.firstOf(voice.segment(plan.segments().size())) == legs.size();
        boolean unfinished =
                !past && (!walk.isOnLast() || clocks.positionMs() < walk.leg().toMs());
        if (unfinished && curve.risesAgain(trend)) {
            resume();
        }
    }

    /** Heat is back after a power cut, or the program was begun again: where it fits, if not where it was. */
    private void resume() {
        double nowC = curve.nowC();
        Leg leg = walk.leg();
        if (nowC >= leg.fromC() - BELOW_ITS_LEG_K || leg.kind() == Kind.CONTROLLED_COOLING) {
            double held = leg.kind() == Kind.HOLD ? clocks.positionMs() : PlanLegs.plannedTimeOf(leg, nowC);
            walk.enter(walk.at(), held);
        } else {
            walk.enterWhereItIs(walk.legs().heatingAt(nowC, false));
        }
    }

    private void afterGap(long gap) {
        double nowC = curve.nowC();
        Leg leg = walk.leg();
        PlanLegs legs = walk.legs();
        boolean fits = nowC >= Math.min(leg.fromC(), leg.toC()) - LegCurve.BEYOND_OVERSHOOT_K
                && nowC <= Math.max(leg.fromC(), leg.toC()) + LegCurve.BEYOND_OVERSHOOT_K;
        if (!walk.isOnLeg() || fits) {
            return;
        }
        double expected = clocks.positionMs() + gap;
        int best = legs.nearest(walk.at(), nowC, expected);
        int last = legs.size() - 1;
        if (best >= 0) {
            double planned =
                    legs.get(best).kind() == Kind.HOLD ? expected : PlanLegs.plannedTimeOf(legs.get(best), nowC);
            walk.enter(best, planned);
        } else if (expected >= legs.get(last).toMs() && nowC < leg.toC()) {
            walk.enter(last, legs.get(last).toMs());
            walk.free();
        }
    }

    /** True once for each hold that began. */
    boolean takeHoldBegan() {
        return walk.takeHoldBegan();
    }

    boolean topReached() {
        return walk.isTopReached();
    }

    /** Whether all heating the plan asks for lies behind. */
    boolean heatingIsOver() {
        return walk.heatingIsOver();
    }

    boolean isOnLeg() {
        return walk.isOnLeg();
    }

    boolean isThrough() {
        return walk.isFree() || walk.isDone();
    }

    /** What the leg that the plan is on does with the kiln. */
    FiringStage stageOnLeg() {
        return walk.stageOnLeg();
    }

    void end() {
        walk.end();
    }

    PlanPosition position() {
        return walk.position(bySegment ? KnownFrom.CONTROLLER : KnownFrom.CURVE);
    }
}
