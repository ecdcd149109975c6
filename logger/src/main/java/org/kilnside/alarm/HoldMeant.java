package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/** Whether a number that stands is meant to: what set-point, plan and output say of it. Confined to the session's thread. */
final class HoldMeant {
    private static final long MINUTE_MS = 60_000;
    private static final double AT_HOLD_K = 3;

    /** A controller that waits for its kiln, or a potter who holds on, lengthens a hold of the plan by so much. */
    private static final long HOLDS_LONGER_MS = 30 * MINUTE_MS;

    private static final long GAINSAYS_MS = 10 * MINUTE_MS;

    /** A controller that gives this gives all it has; one that gives so much less had some left. */
    private static final double ALL_IT_HAS = 0.97;

    private static final double MUCH_LESS = 0.2;
    private static final double OFF = 0.005;
    private static final double SOME = 0.05;

    /** Above this a kiln that is not heated falls by degrees within minutes, whatever its wall. */
    private static final double HOT_C = 300;

    private final Beats beats;
    private final Optional<Schedule> plan;

    HoldMeant(Beats beats, Optional<Schedule> plan) {
        this.beats = beats;
        this.plan = plan;
    }

    /**
     * What the kiln is meant to do where its number has stood for so long: by its set-point, or, where none is told now, by
     * the holds of the plan and how long they last.
     *
     * @param hadSetpoint whether a set-point was told earlier in this firing
     */
    FrozenWatch.Meant look(long standsMs, boolean hadSetpoint) {
        OptionalDouble wanted = beats.setpointC();
        if (wanted.isPresent()) {
            double beforeC = beats.setpointC(standsMs).orElse(Double.NaN);
            boolean stands = Math.abs(wanted.getAsDouble() - beats.nowC()) < AT_HOLD_K
                    && Math.abs(wanted.getAsDouble() - beforeC) < AT_HOLD_K;
            if (stands) {
                return FrozenWatch.Meant.TO_STAND;
            }
            boolean above = wanted.getAsDouble() > beats.nowC() + AT_HOLD_K;
            return above ? FrozenWatch.Meant.TO_RISE : FrozenWatch.Meant.TO_MOVE;
        }
        if (plan.isEmpty()) {
            return hadSetpoint ? FrozenWatch.Meant.TO_MOVE : FrozenWatch.Meant.NOT_TOLD;
        }
        boolean held = plan.get().segments().stream()
                .anyMatch(each -> each instanceof Segment.Ramp ramp
                        && !ramp.hold().isZero()
                        && Math.abs(ramp.to().celsius() - beats.nowC()) < AT_HOLD_K
                        && standsMs < ramp.hold().toMillis() + HOLDS_LONGER_MS);
        return held ? FrozenWatch.Meant.TO_STAND : FrozenWatch.Meant.TO_MOVE;
    }

    /** Whether the output has become one with which no kiln goes on standing still: all of it, or, in a hot kiln, nothing. */
    boolean isGainsaid(long standsMs) {
        OptionalDouble now = beats.meanOutput(GAINSAYS_MS, 0);
        OptionalDouble earlier = beats.meanOutput(4 * GAINSAYS_MS, 2 * GAINSAYS_MS);
        if (standsMs < GAINSAYS_MS || now.isEmpty() || earlier.isEmpty()) {
            return false;
        }
        boolean all = now.getAsDouble() > ALL_IT_HAS && earlier.getAsDouble() < ALL_IT_HAS - MUCH_LESS;
        boolean nothing = now.getAsDouble() < OFF && earlier.getAsDouble() > SOME && beats.nowC() > HOT_C;
        return all || nothing;
    }
}
