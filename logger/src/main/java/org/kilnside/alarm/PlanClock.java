package org.kilnside.alarm;

import java.util.List;
import java.util.OptionalDouble;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;
import org.kilnside.schedule.Schedule;
import org.kilnside.tracking.PlanPosition;

/**
 * What the plan allows the kiln now, whatever kind of controller follows it. Two clocks bracket the controller's own:
 * one runs by the clock from the lighting on and is never behind it; one waits for a kiln that lags, and is never ahead
 * of it. A controller's own set-point, where it says one, is better than both. Confined to one thread.
 */
final class PlanClock {
    /** A controller that waits lets its set-point run ahead by up to this (common practice: 8–25 K). */
    private static final double WAITS_K = 25;

    private static final double HOLD_COUNTS_K = 10;

    /** A hold may be counted from here on at the latest, though the kiln stays a little away from it. */
    private static final double ARRIVED_K = 3;

    private static final double NEAR_LONG_MS = 1_200_000;

    /** The lighting is found from the curve, to within some minutes. */
    private static final long LIGHTING_MS = 100_000;

    /** A controller's own clock may run fast: a ceramic resonator by half a percent, a rate keyed in whole degrees as much. */
    private static final double FAST_CLOCK = 0.012;

    /** Lit above this, the recording was joined in mid-firing: how long the plan has run is not known. */
    private static final double JOINED_C = 90;

    private static final double AT_TOP_K = 12;
    private static final double WELL_BELOW_K = 40;
    private static final double SPARE_MS = 300_000;
    private static final double ENDED_MS = 600_000;

    private final Schedule plan;
    private List<Leg> legs = List.of();
    private long heatedUntilMs;
    private boolean lit;
    private boolean joined;
    private double highestC = Double.NEGATIVE_INFINITY;
    private double belowTopMs;
    private double writtenMs;
    private double waitingMs;
    private double aheadMs;
    private int holdLeg = -1;
    private boolean arrived;
    private double nearMs;
    private long lastMs;

    PlanClock(Schedule plan) {
        this.plan = plan;
    }

    boolean isLit() {
        return lit;
    }

    boolean isJoined() {
        return joined;
    }

    /** The kiln was lit. */
    void lit(long litMs, double celsius) {
        PlannedCurve curve = plan.curveFrom(Temperature.ofCelsius(celsius));
        legs = curve.legs();
        lit = true;
        joined = celsius > JOINED_C;
        lastMs = litMs;
        int lastRamp = 0;
        for (int i = 0; i < legs.size(); i++) {
            if (legs.get(i).kind() == Kind.RAMP) {
                lastRamp = i;
            }
        }
        boolean held = lastRamp + 1 < legs.size() && legs.get(lastRamp + 1).kind() == Kind.HOLD;
        heatedUntilMs = legs.get(held ? lastRamp + 1 : lastRamp).toMs();
        if (joined) {
            for (Leg leg : legs) {
                if (leg.kind() == Kind.RAMP && celsius <= leg.toC()) {
                    waitingMs = leg.fromMs()
                            + Math.max(0, (celsius - leg.fromC()) / Math.max(1, leg.toC() - leg.fromC()))
                                    * leg.durationMs();
                    break;
                }
            }
            writtenMs = waitingMs;
        }
    }

    /** Time goes on. */
    void advance(long nowMs, double celsius, PlanPosition position) {
        double step = nowMs - lastMs;
        lastMs = nowMs;
        writtenMs += step;
        waitingMs += step;
        Leg leg = legAt(waitingMs);
        if (leg.durationMs() > 0 && waitingMs < leg.toMs()) {
            double perMs = (leg.toC() - leg.fromC()) / leg.durationMs();
            double plannedC = leg.temperatureC(Math.round(waitingMs));
            if (leg.kind() == Kind.RAMP && plannedC - celsius > WAITS_K
                    || leg.kind() == Kind.CONTROLLED_COOLING && celsius - plannedC > WAITS_K) {
                double allowedC = leg.kind() == Kind.RAMP ? celsius + WAITS_K : celsius - WAITS_K;
                waitingMs = Math.max(leg.fromMs(), leg.fromMs() + (allowedC - leg.fromC()) / perMs);
            }
        }
        learnAhead(leg, celsius, step);
        if (leg.kind() == Kind.HOLD && waitingMs < leg.toMs() && isBeforeHold(leg, celsius, step)) {
            waitingMs -= step;
        }
        noticeEnd(step, celsius);
        if (position.knownFrom() == PlanPosition.KnownFrom.CONTROLLER) {
            holdToSegment(position.segment());
        }
    }

    /** How far a kiln is ahead of this clock, as long as it follows a ramp. */
    private void learnAhead(Leg leg, double celsius, double step) {
        if (leg.kind() == Kind.RAMP && leg.durationMs() > 0) {
            double perMs = (leg.toC() - leg.fromC()) / leg.durationMs();
            double now = (celsius - leg.temperatureC(Math.round(waitingMs))) / perMs;
            // No faster than such a clock gains: a kiln that runs away gains more.
            aheadMs = Math.max(0, aheadMs + Math.max(-step, Math.min(FAST_CLOCK * step, now - aheadMs)));
        }
    }

    /**
     * Whether the hold does not count yet. A set-point that waits more strictly than this clock comes to the hold only
     * with the kiln; so the hold counts once the kiln has been there, or stays near it for long.
     */
    private boolean isBeforeHold(Leg leg, double celsius, double step) {
        int which = legs.indexOf(leg);
        if (which != holdLeg) {
            holdLeg = which;
            arrived = false;
            nearMs = 0;
        }
        double awayK = Math.abs(celsius - leg.toC());
        boolean early = celsius < leg.toC() == (leg.segment() <= lastHeatingSegment());
        nearMs = awayK <= HOLD_COUNTS_K ? nearMs + step : 0;
        arrived |= !early || awayK <= ARRIVED_K || nearMs >= NEAR_LONG_MS;
        return early && (!arrived || awayK > HOLD_COUNTS_K);
    }

