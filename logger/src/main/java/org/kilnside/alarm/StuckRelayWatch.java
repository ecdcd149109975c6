package org.kilnside.alarm;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.kilnside.schedule.PlannedCurve.Kind;

/**
 * Heating that should not be. An overshoot is heat already on its way from the elements: its rate dies away within a
 * minute or two. A stuck relay's does not. So over the plan the rate of the last minute is held against the minute
 * before; and an overshoot too large for any regulation needs no second look.
 *
 * <p>The numbers are common practice, tried on simulated kilns: thermostats carry a light kiln up to 25 K over at low heat.
 */
final class StuckRelayWatch {
    private static final long MINUTE_MS = 60_000;

    /** From here on it is judged how the rate dies away; the elements have given off by then. */
    private static final long JUDGED_FROM_MS = 110_000;

    private static final long JUDGED_BY_MS = 160_000;
    private static final double STEADY = 0.85;
    private static final double DIES_SLOWLY = 0.7;

    /** By now an overshoot that has gone twice as far as allowed is at its end. */
    private static final double DIES_SLOWLY_FAR_OVER = 0.6;

    private static final double CLEAR_K_PER_H = 30;
    private static final long LONG_LOOK_MS = 90_000;
    private static final double RISES_K_PER_H = 30;

    /** No regulation overshoots by this much and stays there. */
    private static final double FAR_OVER_K = 35;

    /** A swing further than those before it, by this much, is more than a swing. */
    private static final double UNUSUAL_K = 2;

    private static final double CAME_BACK_K = 2;
    private static final double FORGETS = 0.998;
    private static final double SLOW_STEP_K = 0.7;
    private static final double OFF = 0.005;
    /** Elements and ware even out first. */
    private static final long OFF_FOR_MS = 4 * MINUTE_MS;

    /** The line by which it is judged to stand must lie within the time in which it should have been off. */
    private static final long STANDS_FOR_MS = 22 * MINUTE_MS;

    private static final long REBOUNDS_FOR_MS = 30 * MINUTE_MS;
    private static final long FELL_FOR_MS = 5 * MINUTE_MS;
    private static final double FAST_FALL_K_PER_H = -200;
    private static final long OPEN_FOR_MS = 30 * MINUTE_MS;
    private static final double FASTER = 1.1;

    private static final double COLD_ENOUGH_TO_STAND_C = 300;

    /** A swing that is not the highest of its kind is a swing. */
    private static final double BEYOND_K = 0.6;

    private static final long SWUNG_FOR_MS = 90 * MINUTE_MS;
    private static final double SWINGS_K = 3;
    private static final int SWUNG_OFTEN = 8;
    private static final long CEASED_SWINGS = 3;
    private static final long CEASED_LEAST_MS = 5 * MINUTE_MS;

    private static final long REMEMBERED_MS = 6 * MINUTE_MS;

    /** An overshoot that has crept up comes to rest; what heats creeps on. */
    private static final double CREEPS_ON = 0.45;

    /** How far under the plan's clock a kiln's crests have stayed for so long is how far the clock is off. */
    private static final long CRESTS_FOR_MS = 60 * MINUTE_MS;

    /** A kiln that diverges slowly has been doing so for this long when it is told. */
    private static final long CRESTS_UNTIL_MS = 25 * MINUTE_MS;

    private static final long GIVEN_MS = 145_000;
    private static final double ASKED = 0.02;
    private static final double REGULATED = 0.25;

    /** How far over it was, look by look: ms and K. */
    private final Deque<double[]> overs = new ArrayDeque<>();

    /** The same against the plan's clock as it is, and for longer. */
    private final Deque<double[]> crests = new ArrayDeque<>();

    private final Supplier<AlarmLimits> limits;
    private long overSinceMs = Long.MIN_VALUE;
    private boolean stuck;
    private double swingK;
    private double usualSwingK;
    private double offRiseFromC;

    StuckRelayWatch(Supplier<AlarmLimits> limits) {
        this.limits = limits;
    }

    private double overK() {
        return limits.get().overPlan().kelvin();
    }

