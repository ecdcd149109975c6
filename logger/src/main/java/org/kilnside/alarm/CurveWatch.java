package org.kilnside.alarm;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.kilnside.firing.ControllerReport;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.CoolingAtFullOutput;
import org.kilnside.sensor.SignalWatch.Suspicion;
import org.kilnside.tracking.FiringStage;
import org.kilnside.tracking.FiringTracker;

/**
 * What the curve says, looked at each ten seconds of the kiln's time: each detector with what it may take for granted
 * by plan, set-point and output. Confined to the session's thread.
 */
final class CurveWatch {
    private static final long MINUTE_MS = 60_000;
    private static final double OFF = 0.005;

    /** What has not been found for this long is over. */
    private static final long CALM_MS = 10 * MINUTE_MS;

    /** The plan's clocks leave this much room of their own. */
    private static final double UNSURE_K = 4;

    /** A controller whose output is above this asks for heat. */
    private static final double ASKS = 0.06;

    private static final double COMES_DOWN = 0.75;
    private static final double REGULATED = 0.25;

    /** Nobody switches a kiln off this far below the top and calls it done. */
    private static final double NEAR_TOP_K = 10;

    private static final double COLD_C = 45;
    private static final long SILENT_MS = 20 * MINUTE_MS;
    private static final long STEERED_MS = 50 * MINUTE_MS;
    private static final long FREE_SINCE_MS = 30 * MINUTE_MS;

    private final Supplier<AlarmLimits> limits;
    private final Optional<Schedule> plan;
    private final Beats beats = new Beats();
    private final HoldMeant meant;
    private final Optional<PlanClock> clock;
    private final StuckRelayWatch stuckUnderPlan;
    private final StuckRelayWatch stuckWhileOff;
    private final UnpoweredClimb unpowered = new UnpoweredClimb();
    private final HungryKilnWatch hungry = new HungryKilnWatch();
    private final TooHighNumberWatch tooHigh;
    private final FallWatch fall = new FallWatch();
    private final EarlyEndWatch earlyEnd = new EarlyEndWatch();
    private final Stall stall;
    private final LidWatch lid = new LidWatch();
    private final Optional<ProgramWatch> program;
    private final PowerWatch power = new PowerWatch();
    private final WareRiskWatch ware;
    private final WaterWatch water = new WaterWatch();
    private final NewsWatch news;
    private final CoolingAtFullOutput cooling = new CoolingAtFullOutput();
    private boolean due;
    private double highestC = Double.NEGATIVE_INFINITY;
    private long hadSetpointMs = Long.MIN_VALUE;
    private long offSinceMs = Long.MAX_VALUE;
    private long steeredMs;
    private boolean coneIsDown;

    CurveWatch(Supplier<AlarmLimits> limits, Optional<Schedule> plan, NewsWatch news) {
        this.limits = limits;
        this.plan = plan;
        this.clock = plan.map(PlanClock::new);
        this.program = plan.map(ProgramWatch::new);
        this.stall = new Stall(plan, clock, beats);
        this.meant = new HoldMeant(beats, plan);
        this.tooHigh = new TooHighNumberWatch(limits, plan);
        this.stuckUnderPlan = new StuckRelayWatch(limits);
        this.stuckWhileOff = new StuckRelayWatch(limits);
        this.ware = new WareRiskWatch(limits);
        this.news = news;
    }

    void good(long elapsedMs, double celsius, ControllerReport controller) {
        due |= beats.add(elapsedMs, celsius, controller);
        cooling.offer(
                elapsedMs,
                celsius,
                controller
                        .output()
                        .map(its -> OptionalDouble.of(its.fraction()))
                        .orElseGet(OptionalDouble::empty));
        highestC = Math.max(highestC, celsius);
    }

    Stall stall() {
        return stall;
    }

    /** The cone the plan aims for is down: who ends the firing now has what they wanted. */
    void coneIsDown() {
        coneIsDown = true;
    }

