package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;

/**
 * A third of the power gone at once: a ring, a relay, a phase. While there is reserve the controller makes up for it by
 * asking for half as much again; without reserve the rate falls, and mostly it is some of both. So what full power would
 * give, by output, rate and temperature, is held against what it gave a quarter of an hour ago. Where no output is told,
 * the curve has to bend.
 */
final class PowerWatch {
    private static final long MINUTE_MS = 60_000;
    private static final double SEEN_FROM_C = 250;
    private static final double ASKS_MORE = 1.1;
    private static final double FULL = 0.97;
    private static final double MOST_DRIFT = 0.955;
    private static final double LOST = 0.178;

    /** While clay gives off its bound water, what full power gives falls by a fifth in half an hour: no longer look then. */
    private static final double BOUND_WATER_FROM_C = 440;

    private static final double BOUND_WATER_TO_C = 800;
    private static final double LOST_WHILE_DRIFTING = 0.285;
    private static final double LOST_SMOOTH_DRIFTING = 0.195;

    /** A thermostat's bursts say less: the longer the look, the surer. Minutes looked at, and the share lost. */
    private static final double[][] LOST_IN_BURSTS = {{13, 0.235}, {20, 0.2}, {25, 0.175}};

    /** Where the output is a relay's moments, so many standard deviations of their mean are chance. */
    private static final double CHANCE = 3;

    /** More than this is no part of the power but all of it. */
    private static final double ALL_OF_IT = 0.68;

    /** Losing over storing, K/h for each K above the room: 0.23–0.65 in simulated kilns; here the cautious end. */
    private static final double LOSES = 0.3;

    private static final double ROOM_C = 15;

    /** Without output nobody can say how much it is. */
    private static final double GUESSED = 0.3;

    /** Ramps whose rates lie within this of each other are one to the power. */
    private static final double ALIKE = 1.35;

    private static final double BENDS_K = 14;

    private Optional<Finding> lost = Optional.empty();
    private int seen;
    private Leg leg;
    private long legSinceMs;
    private long rampsSinceMs;
    private long clearedAtMs = Long.MIN_VALUE;

    /** @param steady whether nothing else explains a change: no power cut, no false sensor */
    Optional<Finding> look(Beats beats, PlanClock clock, boolean steady) {
        long nowMs = beats.nowMs();
        Leg now = clock.leg();
        if (!now.equals(leg)) {
            legSinceMs = leg != null && isAlike(leg, now) ? legSinceMs : nowMs;
            rampsSinceMs = leg != null && leg.kind() == Kind.RAMP && now.kind() == Kind.RAMP ? rampsSinceMs : nowMs;
            leg = now;
        }
        boolean ramp = now.kind() == Kind.RAMP && clock.isHeatedByBoth();
        if (!ramp) {
            if (!clock.isHeatedByBoth()) {
                lost = Optional.empty();
            }
            return lost;
        }
        if (lost.isPresent() || !steady) {
            return lost;
        }
        boolean same = nowMs - legSinceMs >= 38 * MINUTE_MS && beats.nowC() > SEEN_FROM_C;
        if (!same || nowMs - clearedAtMs < 60 * MINUTE_MS && clearedAtMs != Long.MIN_VALUE) {
            seen = 0;
            return lost;
        }
        Optional<Finding> found = find(beats, now);
        seen = found.isPresent() ? seen + 1 : 0;
        if (seen >= 12) {
            lost = found;
        }
        return lost;
    }

    private static boolean isAlike(Leg one, Leg other) {
        double times = PlanClock.perHour(other) / PlanClock.perHour(one);
        return one.kind() == Kind.RAMP && other.kind() == Kind.RAMP && times < ALIKE && times > 1 / ALIKE;
    }