    /**
     * Looks.
     *
     * @param allowedC the hottest the controller's set-point or the plan allows now
     * @param unsureK by how much that may be too high; being over counts from so much less
     * @param coolingPlanned whether a planned cooling may be going on, in which a kiln is over its plan by nature
     */
    Optional<Finding> lookUnderPlan(Beats beats, double allowedC, double unsureK, boolean coolingPlanned) {
        long nowMs = beats.nowMs();
        double planned = beats.nowC() - allowedC;
        double over = planned + Math.min(unsureK, clockAhead(nowMs, planned));
        remember(nowMs, over);
        seeSwings(over);
        if (over >= overK() - unsureK && overSinceMs == Long.MIN_VALUE) {
            overSinceMs = nowMs;
        }
        boolean sure = over >= overK() || over >= overK() - unsureK && swingsCeased(beats);
        if (!sure) {
            if (over < overK() - unsureK) {
                overSinceMs = Long.MIN_VALUE;
            }
            if (over < overK() / 2) {
                stuck = false;
            }
            return stuck ? finding(beats, allowedC, over) : Optional.empty();
        }
        OptionalDouble last = beats.slope(MINUTE_MS);
        if (coolingPlanned) {
            // A kiln that cools more slowly than planned is over its plan; one that does not cool at all is heated.
            boolean stands = beats.slope(5 * MINUTE_MS).orElse(-100) > -8 && nowMs - overSinceMs >= 5 * MINUTE_MS;
            stuck = stands
                    || climbsOn(beats, nowMs)
                    || stuck && beats.slope(5 * MINUTE_MS).orElse(0) > -20;
        } else if (!stuck) {
            stuck = isHeated(beats, nowMs, last, over);
        } else {
            stuck = beats.slope(3 * MINUTE_MS).orElse(0) > -30;
        }
        return stuck ? finding(beats, allowedC, over) : Optional.empty();
    }

    /**
     * By how much the plan's clock allows more than the controller does, K: its crests of the last while, those of the
     * last minutes left out, all stayed under it by so much. A regulated kiln's crests lie at its set-point or below.
     */
    private double clockAhead(long nowMs, double planned) {
        crests.addLast(new double[] {nowMs, planned});
        while (crests.getFirst()[0] < nowMs - CRESTS_FOR_MS - MINUTE_MS) {
            crests.removeFirst();
        }
        if (crests.getFirst()[0] > nowMs - CRESTS_FOR_MS) {
            return 0;
        }
        double highest = Double.NEGATIVE_INFINITY;
        for (double[] each : crests) {
            highest = each[0] <= nowMs - CRESTS_UNTIL_MS ? Math.max(highest, each[1]) : highest;
        }
        return Math.max(0, -highest);
    }

    /**
     * Whether a kiln that swung has climbed without a swing for far longer than one took: its elements are no longer
     * switched. Over its plan that is a relay, however unsure the plan's clock.
     */
    private static boolean swingsCeased(Beats beats) {
        List<Beats.Peak> turns = beats.turns(SWUNG_FOR_MS, SWINGS_K);
        if (turns.size() < SWUNG_OFTEN || beats.slope(CEASED_LEAST_MS).orElse(0) < RISES_K_PER_H) {
            return false;
        }
        long firstMs = turns.get(0).atMs();
        long lastMs = turns.get(turns.size() - 1).atMs();
        long swingMs = 2 * (lastMs - firstMs) / (turns.size() - 1);
        return beats.nowMs() - lastMs > Math.max(CEASED_LEAST_MS, CEASED_SWINGS * swingMs);
    }

    /** A kiln that is led down and climbs, minute after minute, is heated; what elements and ware even out dies away. */
    private boolean climbsOn(Beats beats, long nowMs) {
        double unsure = beats.slopeNoise(MINUTE_MS, beats.noiseK(10 * MINUTE_MS));
        double last = beats.slope(MINUTE_MS).orElse(0);
        double before = beats.slope(2 * MINUTE_MS, MINUTE_MS).orElse(0);
        return nowMs - overSinceMs >= JUDGED_FROM_MS
                && beats.slope(2 * MINUTE_MS).orElse(0) >= RISES_K_PER_H / 2 + unsure
                && last >= DIES_SLOWLY * before - unsure;
    }

