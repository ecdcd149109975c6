package org.kilnside.alarm;

import java.util.Optional;
import java.util.function.Supplier;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;

/** What endangers ware though the kiln does as it is told: too fast where steam, clay or quartz are at work; candling too hot. */
final class WareRiskWatch {
    private static final long MINUTE_MS = 60_000;
    private static final long WINDOW_MS = 12 * MINUTE_MS;
    private static final double STEAM_FROM_C = 90;
    private static final double STEAM_TO_C = 130;
    private static final double QUARTZ_FROM_C = 555;
    private static final double QUARTZ_TO_C = 595;

    /** A plan's own rate is the potter's decision; this much more than it is not. */
    private static final double OVER_PLAN_SHARE = 1.3;

    private static final double OVER_PLAN_K_PER_H = 25;
    private static final double COOLS_FASTER = 1.6;
    private static final double CANDLES_BELOW_C = 98;

    /** Near the boiling point it matters. */
    private static final double NEAR_BOILING_C = 96;

    private static final double BOILING_C = 100;

    private final Supplier<AlarmLimits> limits;
    private Optional<Finding> fast = Optional.empty();
    private Optional<Finding> candling = Optional.empty();
    private long overSinceMs = Long.MIN_VALUE;

    WareRiskWatch(Supplier<AlarmLimits> limits) {
        this.limits = limits;
    }

    /**
     * Looks for a rate that ware does not stand.
     *
     * @param plannedPerHour what the plan itself asks at this temperature; 0 where it asks nothing, such as in free
     *     cooling; empty without a plan
     * @param coolsByItself whether, if it cools, it has long been left to itself: a controlled cooling that ends is
     *     followed by a faster fall, which is the kiln's own
     */
    Optional<Finding> lookForRate(Beats beats, Optional<Double> plannedPerHour, boolean coolsByItself) {
        double nowC = beats.nowC();
        double slope = beats.slope(WINDOW_MS).orElse(0);
        // A thermostat's swings bend the line: what may be theirs is left out.
        double unsure = beats.roughness(WINDOW_MS, 0).orElse(0) * 2.7 / 1.5 / (WINDOW_MS / 3_600_000.0);
        double rate = Math.copySign(Math.max(0, Math.abs(slope) - unsure), slope);
        // A swing comes back to where it has been; what counts is how fast new ground is won.
        double won = (nowC - beats.highestBetween(60 * MINUTE_MS, WINDOW_MS)) / (WINDOW_MS / 3_600_000.0);
        rate = rate > 0 ? Math.max(0, Math.min(rate, won)) : rate;
        boolean steam = rate > 0 && nowC > STEAM_FROM_C && nowC < STEAM_TO_C;
        boolean quartz = nowC > QUARTZ_FROM_C && nowC < QUARTZ_TO_C && (rate > 0 || coolsByItself);
        double limit = Double.POSITIVE_INFINITY;
        if (steam) {
            // Without a plan nobody knows whether the ware is raw.
            limit = limits.get().steamRate().kelvinPerHour() * (plannedPerHour.isPresent() ? 1 : 2);
        } else if (quartz) {
            limit = limits.get().quartzRate().kelvinPerHour();
        }
        if (limits.get().rateMaximum().isPresent() && rate > 0) {
            limit = Math.min(
                    limit,
                    limits.get().rateMaximum().map(HeatingRate::kelvinPerHour).orElseThrow() * 1.1);
        }
        if (rate > 0) {
            limit = Math.max(limit, plannedPerHour.orElse(0.0) * OVER_PLAN_SHARE + OVER_PLAN_K_PER_H);
        } else if (quartz) {
            // A light kiln cools faster than that by itself, and nobody can change it; a draught can be shut.
            double before = -beats.slope(45 * MINUTE_MS, 20 * MINUTE_MS).orElse(Double.NEGATIVE_INFINITY);
            limit = Math.max(limit, COOLS_FASTER * before);
        }
        if (Math.abs(rate) > limit) {
            fast = Optional.of(new Finding(
                            fast.map(Finding::sinceMs).orElse(beats.nowMs() - 5 * MINUTE_MS),
                            0,
                            Optional.of(Measure.ofKelvinPerHour(rate)),
                            Optional.of(Measure.ofKelvinPerHour(Math.copySign(limit, rate))))
                    .withBadness(Math.abs(rate) / limit * 2));
        } else if (fast.isPresent() && (Math.abs(rate) < 0.9 * limit || !steam && !quartz)) {
            fast = Optional.empty();
        }
        return fast;
    }

    /** Looks at a hold below the boiling point. */
    Optional<Finding> lookAtCandling(Beats beats, PlanClock clock) {
        Optional<Leg> hold = clock.legs().stream()
                .filter(leg -> leg.kind() == Kind.HOLD && leg.toC() < CANDLES_BELOW_C)
                .filter(leg ->
                        leg.equals(clock.leg()) || leg.fromMs() == clock.leg().toMs())
                .findFirst();
        double nowC = beats.meanC(MINUTE_MS / 2, 0).orElse(beats.nowC());
        double from = hold.map(leg -> Math.min(
                        BOILING_C,
                        Math.max(
                                NEAR_BOILING_C,
                                leg.toC() + limits.get().candlingOver().kelvin())))
                .orElse(Double.POSITIVE_INFINITY);
        if (nowC < from - 2 || hold.isEmpty()) {
            candling = Optional.empty();
            overSinceMs = Long.MIN_VALUE;
            return candling;
        }
        if (nowC >= from && overSinceMs == Long.MIN_VALUE) {
            overSinceMs = beats.nowMs();
        }
        if (overSinceMs != Long.MIN_VALUE && beats.nowMs() - overSinceMs >= MINUTE_MS / 6) {
            candling = Optional.of(Finding.since(
                            overSinceMs,
                            Measure.ofCelsius(nowC),
                            Measure.ofCelsius(hold.get().toC()))
                    .withBadness((nowC - from) / 8));
        }
        return candling;
    }
}