    private Optional<Finding> find(Beats beats, Leg now) {
        boolean mayDrift = beats.nowC() > BOUND_WATER_FROM_C && beats.nowC() < BOUND_WATER_TO_C;
        boolean full = beats.meanOutput(22 * MINUTE_MS, 0).orElse(0) > FULL;
        if (full || beats.regulatedShare(30 * MINUTE_MS) > 0.5) {
            return find(
                    beats, now, 22 * MINUTE_MS, 11 * MINUTE_MS, 8 * MINUTE_MS, mayDrift ? LOST_SMOOTH_DRIFTING : LOST);
        }
        if (mayDrift && beats.meanOutput(30 * MINUTE_MS, 0).isEmpty()) {
            // By the curve alone a kiln that just reached its plan and one that lost a ring bend alike here.
            return Optional.empty();
        }
        for (double[] look : LOST_IN_BURSTS) {
            long lately = Math.round(look[0] * MINUTE_MS);
            long from = 2 * lately + 12 * MINUTE_MS;
            boolean first = look == LOST_IN_BURSTS[0];
            boolean told = beats.meanOutput(lately, 0).isPresent();
            if (first || told && beats.nowMs() - legSinceMs >= from) {
                double least = mayDrift ? Math.max(LOST_WHILE_DRIFTING, look[1]) : look[1];
                Optional<Finding> found = find(beats, now, from, lately + 3 * MINUTE_MS, lately, least);
                if (found.isPresent()) {
                    return found;
                }
            }
        }
        return Optional.empty();
    }

    /**
     * Compares a stretch with one before it.
     *
     * @param from how long ago the stretch before began, ms
     * @param gone how long ago it ended; between the two whatever happened has its time
     * @param lately how long ago the newer one began
     */
    private static Optional<Finding> find(Beats beats, Leg leg, long from, long gone, long lately, double leastLost) {
        OptionalDouble asked = beats.meanOutput(from, gone);
        OptionalDouble asks = beats.meanOutput(lately, 0);
        OptionalDouble rateBefore = beats.slope(from, gone);
        OptionalDouble rateAfter = beats.slope(lately);
        if (rateBefore.isEmpty() || rateAfter.isEmpty()) {
            return Optional.empty();
        }
        if (asked.isEmpty() || asks.isEmpty()) {
            return byCurve(beats, leg, from, gone, rateBefore.getAsDouble(), rateAfter.getAsDouble());
        }
        if (asked.getAsDouble() < 0.08
                || asks.getAsDouble() < ASKS_MORE * asked.getAsDouble() && asks.getAsDouble() < FULL) {
            return Optional.empty();
        }
        double before = strength(beats, from, gone);
        double after = strength(beats, lately, 0);
        double earlier =
                beats.slope(2 * from - gone, from).isPresent() ? strength(beats, 2 * from - gone, from) : before;
        // Clay's own reaction takes more power too, but over an hour and not at once: what drifts drifts on.
        double drift = Math.min(1, Math.max(MOST_DRIFT, before / earlier));
        double share = 1 - after / (before * drift);
        double chance = (1 - share)
                * Math.hypot(
                        RelayMoments.noise(beats, from, gone) / asked.getAsDouble(),
                        RelayMoments.noise(beats, lately, 0) / asks.getAsDouble());
        return share - CHANCE * chance > leastLost && share < ALL_OF_IT ? found(beats, share) : Optional.empty();
    }

    /** What full power would give, in K/h: stored and lost. */
    private static double strength(Beats beats, long fromAgoMs, long toAgoMs) {
        double rate = beats.slope(fromAgoMs, toAgoMs).orElse(0);
        double celsius = beats.meanC(fromAgoMs, toAgoMs).orElse(beats.nowC());
        return (rate + LOSES * (celsius - ROOM_C))
                / Math.max(0.05, beats.meanOutput(fromAgoMs, toAgoMs).orElse(1));
    }

    private static Optional<Finding> byCurve(
            Beats beats, Leg leg, long from, long gone, double rateBefore, double rateAfter) {
        OptionalDouble off = beats.offLine(from, gone, 0);
        double planned = PlanClock.perHour(leg);
        boolean followed = Math.abs(rateBefore - planned) < 0.25 * planned + 8;
        boolean bent = off.isPresent() && -off.getAsDouble() > BENDS_K && rateAfter < 0.75 * rateBefore;
        return followed && bent ? found(beats, GUESSED) : Optional.empty();
    }

    private static Optional<Finding> found(Beats beats, double share) {
        return Optional.of(
                Finding.since(beats.nowMs() - 12 * MINUTE_MS, Measure.ofShare(1 - share), Measure.ofShare(1)));
    }

    /** Since when ramps follow each other without a hold, ms. */
    long rampsSinceMs() {
        return rampsSinceMs;
    }

    /** Something else turned out to be behind it. */
    void forget(long nowMs) {
        lost = Optional.empty();
        clearedAtMs = nowMs;
    }
}