    void earlier(List<DryingTake> takes) {
        water.earlier(takes);
    }

    boolean lookIsDue() {
        return due;
    }

    void look(FiringTracker tracker, Map<Suspicion, Long> suspicions, LineWatch lines, AlarmLedger ledger) {
        due = false;
        long nowMs = beats.nowMs();
        clock.ifPresent(its -> follow(its, tracker));
        if (beats.setpointC().isPresent()) {
            hadSetpointMs = nowMs;
        }
        if (beats.setpointC().isPresent() || isCoolingPlanned()) {
            steeredMs = nowMs;
        }
        lookAtSensor(suspicions, lines, ledger, nowMs);
        boolean heated = isHeated(tracker);
        ledger.assess(AlarmKind.SENSOR_SLIPPED, fall.lookForSlip(beats, heated), nowMs);
        boolean distrusted = ledger.isActive(AlarmKind.SENSOR_SLIPPED)
                || ledger.isActive(AlarmKind.SENSOR_SATURATED)
                || ledger.isActive(AlarmKind.SENSOR_FROZEN)
                || ledger.isActive(AlarmKind.SENSOR_GONE)
                || ledger.isActive(AlarmKind.SENSOR_REVERSED);
        if (!distrusted) {
            lookAtHeat(tracker, ledger, nowMs, heated);
        }
        lookAtWare(tracker, lines, ledger, nowMs, heated, distrusted);
        ledger.tidy(nowMs);
    }

    private void follow(PlanClock its, FiringTracker tracker) {
        if (!its.isLit() && tracker.litMs().isPresent()) {
            long litMs = tracker.litMs().getAsLong();
            long ago = Math.max(0, beats.nowMs() - litMs);
            its.lit(litMs, beats.meanC(ago + 20_000, Math.max(0, ago - 20_000)).orElse(beats.nowC()));
        }
        if (its.isLit()) {
            tracker.position().ifPresent(position -> its.advance(beats.nowMs(), beats.nowC(), position));
        }
    }

    private void lookAtSensor(Map<Suspicion, Long> suspicions, LineWatch lines, AlarmLedger ledger, long nowMs) {
        Optional<Finding> saturated = suspicion(suspicions, Suspicion.SATURATED);
        long standsMs = Math.max(0, nowMs - lines.frozen().sinceMs());
        Optional<FrozenWatch.Standing> stands = lines.frozen()
                .look(
                        nowMs,
                        beats.nowC(),
                        beats.slope(standsMs + 10 * MINUTE_MS, standsMs),
                        beats.slope(standsMs + 4 * MINUTE_MS, standsMs),
                        meant.look(standsMs, hadSetpointMs != Long.MIN_VALUE),
                        meant.isGainsaid(standsMs));
        Optional<Finding> frozen = stands.filter(FrozenWatch.Standing::frozen)
                .map(FrozenWatch.Standing::found)
                .or(() -> suspicion(suspicions, Suspicion.FROZEN));
        Optional<Finding> unexplained = stands.map(FrozenWatch.Standing::found);
        ledger.assess(
                AlarmKind.NUMBER_STANDS,
                frozen.or(() -> saturated).isPresent() ? Optional.empty() : unexplained,
                nowMs);
        ledger.assess(AlarmKind.SENSOR_SATURATED, saturated, nowMs);
        // At its end it stands still too: that is one thing wrong, not two.
        ledger.assess(AlarmKind.SENSOR_FROZEN, saturated.isPresent() ? Optional.empty() : frozen, nowMs, CALM_MS);
        suspicion(suspicions, Suspicion.REVERSED_LEADS)
                .ifPresent(found -> ledger.raise(AlarmKind.SENSOR_REVERSED, found, nowMs));
        Optional<Finding> low = isOutputNone(ledger, nowMs)
                ? Optional.empty()
                : hungry.look(beats, suspicion(suspicions, Suspicion.READS_FAR_TOO_LOW));
        Optional<Finding> lying = low.or(() -> suspicion(suspicions, Suspicion.RISES_TOO_FAST));
        Optional<Finding> cannotBe = tooHigh.look(beats);
        // Without power the number is right, and a kiln that takes none explains it.
        if (lying.isPresent() && !ledger.isActive(AlarmKind.POWER_GONE)) {
            ledger.raise(AlarmKind.SENSOR_LYING, lying.get(), nowMs);
        } else if (cannotBe.isPresent() && !ledger.isActive(AlarmKind.STUCK_RELAY)) {
            ledger.raise(AlarmKind.SENSOR_LYING, cannotBe.get(), nowMs);
        } else if (hungry.isGainsaid(beats)) {
            ledger.clear(AlarmKind.SENSOR_LYING, nowMs);
        }
    }