    /** How far over the swings of late went that came back. */
    private void seeSwings(double over) {
        swingK = Math.max(swingK, over);
        if (over < CAME_BACK_K) {
            usualSwingK = Math.max(FORGETS * usualSwingK, swingK);
            swingK = 0;
        }
    }

    private void remember(long nowMs, double over) {
        overs.addLast(new double[] {nowMs, over});
        while (overs.getFirst()[0] < nowMs - REMEMBERED_MS) {
            overs.removeFirst();
        }
    }

    /** The furthest it was over in the minutes before the last two. */
    private double highestOver() {
        double lastMs = overs.getLast()[0];
        double highest = 0;
        for (double[] each : overs) {
            highest = each[0] <= lastMs - 2 * MINUTE_MS ? Math.max(highest, each[1]) : highest;
        }
        return highest;
    }

    private boolean isHeated(Beats beats, long nowMs, OptionalDouble last, double over) {
        long forMs = nowMs - overSinceMs;
        // Where bursts swing a kiln, the next swing goes as far as the last one did.
        boolean bursts = beats.regulatedShare(10 * MINUTE_MS) < REGULATED;
        boolean swings = bursts && over < usualSwingK + UNUSUAL_K;
        if (over >= FAR_OVER_K && last.orElse(0) > -10 && !swings) {
            return true;
        }
        double noiseK = beats.noiseK(10 * MINUTE_MS);
        // A noisy sensor, or one that is read seldom, needs a longer look.
        long window = beats.slopeNoise(MINUTE_MS, noiseK) < CLEAR_K_PER_H ? MINUTE_MS : LONG_LOOK_MS;
        double unsure = beats.slopeNoise(window, noiseK);
        OptionalDouble now = beats.slope(window);
        OptionalDouble before = beats.slope(2 * window, window);
        OptionalDouble earlier = beats.slope(3 * window, 2 * window);
        boolean beyond = over > highestOver() + BEYOND_K;
        // Heat that a thermostat itself gave a moment ago is still on its way. A regulated output that has not yet come
        // down is no such burst: it does not carry a kiln this far.
        boolean given = bursts && beats.meanOutput(GIVEN_MS, 0).orElse(0) > ASKED;
        if (beyond
                && !swings
                && !given
                && now.isPresent()
                && before.orElse(0) >= RISES_K_PER_H
                && now.getAsDouble() >= RISES_K_PER_H + 2 * unsure) {
            // What is left of the rate after a minute: in a longer window it has died for longer.
            double minutes = (double) window / MINUTE_MS;
            double dies = (now.getAsDouble() - unsure) / Math.max(1, before.getAsDouble());
            double steadyShare = Math.pow(STEADY, minutes);
            double slowShare = Math.pow(over >= 2 * overK() ? DIES_SLOWLY_FAR_OVER : DIES_SLOWLY, minutes);
            boolean steady = forMs >= JUDGED_FROM_MS
                    && dies >= steadyShare
                    && before.getAsDouble() >= steadyShare * earlier.orElse(Double.POSITIVE_INFINITY);
            if (steady || forMs >= JUDGED_BY_MS && dies >= slowShare) {
                return true;
            }
        }
        return forMs >= MINUTE_MS && climbsSlowly(beats, over);
    }

    /** It has crept up for minutes already, further each time: no burst of heat does that. */
    private boolean climbsSlowly(Beats beats, double over) {
        double now = beats.nowC();
        OptionalDouble half = beats.meanC(160_000, 140_000);
        OptionalDouble whole = beats.meanC(310_000, 290_000);
        OptionalDouble rough = beats.roughness(310_000, 0);
        if (half.isEmpty() || whole.isEmpty() || rough.isEmpty() || rough.getAsDouble() > 1.5) {
            return false;
        }
        double overThen = over - (now - whole.getAsDouble());
        double unsure = 2 * beats.noiseK(10 * MINUTE_MS);
        return overThen >= 4
                && over > usualSwingK + UNUSUAL_K
                && now - whole.getAsDouble() > 2 * SLOW_STEP_K + unsure
                && half.getAsDouble() >= whole.getAsDouble() + SLOW_STEP_K
                && now - half.getAsDouble()
                        >= Math.max(SLOW_STEP_K, CREEPS_ON * (half.getAsDouble() - whole.getAsDouble()) - unsure);
    }