    /** A kiln that was at the top and has long been well below it has ended its heating, whatever the clocks say. */
    private void noticeEnd(double step, double celsius) {
        highestC = Math.max(highestC, celsius);
        double topC = plan.top().celsius();
        boolean ended = highestC > topC - AT_TOP_K && celsius < topC - WELL_BELOW_K;
        belowTopMs = ended ? belowTopMs + step : 0;
        if (belowTopMs > ENDED_MS) {
            waitingMs = Math.max(waitingMs, heatedUntilMs);
            writtenMs = Math.max(writtenMs, heatedUntilMs);
        }
    }

    private void holdToSegment(int segment) {
        long from = Long.MAX_VALUE;
        long to = Long.MIN_VALUE;
        for (Leg leg : legs) {
            if (leg.segment() == segment) {
                from = Math.min(from, leg.fromMs());
                to = Math.max(to, leg.toMs());
            }
        }
        if (to == Long.MIN_VALUE) {
            from = legs.get(legs.size() - 1).toMs();
            to = Long.MAX_VALUE;
        }
        waitingMs = Math.max(from, Math.min(to, waitingMs));
        writtenMs = Math.max(from, Math.min(to, writtenMs));
    }

    private int lastHeatingSegment() {
        int last = 1;
        for (Leg leg : legs) {
            last = leg.kind() == Kind.RAMP ? leg.segment() : last;
        }
        return last;
    }

    private Leg legAt(double plannedMs) {
        for (Leg leg : legs) {
            if (plannedMs < leg.toMs()) {
                return leg;
            }
        }
        return legs.get(legs.size() - 1);
    }

    private boolean isThrough(double plannedMs) {
        return plannedMs >= legs.get(legs.size() - 1).toMs();
    }

    /** The hottest the plan allows now, by either clock and a few minutes either way, °C. After the heating, its top. */
    double ceilingC() {
        return Math.max(
                Math.max(ceilingC(writtenMs), ceilingC(waitingMs)),
                Math.max(ceilingC(writtenMs + aheadMs), ceilingC(waitingMs + aheadMs)));
    }

    private double ceilingC(double plannedMs) {
        if (isThrough(plannedMs)) {
            // Left to itself it falls from where it was.
            return plan.top().celsius();
        }
        double highest = Double.NEGATIVE_INFINITY;
        for (double at = plannedMs - LIGHTING_MS; at <= plannedMs + LIGHTING_MS; at += LIGHTING_MS / 2.0) {
            long ms = Math.round(Math.max(0, at));
            highest = Math.max(highest, legAt(ms).temperatureC(ms));
        }
        for (Leg leg : legs) {
            if (leg.toMs() >= plannedMs - LIGHTING_MS && leg.toMs() <= plannedMs + LIGHTING_MS) {
                highest = Math.max(highest, leg.toC());
            }
        }
        return highest;
    }

    /** The coldest the plan wants it now, °C; empty unless both clocks say that it is heated. */
    OptionalDouble floorC() {
        if (!isHeatedByBoth()) {
            return OptionalDouble.empty();
        }
        double lowest = Double.POSITIVE_INFINITY;
        for (double clock : new double[] {writtenMs, waitingMs}) {
            long ms = Math.round(Math.max(0, clock - LIGHTING_MS));
            lowest = Math.min(lowest, legAt(ms).temperatureC(ms));
        }
        return OptionalDouble.of(lowest);
    }

    /** Whether both clocks say that ramps and holds of the heating go on, though the controller's own may run fast. */
    boolean isHeatedByBoth() {
        double later = Math.max(writtenMs, waitingMs);
        return later + LIGHTING_MS + FAST_CLOCK * writtenMs < heatedUntilMs;
    }

    /** Whether both clocks say that all heating lies behind, with some minutes to spare. */
    boolean isHeatingOverByBoth() {
        return Math.min(writtenMs, waitingMs) >= heatedUntilMs + SPARE_MS;
    }

    /** Whether either clock may be in a stretch of this kind. */
    boolean mayBeIn(Kind kind) {
        return (!isThrough(writtenMs) && legAt(writtenMs).kind() == kind)
                || (!isThrough(waitingMs) && legAt(waitingMs).kind() == kind);
    }

    /** Whether nothing is planned any more by both clocks: it cools by itself. */
    boolean isThroughByBoth() {
        return isThrough(writtenMs) && isThrough(waitingMs);
    }

    /** The leg of the clock that waits. */
    Leg leg() {
        return legAt(waitingMs);
    }

    /** Planned K/h of a leg, positive where it heats. */
    static double perHour(Leg leg) {
        return leg.durationMs() == 0 ? 0 : (leg.toC() - leg.fromC()) / leg.durationMs() * 3_600_000.0;
    }

    /** Planned K/h where the plan passes a temperature going up; 0 where it does not. */
    double perHourAt(double celsius) {
        for (Leg leg : legs) {
            if (leg.kind() == Kind.RAMP && celsius >= leg.fromC() && celsius < leg.toC()) {
                return perHour(leg);
            }
        }
        return 0;
    }

    List<Leg> legs() {
        return legs;
    }

    /** Since the lighting by the clock, ms. */
    double sinceLitMs() {
        return writtenMs;
    }
}