    /** Whether the output is none, so that nothing is held against the number for it; what was raised in this cooling is over. */
    private boolean isOutputNone(AlarmLedger ledger, long nowMs) {
        Optional<Finding> contradicted = cooling.sinceMs().stream()
                .mapToObj(since -> Finding.since(since, Measure.ofShare(1), Measure.ofShare(0)))
                .findFirst();
        ledger.assess(AlarmKind.OUTPUT_CONTRADICTED, contradicted, nowMs);
        contradicted
                .filter(found -> ledger.isActiveSince(AlarmKind.SENSOR_LYING, found.sinceMs()))
                .ifPresent(found -> ledger.clear(AlarmKind.SENSOR_LYING, nowMs));
        return contradicted.isPresent();
    }

    private static Optional<Finding> suspicion(Map<Suspicion, Long> suspicions, Suspicion which) {
        return Optional.ofNullable(suspicions.get(which)).map(Finding::since);
    }

    /** Whether heat should be going in: the controller's set-point says so, or both clocks of the plan do. */
    private boolean isHeated(FiringTracker tracker) {
        if (beats.setpointC().isPresent()) {
            return beats.setpointC().getAsDouble() > beats.nowC() - 25 && !isCoolingPlanned();
        }
        return clock.map(its -> its.isLit() && its.isHeatedByBoth())
                .orElseGet(() -> tracker.stage() == FiringStage.HEATING || tracker.stage() == FiringStage.HOLDING);
    }

    private boolean isCoolingPlanned() {
        return clock.map(its -> its.isLit() && StuckRelayWatch.coolingPlanned(its))
                .orElse(false);
    }