    /**
     * Whether a kiln fell as fast as an open one until it climbed: faster than half an hour before, as none does that has been
     * shut and without power for longer than that. Shut again its bricks and ware, hotter than its air, bring the number up by
     * some kelvin within minutes, with nothing on.
     */
    static boolean fellFast(Beats beats) {
        long sinceMs = beats.nowMs() - beats.lowest(REBOUNDS_FOR_MS).atMs();
        double fell = beats.slope(sinceMs + FELL_FOR_MS, sinceMs).orElse(0);
        double before = beats.slope(sinceMs + OPEN_FOR_MS + FELL_FOR_MS, sinceMs + OPEN_FOR_MS)
                .orElse(0);
        return fell < FAST_FALL_K_PER_H && fell < FASTER * before;
    }

    /**
     * Looks at a kiln that should be off: its plan is through, or its controller says that it gives nothing.
     *
     * @param offForMs for how long it should have been
     * @param rebounds whether the lid was shut a while ago, or seems to have been, after which the reading climbs by itself
     */
    Optional<Finding> lookWhileOff(Beats beats, long offForMs, boolean rebounds) {
        if (offForMs < OFF_FOR_MS) {
            return Optional.empty();
        }
        double lowest = beats.lowest(Math.min(30 * MINUTE_MS, offForMs)).celsius();
        double rise = beats.nowC() - lowest;
        boolean off = beats.meanOutput(3 * MINUTE_MS, 0).orElse(0) < OFF;
        double last = beats.slope(MINUTE_MS).orElse(0);
        double before = beats.slope(2 * MINUTE_MS, MINUTE_MS).orElse(0);
        double earlier = beats.slope(6 * MINUTE_MS, 4 * MINUTE_MS).orElse(0);
        // A reading that rebounds under a shut lid climbs ever more slowly; elements do not tire.
        boolean climbs = rise >= overK()
                && off
                && last >= RISES_K_PER_H
                && before > 0
                && last >= (rebounds ? STEADY : DIES_SLOWLY) * before
                && (!rebounds || earlier > RISES_K_PER_H && last > STEADY * earlier);
        boolean stands = off
                && offForMs >= STANDS_FOR_MS
                && beats.meanOutput(30 * MINUTE_MS, 0).orElse(0) < 0.005
                && beats.nowC() > COLD_ENOUGH_TO_STAND_C
                && beats.slope(20 * MINUTE_MS).orElse(-100) > -2;
        if (!stuck && (climbs || stands)) {
            stuck = true;
            offRiseFromC = lowest;
        } else if (stuck && last < -10) {
            stuck = false;
        }
        return stuck
                ? finding(beats, Math.min(offRiseFromC, beats.nowC()), beats.nowC() - offRiseFromC)
                : Optional.empty();
    }

    /** It was seen to climb with nothing given: against the set-point, or where it was. */
    Finding climbing(Beats beats, OptionalDouble setpointC) {
        double lowestC = beats.lowest(4 * MINUTE_MS).celsius();
        double allowedC = Math.min(setpointC.orElse(lowestC), beats.nowC());
        return Finding.since(
                        beats.nowMs() - 3 * MINUTE_MS, Measure.ofCelsius(beats.nowC()), Measure.ofCelsius(allowedC))
                .withBadness((beats.nowC() - allowedC) / 30);
    }

    private Optional<Finding> finding(Beats beats, double allowedC, double over) {
        long since = overSinceMs == Long.MIN_VALUE ? beats.nowMs() : overSinceMs;
        return Optional.of(Finding.since(since, Measure.ofCelsius(beats.nowC()), Measure.ofCelsius(allowedC))
                .withBadness(over / 30));
    }

    /** Whether planned cooling may be going on. */
    static boolean coolingPlanned(PlanClock clock) {
        return clock.mayBeIn(Kind.CONTROLLED_COOLING);
    }
}
