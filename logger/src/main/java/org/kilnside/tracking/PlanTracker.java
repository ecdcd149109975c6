package org.kilnside.tracking;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.PlanPosition.KnownFrom;

/**
 * Follows one plan: which of its legs the kiln is on. Legs follow one another by the controller's segment where it is
 * believed, else by the curve; a curve that later proves it wrong (an overshoot taken for the next ramp, power that comes
 * back) takes a step back. Where in the leg, and how late, {@link PlanClocks} says.
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
    /** Readings missing for longer than this: the place in the plan is looked for anew if it does not fit any more. */
    private static final long GAP_MS = 10 * MINUTE_MS;

    /** A segment that begins later than this by the plan cannot be going on yet. */
    private static final long AHEAD_MS = 10 * MINUTE_MS;

    private final Schedule plan;
    private final ControllerVoice voice = new ControllerVoice();
    private final PlanClocks clocks = new PlanClocks();
    private final LegCurve curve = new LegCurve();
    private PlanLegs legs;
    private State state = State.NOT_LIT;
    private int at;
    private Leg leg;
    private long lastLookMs;
    private boolean joined;
    private boolean heldUnseen;
    private long gapAtMs = Long.MIN_VALUE / 2;
    private boolean bySegment;
    private boolean setpointWasThere;

    /** Where a hold was left by the curve alone, to go back to if that was an overshoot; negative = nowhere. */
    private int leftHold = -1;

    private double leftHoldAtMs;
    private long leftHoldSinceMs;
    private boolean holdBegan;
    private boolean topReached;

    private enum State {
        NOT_LIT,
        ON_LEG,
        FREE,
        DONE
    }

    PlanTracker(Schedule plan) {
        this.plan = plan;
        layFrom(Temperature.ofCelsius(20));
    }

    private void layFrom(Temperature start) {
        legs = new PlanLegs(plan.curveFrom(start));
        leg = legs.get(0);
    }

    /**
     * The kiln was lit at a time and temperature; readings since then have been seen. One that is warmer than the first
     * target begins on the ramp that heats from there.
     */
    void lit(long elapsedMs, double celsius) {
        layFrom(Temperature.ofCelsius(celsius));
        begin(elapsedMs, celsius, celsius > legs.get(0).toC() + THERE_K ? legs.heatingAt(celsius, false) : 0);
    }

    /**
     * Recording began in mid-firing: the place in the plan is where the temperature fits, and the time up to now is
     * taken to be as planned.
     */
    void joined(long elapsedMs, double celsius, FiringStage stage) {
        joined = true;
        int found = stage == FiringStage.COOLING
                ? legs.coolingAt(celsius)
                : legs.heatingAt(celsius, stage == FiringStage.HOLDING);
        if (found < 0) {
            begin(elapsedMs, celsius, legs.size() - 1);
            clocks.at(leg.toMs());
            clocks.lateIsUnknown();
            state = plan.endsInFreeCooling() ? State.FREE : State.DONE;
        } else {
            begin(elapsedMs, celsius, found);
            heldUnseen = leg.kind() == Kind.HOLD;
        }
    }

    private void begin(long elapsedMs, double celsius, int index) {
        curve.now(celsius);
        state = State.ON_LEG;
        double planned = PlanLegs.plannedTimeOf(legs.get(index), celsius);
        clocks.start(elapsedMs, planned);
        enter(index, planned);
        holdBegan = false;
        clocks.laysDown(leg);
    }

    /** Takes a reading, and looks at the curve where half a minute of it has become full. */
    void take(long elapsedMs, TemperatureTrend trend, boolean look, ControllerReport controller) {
        if (state == State.NOT_LIT || state == State.DONE) {
            return;
        }
        long step = elapsedMs - clocks.lastMs();
        clocks.reading(elapsedMs);
        curve.now(trend.smoothC());
        voice.take(controller);
        if (step > GAP_MS) {
            gapAtMs = elapsedMs;
            afterGap(step);
        }
        followSegment();
        if (state == State.ON_LEG) {
            advance(step);
            if (look) {
                lookOnLeg(trend);
            }
        } else if (state == State.FREE && look) {
            lookFree(trend);
        }
        curve.done();
        if (state == State.ON_LEG) {
            clocks.run(step, leg, voice, curve.nowC());
        }
    }

    /** The segment the controller says, where it is believed, decides. */
    private void followSegment() {
        int said = voice.segment(plan.segments().size());
        bySegment = said > 0;
        if (said == 0 || (state == State.ON_LEG && said == leg.segment())) {
            return;
        }
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
            if (state == State.ON_LEG) {
                free();
            }
            return;
        }
        if (state == State.FREE && said == leg.segment()) {
            // The number stands still after the end, or through a power cut: the curve decides.
            return;
        }
        state = State.ON_LEG;
        enter(target, PlanLegs.plannedTimeOf(legs.get(target), curve.nowC()));
    }

    private void advance(long step) {
        double nowC = curve.nowC();
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
        clocks.at(leg.toMs());
        topReached |= leg.segment() == plan.topSegment();
        boolean holdFollows = at + 1 < legs.size() && legs.get(at + 1).kind() == Kind.HOLD;
        if (holdFollows || !staysInSegment()) {
            next();
        }
    }

    private void holdIsThrough() {
        boolean last = at + 1 == legs.size();
        if (staysInSegment() || (last && plan.endsInFreeCooling() && curve.nowC() > leg.toC() - LegCurve.NEAR_K)) {
            // The controller holds on, or has not let go yet.
            return;
        }
        next();
    }

    /** The controller says it is still in this segment. */
    private boolean staysInSegment() {
        return bySegment && voice.segment(plan.segments().size()) == leg.segment() && at + 1 < legs.size();
    }

    private void next() {
        if (at + 1 < legs.size()) {
            enter(at + 1, legs.get(at + 1).fromMs());
        } else if (plan.endsInFreeCooling()) {
            free();
        } else {
            state = State.DONE;
        }
    }

    private void enter(int index, double plannedMs) {
        if (heldUnseen) {
            clocks.upToNowAsPlanned(plannedMs);
            heldUnseen = false;
        }
        at = index;
        leg = legs.get(index);
        clocks.enter(leg, plannedMs);
        curve.begins();
        setpointWasThere = false;
        leftHold = -1;
        holdBegan |= leg.kind() == Kind.HOLD;
    }

    private void free() {
        state = State.FREE;
        curve.seesNothingFall();
    }

    private void lookOnLeg(TemperatureTrend trend) {
        voice.look(clocks.lastMs(), curve.nowC(), leg, clocks.lastMs() - lastLookMs);
        lastLookMs = clocks.lastMs();
        followSetpoint();
        double tenMinutes = trend.slope(10 * MINUTE_MS).orElse(0);
        if (lookFalling(trend, tenMinutes)) {
            return;
        }
        switch (leg.kind()) {
            case HOLD -> lookHold(trend);
            case RAMP, CONTROLLED_COOLING -> lookRamp(trend, tenMinutes);
        }
    }

    /** A set-point that goes beyond this segment's target is in the next, wherever the kiln is. */
    private void followSetpoint() {
        int next = legs.firstOf(leg.segment() + 1);
        if (bySegment || next == legs.size() || !voice.setpointCanBeFollowed()) {
            return;
        }
        double setpointC = voice.setpointOr(leg.toC());
        setpointWasThere |= Math.abs(setpointC - leg.toC()) <= THERE_K;
        boolean up = legs.get(next).kind() == Kind.RAMP;
        double beyond = up ? setpointC - leg.toC() : leg.toC() - setpointC;
        boolean turns = up != (leg.kind() != Kind.CONTROLLED_COOLING);
        if (beyond > SETPOINT_BEYOND_K && (!turns || setpointWasThere)) {
            enter(next, PlanLegs.plannedTimeOf(legs.get(next), curve.nowC()));
        }
    }

    private void lookRamp(TemperatureTrend trend, double tenMinutes) {
        if (leftHold >= 0 && leavingWasOvershoot(trend)) {
            int hold = leftHold;
            double held = leftHoldAtMs + (clocks.lastMs() - leftHoldSinceMs);
            enter(hold, held);
            curve.settle();
            return;
        }
        if (curve.levelNear(leg, trend, tenMinutes)) {
            reached();
        }
    }

    private boolean leavingWasOvershoot(TemperatureTrend trend) {
        double holdC = legs.get(leftHold).toC();
        if (Math.abs(curve.nowC() - holdC) > 2 * LegCurve.BEYOND_OVERSHOOT_K) {
            leftHold = -1;
            return false;
        }
        return curve.turnsBack(leg, trend);
    }

    /** Whether the curve leaves a hold before it has been held as long as planned. */
    private void lookHold(TemperatureTrend trend) {
        OptionalDouble slope = trend.slope(5 * MINUTE_MS);
        if (slope.isEmpty() || bySegment) {
            return;
        }
        if (at + 1 == legs.size()) {
            return;
        }
        Leg following = legs.get(at + 1);
        if (curve.leavesHold(leg, following, slope.getAsDouble())) {
            int hold = at;
            double held = clocks.positionMs();
            enter(at + 1, PlanLegs.plannedTimeOf(following, curve.nowC()));
            leftHold = hold;
            leftHoldAtMs = held;
            leftHoldSinceMs = clocks.lastMs();
        }
    }

    /** The temperature falls where the plan does not: the hold or the heating is over, or the power is gone. */
    private boolean lookFalling(TemperatureTrend trend, double tenMinutes) {
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
            enter(next, PlanLegs.plannedTimeOf(legs.get(next), curve.nowC()));
            return true;
        }
        double givenUp =
                Math.min(GIVEN_UP_K, 0.5 * (curve.highestC() - legs.start().celsius()));
        if (heatingIsOver || (curve.fallingMs() >= GIVEN_UP_MS && curve.dropK() >= givenUp)) {
            free();
            return true;
        }
        return false;
    }

    /** By the plan as written, lit when it was, all heating would be through by now. */
    private boolean heatingTimeIsUp() {
        int following = legs.firstOf(legs.lastHeatingSegment() + 1);
        long through = following < legs.size()
                ? legs.get(following).fromMs()
                : legs.get(legs.size() - 1).toMs();
        return clocks.goneByMs() >= through;
    }

    private void lookFree(TemperatureTrend trend) {
        // A controller that says it is past the plan heats no more of it, whatever the curve does.
        boolean past = bySegment && legs.firstOf(voice.segment(plan.segments().size())) == legs.size();
        boolean unfinished = !past && (at + 1 < legs.size() || clocks.positionMs() < leg.toMs());
        if (unfinished && curve.risesAgain(trend)) {
            state = State.ON_LEG;
            resume();
        }
    }

    /** Heat is back after a power cut, or the program was begun again: where it fits, if not where it was. */
    private void resume() {
        double nowC = curve.nowC();
        if (nowC >= leg.fromC() - 60 || leg.kind() == Kind.CONTROLLED_COOLING) {
            double held = leg.kind() == Kind.HOLD ? clocks.positionMs() : PlanLegs.plannedTimeOf(leg, nowC);
            enter(at, held);
        } else {
            int found = legs.heatingAt(nowC, false);
            enter(found, PlanLegs.plannedTimeOf(legs.get(found), nowC));
        }
    }

    private void afterGap(long gap) {
        double nowC = curve.nowC();
        boolean fits = nowC >= Math.min(leg.fromC(), leg.toC()) - LegCurve.BEYOND_OVERSHOOT_K
                && nowC <= Math.max(leg.fromC(), leg.toC()) + LegCurve.BEYOND_OVERSHOOT_K;
        if (state != State.ON_LEG || fits) {
            return;
        }
        double expected = clocks.positionMs() + gap;
        int best = legs.nearest(at, nowC, expected);
        if (best >= 0) {
            double planned =
                    legs.get(best).kind() == Kind.HOLD ? expected : PlanLegs.plannedTimeOf(legs.get(best), nowC);
            enter(best, planned);
        } else if (expected >= legs.get(legs.size() - 1).toMs() && nowC < leg.toC()) {
            enter(legs.size() - 1, legs.get(legs.size() - 1).toMs());
            free();
        }
    }

    /** True once for each hold that began. */
    boolean takeHoldBegan() {
        boolean began = holdBegan;
        holdBegan = false;
        return began;
    }

    boolean topReached() {
        return topReached;
    }

    /** Whether all heating the plan asks for lies behind. */
    boolean heatingIsOver() {
        return state == State.FREE
                || state == State.DONE
                || (state == State.ON_LEG && leg.segment() > legs.lastHeatingSegment());
    }

    boolean isOnLeg() {
        return state == State.ON_LEG;
    }

    boolean isThrough() {
        return state == State.FREE || state == State.DONE;
    }

    /** What the leg that the plan is on does with the kiln. */
    FiringStage stageOnLeg() {
        return switch (leg.kind()) {
            case RAMP -> FiringStage.HEATING;
            case HOLD -> leg.segment() > legs.lastHeatingSegment() ? FiringStage.COOLING : FiringStage.HOLDING;
            case CONTROLLED_COOLING -> FiringStage.COOLING;
        };
    }

    void end() {
        if (state != State.NOT_LIT) {
            state = State.DONE;
        }
    }

    PlanPosition position() {
        int segments = plan.segments().size();
        KnownFrom knownFrom = bySegment ? KnownFrom.CONTROLLER : KnownFrom.CURVE;
        return switch (state) {
            case NOT_LIT -> PlanPosition.waiting(segments, plan.top());
            case FREE ->
                PlanPosition.beyond(
                        PlanPosition.Leg.FREE_COOLING,
                        segments,
                        knownFrom,
                        clocks.behind(),
                        plan.top(),
                        clocks.pastPlan());
            case DONE ->
                PlanPosition.beyond(
                        PlanPosition.Leg.DONE, segments, knownFrom, clocks.behind(), plan.top(), clocks.pastPlan());
            case ON_LEG -> {
                double planned = clocks.wantedC(leg);
                Optional<Duration> holdLeft = leg.kind() == Kind.HOLD
                        ? Optional.of(Duration.ofMillis(Math.round(leg.toMs() - clocks.positionMs())))
                        : Optional.empty();
                yield new PlanPosition(
                        leg.segment(),
                        segments,
                        kind(leg.kind()),
                        knownFrom,
                        Optional.of(Temperature.ofCelsius(planned)),
                        Optional.of(TemperatureDifference.ofKelvin(curve.nowC() - planned)),
                        clocks.behind(),
                        holdLeft,
                        plan.top(),
                        clocks.planAround(legs.all(), at));
            }
        };
    }

    private static PlanPosition.Leg kind(Kind kind) {
        return switch (kind) {
            case RAMP -> PlanPosition.Leg.RAMP;
            case HOLD -> PlanPosition.Leg.HOLD;
            case CONTROLLED_COOLING -> PlanPosition.Leg.CONTROLLED_COOLING;
        };
    }
}