    private void lookAtHeat(FiringTracker tracker, AlarmLedger ledger, long nowMs, boolean heated) {
        OptionalDouble setpoint = beats.setpointC();
        OptionalDouble output = beats.meanOutput(MINUTE_MS, 0);
        boolean lit = clock.map(PlanClock::isLit).orElse(false);
        if (lit) {
            ledger.assess(AlarmKind.NOT_THIS_PLAN, program.orElseThrow().look(beats, clock.get()), nowMs);
        }
        Optional<Finding> stuck = Optional.empty();
        boolean other = program.map(ProgramWatch::isOther).orElse(false);
        if (setpoint.isPresent()) {
            stuck = stuckUnderPlan.lookUnderPlan(beats, allowed(setpoint.getAsDouble()), 0, isCoolingPlanned());
        } else if (lit && !other) {
            stuck = stuckUnderPlan.lookUnderPlan(beats, clock.get().ceilingC(), UNSURE_K, isCoolingPlanned());
            if (stuck.isPresent() && isOtherProgram(output)) {
                program.orElseThrow().otherProgram(stuck.get());
                stuck = Optional.empty();
            }
        }
        // What evens out in a cold kiln carries it by some kelvin.
        double overK = limits.get().overPlan().kelvin();
        double fromC = setpoint.isPresent() ? setpoint.getAsDouble() + overK / 2 : allowedByPlan() + overK;
        offSinceMs = isOff(tracker, output) ? Math.min(offSinceMs, nowMs) : Long.MAX_VALUE;
        boolean off = offSinceMs != Long.MAX_VALUE;
        boolean rebounds = lid.rebounds(nowMs) || off && StuckRelayWatch.fellFast(beats);
        boolean climbs = unpowered.look(beats, withoutSetpointMs(nowMs))
                && beats.nowC() > fromC
                && !rebounds
                && !mayStartLate(tracker);
        if (stuck.isEmpty() && climbs) {
            stuck = Optional.of(stuckWhileOff.climbing(beats, setpoint));
        }
        if (stuck.isEmpty() && off) {
            stuck = stuckWhileOff.lookWhileOff(beats, nowMs - offSinceMs, rebounds);
        }
        ledger.assess(AlarmKind.STUCK_RELAY, stuck, nowMs, CALM_MS);
        Optional<Finding> gone = fall.lookForPower(beats, heated ? wanted() : OptionalDouble.empty());
        ledger.assess(AlarmKind.POWER_GONE, gone, nowMs);
        earlyEnd.look(beats, plannedAtLeast(), plan.map(Schedule::top), highestC, ledger);
        if (lit) {
            boolean steady = gone.isEmpty() && !other && stuck.isEmpty();
            ledger.assess(AlarmKind.THIRD_OF_POWER_GONE, power.look(beats, clock.get(), steady), nowMs, CALM_MS);
        }
    }

    /** The hottest the plan allows a kiln that is being heated; else no cold one is judged. */
    private double allowedByPlan() {
        return clock.filter(its -> its.isLit() && its.isHeatedByBoth())
                .map(PlanClock::ceilingC)
                .orElse(COLD_C);
    }

    private long withoutSetpointMs(long nowMs) {
        return hadSetpointMs == Long.MIN_VALUE ? 0 : nowMs - hadSetpointMs;
    }

    /** Above the plan the controller itself asks for heat, or the curve has been steeper from the beginning. */
    private boolean isOtherProgram(OptionalDouble output) {
        return output.isPresent()
                ? output.getAsDouble() > ASKS && !isComingDown(output.getAsDouble())
                : program.orElseThrow().wasFasterAllAlong(beats, clock.orElseThrow());
    }

    /** A controller that follows another program asks for its heat; one whose relay sticks asks for less and less. */
    private boolean isComingDown(double output) {
        return beats.regulatedShare(10 * MINUTE_MS) > REGULATED
                && output
                        < COMES_DOWN
                                * beats.meanOutput(3 * MINUTE_MS, 2 * MINUTE_MS).orElse(0);
    }

    /** Set-points may run by the minute; a plan's top is allowed while the controller steers for it. */
    private double allowed(double setpointC) {
        OptionalDouble minuteAgo = beats.setpointC(MINUTE_MS);
        return Math.max(setpointC, Math.min(minuteAgo.orElse(setpointC), setpointC + 10));
    }

    private OptionalDouble wanted() {
        OptionalDouble setpoint = beats.setpointC();
        if (setpoint.isPresent()) {
            // A set-point that comes down leads the kiln down, whatever the plan's clocks say.
            boolean leadsDown =
                    beats.setpointC(10 * MINUTE_MS).orElse(setpoint.getAsDouble()) > setpoint.getAsDouble() + 3;
            return leadsDown ? OptionalDouble.empty() : setpoint;
        }
        OptionalDouble floor = clock.map(PlanClock::floorC).orElse(OptionalDouble.empty());
        if (plan.isEmpty() || wasNearTop()) {
            // Without a plan a potter who switches off at a cone is not to be woken for it, unless heat is asked for.
            boolean asks = beats.meanOutput(2 * MINUTE_MS, 0).orElse(0) > 0.6;
            return asks ? OptionalDouble.of(beats.highest(15 * MINUTE_MS).celsius() + 7) : OptionalDouble.empty();
        }
        return floor;
    }

