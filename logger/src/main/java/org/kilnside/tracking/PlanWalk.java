package org.kilnside.tracking;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.PlanPosition.KnownFrom;

/**
 * The way through one plan: the leg it stands on, the steps from one to another, and what of it is told. Why a step is
 * taken {@link PlanTracker} decides; how far in the leg it is, {@link PlanClocks} says.
 */
final class PlanWalk {
    private final Schedule plan;
    private final PlanClocks clocks;
    private final LegCurve curve;
    private PlanLegs legs;
    private State state = State.NOT_LIT;
    private int at;
    private Leg leg;
    private boolean heldUnseen;
    private Optional<LeftHold> leftHold = Optional.empty();
    private boolean holdBegan;
    private boolean topReached;
    private OptionalInt heatEndedIn = OptionalInt.empty();

    private enum State {
        NOT_LIT,
        ON_LEG,
        FREE,
        DONE
    }

    /** A hold that was left by the curve alone, to go back to if that was an overshoot. */
    private record LeftHold(int at, double heldToMs, long leftMs) {}

    PlanWalk(Schedule plan, PlanClocks clocks, LegCurve curve) {
        this.plan = plan;
        this.clocks = clocks;
        this.curve = curve;
        layFrom(Temperature.ofCelsius(20));
    }

    /** The plan begins at this temperature. */
    void layFrom(Temperature start) {
        legs = new PlanLegs(plan.curveFrom(start));
        leg = legs.get(0);
    }

    /** Begins on a leg, where it has this temperature; the time up to there is taken to be as planned. */
    void begin(long elapsedMs, double celsius, int index) {
        curve.now(celsius);
        state = State.ON_LEG;
        double planned = PlanLegs.plannedTimeOf(legs.get(index), celsius);
        clocks.start(elapsedMs, planned);
        enter(index, planned);
        holdBegan = false;
        clocks.laysDown(leg);
    }

    /** As {@link #begin}, in mid-firing: a hold there has been held for a time that nobody saw. */
    void joins(long elapsedMs, double celsius, int index) {
        begin(elapsedMs, celsius, index);
        heldUnseen = leg.kind() == Kind.HOLD;
    }

    /** Recording begins when all heating is over: how late it was can never be known. */
    void joinsAfterTheLast(long elapsedMs, double celsius) {
        begin(elapsedMs, celsius, legs.size() - 1);
        clocks.at(leg.toMs());
        clocks.lateIsUnknown();
        through();
    }

    /** Onto a leg, at this planned time. */
    void enter(int index, double plannedMs) {
        if (heldUnseen) {
            clocks.upToNowAsPlanned(plannedMs);
            heldUnseen = false;
        }
        state = State.ON_LEG;
        heatEndedIn = OptionalInt.empty();
        at = index;
        leg = legs.get(index);
        clocks.enter(leg, plannedMs);
        curve.begins();
        leftHold = Optional.empty();
        holdBegan |= leg.kind() == Kind.HOLD;
    }

    /** Onto a leg, where it has the kiln's temperature. */
    void enterWhereItIs(int index) {
        enter(index, PlanLegs.plannedTimeOf(legs.get(index), curve.nowC()));
    }

    /** Onto the beginning of the leg that follows, or off the last. */
    void next() {
        if (isOnLast()) {
            through();
        } else {
            enter(at + 1, legs.get(at + 1).fromMs());
        }
    }

    private void through() {
        if (plan.endsInFreeCooling()) {
            free();
        } else {
            state = State.DONE;
        }
    }

    /** Off the legs: the kiln cools freely. */
    void free() {
        state = State.FREE;
        curve.seesNothingFall();
    }

    /** Off the legs before the plan has its heat end. */
    void endEarly() {
        heatEndedIn = OptionalInt.of(leg.segment());
        free();
    }

    /** The firing is over. */
    void end() {
        if (state != State.NOT_LIT) {
            state = State.DONE;
        }
    }

    /** From a hold onto what follows because the curve seems to be there: it may come back. */
    void leaveHold() {
        LeftHold left = new LeftHold(at, clocks.positionMs(), clocks.lastMs());
        enterWhereItIs(at + 1);
        leftHold = Optional.of(left);
    }

