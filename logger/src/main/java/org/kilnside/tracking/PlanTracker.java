package org.kilnside.tracking;

import java.time.Duration;
import java.util.List;
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
 * Follows one plan. Two clocks run through it, both in planned time:
 *
 * <ul>
 *   <li>the <b>position</b>, where the kiln really is: on a ramp the planned time of the temperature it has, in a hold
 *       the time held so far. Time gone by less position is how far it is behind: a controller that waits makes that
 *       grow once, by what it waited, and a kiln that cannot follow makes it grow for as long as it falls back;
 *   <li>the <b>aligned clock</b>, what the plan wants of it now: it runs with time and follows the controller's
 *       set-point where there is one that moves; else it stays within {@link #WAIT_BAND_K} of the kiln, as a controller
 *       does that waits for temperature.
 * </ul>
 *
 * Legs follow one another by the controller's segment where it is believed, else by the curve; a curve that later proves
 * it wrong (an overshoot taken for the next ramp, power that comes back) takes a step back.
 */
final class PlanTracker {
    private static final long MINUTE_MS = 60_000;
    /** As close as this to a target is there: noise and rounding of readings. */
    static final double THERE_K = 1;
    /** A kiln that has become flat this close to a target holds there (common practice). */
    static final double NEAR_K = FiringFigures.HOLD_BAND_K;
    /** In a hold, colder than this below the target does not count as held. */
    private static final double HOLD_PAUSES_K = 10;
    /** Further above a hold than any overshoot (10–20 K at low heat, common practice): the next ramp goes on. */
    private static final double BEYOND_OVERSHOOT_K = 25;
    /** A settled hold is left when the temperature goes its next way by this much. */
    private static final double LEAVES_K = 8;

    private static final double SETPOINT_BEYOND_K = 3;
    private static final double SETTLED_K_PER_H = 15;
    /** A controller that waits lets its set-point run ahead by no more than about this (common practice). */
    private static final double WAIT_BAND_K = 15;
    /** A fall as deep as this in mid-plan, and as long, is a firing given up and not a power cut. */
    private static final double GIVEN_UP_K = 100;

    private static final long GIVEN_UP_MS = 45 * MINUTE_MS;
    private static final double FALLING_K_PER_H = -20;
    /** Readings missing for longer than this: the place in the plan is looked for anew if it does not fit any more. */
    private static final long GAP_MS = 10 * MINUTE_MS;

    /** A segment that begins later than this by the plan cannot be going on yet. */
    private static final long AHEAD_MS = 10 * MINUTE_MS;

    private static final double SMOOTH_LATE_MS = 60_000;

    private final Schedule plan;
    private final ControllerVoice voice = new ControllerVoice();
    private final AlignedPlan aligned = new AlignedPlan();
    private PlanLegs legs;
    private State state = State.NOT_LIT;
    private int at;
    private Leg leg;
    private long zeroMs;
    private long lastMs;
    private long lastLookMs;
    private double nowC;
    private double positionMs;
    private double alignedMs;
    private double lateMs;
    private boolean joined;
    private boolean heldUnseen;
    private boolean lateKnown = true;
    private long gapAtMs = Long.MIN_VALUE / 2;
    private boolean bySegment;
    /** In a hold: whether the temperature has been level since it began. In any leg: the extremes since it began. */
    private boolean settled;

    private boolean setpointWasThere;

    private double highestC;
    private double lowestC;
    private long fallingMs;
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
            positionMs = leg.toMs();
            lateKnown = false;
            state = plan.endsInFreeCooling() ? State.FREE : State.DONE;
        } else {
            begin(elapsedMs, celsius, found);
            heldUnseen = leg.kind() == Kind.HOLD;
        }
    }

    private void begin(long elapsedMs, double celsius, int index) {
        lastMs = elapsedMs;
        nowC = celsius;
        state = State.ON_LEG;
        double planned = PlanLegs.plannedTimeOf(legs.get(index), celsius);
        zeroMs = elapsedMs - Math.round(planned);
        enter(index, planned);
        holdBegan = false;
        aligned.wants(elapsedMs, leg.temperatureC(Math.round(alignedMs)));
    }

    /** Takes a reading, and looks at the curve where half a minute of it has become full. */
    void take(long elapsedMs, TemperatureTrend trend, boolean look, ControllerReport controller) {
        if (state == State.NOT_LIT || state == State.DONE) {
            return;
        }
        long step = elapsedMs - lastMs;
        lastMs = elapsedMs;
        nowC = trend.smoothC();
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
        highestC = Math.max(highestC, nowC);
        lowestC = Math.min(lowestC, nowC);
        if (state == State.ON_LEG) {
            runClocks(step);
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
        if (!joined && beginsMs > (lastMs - zeroMs) + Math.max(AHEAD_MS, beginsMs / 20)) {
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
        enter(target, PlanLegs.plannedTimeOf(legs.get(target), nowC));
    }

    private void advance(long step) {
        if (leg.kind() == Kind.HOLD) {
            if (nowC >= leg.toC() - HOLD_PAUSES_K) {
                positionMs = Math.min(leg.toMs(), positionMs + step);
            }
            if (positionMs >= leg.toMs()) {
                holdIsThrough();
            }
            return;
        }
        boolean down = leg.kind() == Kind.CONTROLLED_COOLING;
        if (down ? nowC <= leg.toC() + THERE_K : nowC >= leg.toC() - THERE_K) {
            reached();
        } else {
            positionMs = PlanLegs.plannedTimeOf(leg, nowC);
        }
    }

    /** A ramp's target is reached: on to its hold, or the next segment. */
    private void reached() {
        positionMs = leg.toMs();
        topReached |= leg.segment() == plan.topSegment();
        boolean holdFollows = at + 1 < legs.size() && legs.get(at + 1).kind() == Kind.HOLD;
        if (holdFollows || !staysInSegment()) {
            next();
        }
    }

    private void holdIsThrough() {
        boolean last = at + 1 == legs.size();
        if (staysInSegment() || (last && plan.endsInFreeCooling() && nowC > leg.toC() - NEAR_K)) {
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
            // How long a hold had been held before recording began is not known: it was as long as planned.
            zeroMs = lastMs - Math.round(plannedMs);
            heldUnseen = false;
        }
        at = index;
        leg = legs.get(index);
        positionMs = Math.min(leg.toMs(), Math.max(leg.fromMs(), plannedMs));
        alignedMs = positionMs;
        lateMs = lastMs - zeroMs - positionMs;
        settled = false;
        setpointWasThere = false;
        highestC = nowC;
        lowestC = nowC;
        fallingMs = 0;
        leftHold = -1;
        holdBegan |= leg.kind() == Kind.HOLD;
    }

    private void free() {
        state = State.FREE;
        lowestC = nowC;
        fallingMs = 0;
    }

    private void runClocks(long step) {
        double late = lastMs - zeroMs - positionMs;
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
        aligned.wants(lastMs, leg.temperatureC(Math.round(alignedMs)));
    }

    private void lookOnLeg(TemperatureTrend trend) {
        voice.look(lastMs, nowC, leg, lastMs - lastLookMs);
        lastLookMs = lastMs;
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
            enter(next, PlanLegs.plannedTimeOf(legs.get(next), nowC));
        }
    }

    private void lookRamp(TemperatureTrend trend, double tenMinutes) {
        if (leftHold >= 0 && leavingWasOvershoot(trend)) {
            int hold = leftHold;
            double held = leftHoldAtMs + (lastMs - leftHoldSinceMs);
            enter(hold, held);
            settled = true;
            return;
        }
        boolean level = trend.spanMs() > 10 * MINUTE_MS && Math.abs(tenMinutes) < 0.25 * ControllerVoice.perHour(leg);
        if (level && Math.abs(nowC - leg.toC()) <= NEAR_K) {
            reached();
        }
    }

    private boolean leavingWasOvershoot(TemperatureTrend trend) {
        double holdC = legs.get(leftHold).toC();
        if (Math.abs(nowC - holdC) > 2 * BEYOND_OVERSHOOT_K) {
            leftHold = -1;
            return false;
        }
        boolean up = leg.kind() == Kind.RAMP;
        double turnedBack = up ? highestC - nowC : nowC - lowestC;
        double slope = trend.slope(3 * MINUTE_MS).orElse(0);
        return turnedBack > 4 && (up ? slope < 0 : slope > 0);
    }

    /** Whether the curve leaves a hold before it has been held as long as planned. */
    private void lookHold(TemperatureTrend trend) {
        OptionalDouble slope = trend.slope(5 * MINUTE_MS);
        if (slope.isEmpty() || bySegment) {
            return;
        }
        double perHour = slope.getAsDouble();
        settled |= Math.abs(perHour) < SETTLED_K_PER_H && Math.abs(nowC - leg.toC()) <= LEAVES_K + 4;
        if (at + 1 == legs.size()) {
            return;
        }
        Leg following = legs.get(at + 1);
        boolean up = following.kind() == Kind.RAMP;
        double away = up ? nowC - leg.toC() : leg.toC() - nowC;
        double pace = (up ? perHour : -perHour) / Math.max(1, ControllerVoice.perHour(following));
        boolean leaves = settled && away > LEAVES_K && pace > 0.4;
        boolean beyond = away > BEYOND_OVERSHOOT_K && pace > 0.3;
        if (leaves || beyond) {
            int hold = at;
            double held = positionMs;
            enter(at + 1, PlanLegs.plannedTimeOf(following, nowC));
            leftHold = hold;
            leftHoldAtMs = held;
            leftHoldSinceMs = lastMs;
        }
    }

    /** The temperature falls where the plan does not: the hold or the heating is over, or the power is gone. */
    private boolean lookFalling(TemperatureTrend trend, double tenMinutes) {
        if (leg.kind() == Kind.CONTROLLED_COOLING) {
            return false;
        }
        double drop = highestC - nowC;
        boolean unseen = lastMs - gapAtMs < 2 * GAP_MS;
        double slope = unseen ? trend.slope(3 * MINUTE_MS).orElse(0) : tenMinutes;
        boolean falling =
                drop > (unseen ? NEAR_K : BEYOND_OVERSHOOT_K) && slope < FALLING_K_PER_H && nowC < leg.toC() - LEAVES_K;
        fallingMs = falling ? fallingMs + (trend.ms(0) - trend.ms(Math.min(1, trend.size() - 1))) : 0;
        if (!falling) {
            return false;
        }
        boolean heatingIsOver =
                (leg.segment() == legs.lastHeatingSegment() && leg.kind() == Kind.HOLD) || heatingTimeIsUp();
        int next = legs.firstOf(legs.lastHeatingSegment() + 1);
        if (heatingIsOver && next < legs.size()) {
            enter(next, PlanLegs.plannedTimeOf(legs.get(next), nowC));
            return true;
        }
        double givenUp = Math.min(GIVEN_UP_K, 0.5 * (highestC - legs.start().celsius()));
        if (heatingIsOver || (fallingMs >= GIVEN_UP_MS && drop >= givenUp)) {
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
        return lastMs - zeroMs >= through;
    }

    private void lookFree(TemperatureTrend trend) {
        boolean unfinished = at + 1 < legs.size() || positionMs < leg.toMs();
        double rise = nowC - lowestC;
        if (unfinished && rise > 10 && trend.slope(5 * MINUTE_MS).orElse(0) > SETTLED_K_PER_H) {
            state = State.ON_LEG;
            resume();
        }
    }

    /** Heat is back after a power cut, or the program was begun again: where it fits, if not where it was. */
    private void resume() {
        if (nowC >= leg.fromC() - 60 || leg.kind() == Kind.CONTROLLED_COOLING) {
            double held = leg.kind() == Kind.HOLD ? positionMs : PlanLegs.plannedTimeOf(leg, nowC);
            enter(at, held);
        } else {
            int found = legs.heatingAt(nowC, false);
            enter(found, PlanLegs.plannedTimeOf(legs.get(found), nowC));
        }
    }

    private void afterGap(long gap) {
        boolean fits = nowC >= Math.min(leg.fromC(), leg.toC()) - BEYOND_OVERSHOOT_K
                && nowC <= Math.max(leg.fromC(), leg.toC()) + BEYOND_OVERSHOOT_K;
        if (state != State.ON_LEG || fits) {
            return;
        }
        double expected = positionMs + gap;
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
        Temperature top = plan.top();
        if (state == State.NOT_LIT) {
            return new PlanPosition(
                    1,
                    segments,
                    PlanPosition.Leg.WAITING,
                    KnownFrom.CURVE,
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    top,
                    List.of());
        }
        Optional<Duration> behind = lateKnown ? Optional.of(Duration.ofMillis(Math.round(lateMs))) : Optional.empty();
        KnownFrom knownFrom = bySegment ? KnownFrom.CONTROLLER : KnownFrom.CURVE;
        if (state != State.ON_LEG) {
            PlanPosition.Leg now = state == State.FREE ? PlanPosition.Leg.FREE_COOLING : PlanPosition.Leg.DONE;
            return new PlanPosition(
                    segments,
                    segments,
                    now,
                    knownFrom,
                    Optional.empty(),
                    Optional.empty(),
                    behind,
                    Optional.empty(),
                    top,
                    aligned.pastAlone());
        }
        double planned = leg.temperatureC(Math.round(alignedMs));
        Optional<Duration> holdLeft = leg.kind() == Kind.HOLD
                ? Optional.of(Duration.ofMillis(Math.round(leg.toMs() - positionMs)))
                : Optional.empty();
        return new PlanPosition(
                leg.segment(),
                segments,
                kind(leg.kind()),
                knownFrom,
                Optional.of(Temperature.ofCelsius(planned)),
                Optional.of(TemperatureDifference.ofKelvin(nowC - planned)),
                behind,
                holdLeft,
                top,
                aligned.points(legs.all(), at, lastMs - zeroMs - Math.round(lateMs)));
    }

    private static PlanPosition.Leg kind(Kind kind) {
        return switch (kind) {
            case RAMP -> PlanPosition.Leg.RAMP;
            case HOLD -> PlanPosition.Leg.HOLD;
            case CONTROLLED_COOLING -> PlanPosition.Leg.CONTROLLED_COOLING;
        };
    }
}