    /** The least the plan wants of a kiln whose heating is not done; empty where it may be. */
    private OptionalDouble plannedAtLeast() {
        return plan.isEmpty() || wasNearTop() || coneIsDown
                ? OptionalDouble.empty()
                : clock.filter(PlanClock::isLit).map(PlanClock::floorC).orElse(OptionalDouble.empty());
    }

    private boolean wasNearTop() {
        return plan.isPresent() && highestC > plan.get().top().celsius() - NEAR_TOP_K;
    }

    /** Whether no heat should be going in at all. */
    private boolean isOff(FiringTracker tracker, OptionalDouble output) {
        if (beats.setpointC().isPresent() || mayStartLate(tracker)) {
            return false;
        }
        // A controller that gave its set-point and gives it no more has ended.
        boolean silent = hadSetpointMs != Long.MIN_VALUE && beats.nowMs() - hadSetpointMs > SILENT_MS;
        boolean planned = !silent
                && clock.map(its -> its.isLit() && !its.isHeatingOverByBoth()).orElse(false);
        if (output.isPresent()) {
            return !planned
                    && output.getAsDouble() < OFF
                    && beats.meanOutput(15 * MINUTE_MS, 0).orElse(1) < OFF;
        }
        return silent
                || clock.map(its -> its.isLit() && its.isHeatingOverByBoth() && its.isThroughByBoth())
                        .orElse(false);
    }

    /** Before the lighting the room itself may warm the kiln by some degrees. */
    private boolean mayStartLate(FiringTracker tracker) {
        return tracker.stage() == FiringStage.WAITING_TO_START && beats.nowC() < 35;
    }

    private void lookAtWare(
            FiringTracker tracker,
            LineWatch lines,
            AlarmLedger ledger,
            long nowMs,
            boolean heated,
            boolean distrusted) {
        boolean cooling = tracker.stage() == FiringStage.COOLING || tracker.stage() == FiringStage.ENDED;
        boolean hot = highestC > limits.get().lid().celsius() + 60;
        boolean free = cooling && hot && isFree();
        ledger.assess(AlarmKind.LID_MOVED, lid.look(beats, free), nowMs);
        if (distrusted) {
            return;
        }
        Optional<Double> planned = clock.filter(PlanClock::isLit).map(its -> its.perHourAt(beats.nowC()));
        boolean opened = ledger.isActive(AlarmKind.LID_MOVED);
        if (heated || !opened) {
            ledger.assess(
                    AlarmKind.TOO_FAST,
                    ware.lookForRate(beats, planned, nowMs - steeredMs > STEERED_MS),
                    nowMs,
                    CALM_MS);
        }
        clock.filter(PlanClock::isLit)
                .ifPresent(its -> ledger.assess(
                        AlarmKind.CANDLING_OVERSHOOT, ware.lookAtCandling(beats, its), nowMs, 3 * CALM_MS));
        ledger.assess(AlarmKind.WATER_LEAVING, water.look(beats, heated, power.rampsSinceMs()), nowMs);
        news.look(nowMs, lines.hottestC().orElse(beats.nowC()), cooling && hot, lid, ledger);
    }

    /** Whether nothing heats it and nothing is planned to. */
    private boolean isFree() {
        if (hadSetpointMs != Long.MIN_VALUE && beats.nowMs() - hadSetpointMs < FREE_SINCE_MS) {
            return false;
        }
        OptionalDouble output = beats.meanOutput(FREE_SINCE_MS, 0);
        return output.isPresent()
                ? output.getAsDouble() < 0.005
                : clock.map(its -> !its.isLit()
                                || !its.mayBeIn(org.kilnside.schedule.PlannedCurve.Kind.CONTROLLED_COOLING))
                        .orElse(true);
    }
}
