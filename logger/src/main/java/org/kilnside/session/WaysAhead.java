package org.kilnside.session;

import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.TimeToGo;

/**
 * How a firing goes on, as corners: probably, as early and hot as may be, as late and cold as may be.
 *
 * <p>What is open of the kiln's way and what is open of the temperature itself are independent: the ends of an interval
 * lie as far off as the root of their squares.
 */
record WaysAhead(Trace probable, Trace early, Trace late) {
    /**
     * When a cone is down.
     *
     * @param halfWidthK by how much the curve may really be hotter or colder where a cone is read from it
     */
    ConeDown down(Cone cone, HeatWork work, double halfWidthK, long nowMs) {
        TimeToGo middle = work.timeToGo(cone, probable, 0);
        if (middle.left().isEmpty()) {
            return ConeDown.unsaid(
                    cone,
                    middle.state() == TimeToGo.State.DOWN ? ConeDown.WhyNot.IS_DOWN : ConeDown.WhyNot.NOT_ON_ITS_WAY);
        }
        double leftMs = middle.left().get().toMillis();
        double earlier = Math.hypot(
                leftMs - leftMs(work.timeToGo(cone, early, 0)).orElse(leftMs),
                leftMs - leftMs(work.timeToGo(cone, probable, halfWidthK)).orElse(leftMs));
        Optional<Double> later = leftMs(work.timeToGo(cone, late, 0))
                .flatMap(cold -> leftMs(work.timeToGo(cone, probable, -halfWidthK))
                        .map(colder -> Math.hypot(cold - leftMs, colder - leftMs)));
        long atMs = nowMs + Math.round(leftMs);
        return ConeDown.at(
                cone,
                new ConeDown.When(
                        atMs,
                        Math.max(nowMs, atMs - Math.round(earlier)),
                        later.map(by -> OptionalLong.of(atMs + Math.round(by))).orElse(OptionalLong.empty())));
    }

    /** None where the cone is down already; empty where it does not come down. */
    private static Optional<Double> leftMs(TimeToGo time) {
        return time.state() == TimeToGo.State.DOWN
                ? Optional.of(0.0)
                : time.left().map(left -> (double) left.toMillis());
    }
}
