package org.kilnside.alarm;

import java.util.Optional;
import org.kilnside.schedule.Schedule;

/** Whether a kiln that climbs slowly does so because it gives all it has, or because its ware takes the heat. */
final class Stall {
    private static final long LATELY_MS = 1_800_000;
    private static final double ALL_IT_HAS = 0.97;
    private static final double STALLED_K = 15;
    private static final double STALLED_SHARE = 0.5;
    private static final double STALLED_H = 2.6;

    /** Clay gives off its bound water from here to some 700 °C, and what it took lingers in the forecasts. */
    private static final double BOUND_WATER_FROM_C = 400;

    private static final double BOUND_WATER_TO_C = 800;

    /** A kiln that climbs more slowly than this stalls, bound water or not (common practice). */
    private static final double STALLS_K_PER_H = 45;

    private final Optional<Schedule> plan;
    private final Optional<PlanClock> clock;
    private final Beats beats;

    Stall(Optional<Schedule> plan, Optional<PlanClock> clock, Beats beats) {
        this.plan = plan;
        this.clock = clock;
        this.beats = beats;
    }

    /** Whether raw ware may be giving off its bound water, which takes up to as much power again as the kiln needs. */
    boolean mayGiveOffBoundWater() {
        return !beats.isEmpty()
                && beats.nowC() > BOUND_WATER_FROM_C
                && beats.nowC() < BOUND_WATER_TO_C
                && beats.slope(LATELY_MS).orElse(STALLS_K_PER_H) >= STALLS_K_PER_H;
    }

    /** Whether the kiln gives all it has and at its pace would take hours more to its top, at less than half the plan's. */
    boolean isHopeless() {
        if (plan.isEmpty() || beats.isEmpty() || beats.nowC() < BOUND_WATER_TO_C) {
            return false;
        }
        double toGoK = plan.get().top().celsius() - beats.nowC();
        double rate = beats.slope(LATELY_MS).orElse(Double.POSITIVE_INFINITY);
        double planned = clock.filter(PlanClock::isLit)
                .map(its -> its.perHourAt(beats.nowC()))
                .orElse(0.0);
        return beats.meanOutput(LATELY_MS, 0).orElse(0) > ALL_IT_HAS
                && toGoK > STALLED_K
                && rate < STALLED_SHARE * planned
                && toGoK > STALLED_H * Math.max(0, rate);
    }
}