    /** °C of the hold that was left so; empty when none was. */
    OptionalDouble leftHoldC() {
        return leftHold.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(legs.get(leftHold.get().at()).toC());
    }

    /** It was left for good. */
    void forgetLeftHold() {
        leftHold = Optional.empty();
    }

    /** Back: what left it was an overshoot, and it has been held all the while. */
    void backToHold() {
        LeftHold left = leftHold.orElseThrow();
        enter(left.at(), left.heldToMs() + (clocks.lastMs() - left.leftMs()));
        curve.settle();
    }

    /** A target has been reached. */
    void targetReached() {
        clocks.at(leg.toMs());
        topReached |= leg.segment() == plan.topSegment();
    }

    PlanLegs legs() {
        return legs;
    }

    /** The leg it stands on, or the last it stood on. */
    Leg leg() {
        return leg;
    }

    int at() {
        return at;
    }

    boolean isOnLast() {
        return at + 1 == legs.size();
    }

    /** The leg that follows; only where there is one. */
    Leg following() {
        return legs.get(at + 1);
    }

    boolean isLit() {
        return state != State.NOT_LIT;
    }

    boolean isOnLeg() {
        return state == State.ON_LEG;
    }

    boolean isFree() {
        return state == State.FREE;
    }

    boolean isDone() {
        return state == State.DONE;
    }

    /** Whether all heating the plan asks for lies behind. */
    boolean heatingIsOver() {
        return isFree() || isDone() || (isOnLeg() && leg.segment() > legs.lastHeatingSegment());
    }

    boolean isTopReached() {
        return topReached;
    }

    /** True once for each hold that began. */
    boolean takeHoldBegan() {
        boolean began = holdBegan;
        holdBegan = false;
        return began;
    }

    /** What the leg it stands on does with the kiln. */
    FiringStage stageOnLeg() {
        return switch (leg.kind()) {
            case RAMP -> FiringStage.HEATING;
            case HOLD -> leg.segment() > legs.lastHeatingSegment() ? FiringStage.COOLING : FiringStage.HOLDING;
            case CONTROLLED_COOLING -> FiringStage.COOLING;
        };
    }

    /** Where it stands, as it is told. */
    PlanPosition position(KnownFrom knownFrom) {
        return switch (state) {
            case NOT_LIT -> PlanPosition.waiting(plan.segments().size(), plan.top());
            case FREE -> beyond(PlanPosition.Leg.FREE_COOLING, knownFrom);
            case DONE -> beyond(PlanPosition.Leg.DONE, knownFrom);
            case ON_LEG -> onLeg(knownFrom);
        };
    }

    private PlanPosition beyond(PlanPosition.Leg what, KnownFrom knownFrom) {
        return PlanPosition.beyond(
                what, plan.segments().size(), knownFrom, clocks.behind(), heatEndedIn, plan.top(), clocks.pastPlan());
    }

    private PlanPosition onLeg(KnownFrom knownFrom) {
        double planned = clocks.wantedC(leg);
        Optional<Duration> holdLeft = leg.kind() == Kind.HOLD
                ? Optional.of(Duration.ofMillis(Math.round(leg.toMs() - clocks.positionMs())))
                : Optional.empty();
        return new PlanPosition(
                leg.segment(),
                plan.segments().size(),
                kind(leg.kind()),
                knownFrom,
                Optional.of(Temperature.ofCelsius(planned)),
                Optional.of(TemperatureDifference.ofKelvin(curve.nowC() - planned)),
                clocks.behind(),
                holdLeft,
                OptionalInt.empty(),
                plan.top(),
                clocks.planAround(legs.all(), at));
    }

    private static PlanPosition.Leg kind(Kind kind) {
        return switch (kind) {
            case RAMP -> PlanPosition.Leg.RAMP;
            case HOLD -> PlanPosition.Leg.HOLD;
            case CONTROLLED_COOLING -> PlanPosition.Leg.CONTROLLED_COOLING;
        };
    }
}
