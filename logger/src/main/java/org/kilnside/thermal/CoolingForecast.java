package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;

/** When a kiln that is on its way down will be below some temperatures: ln of the time that remains, and its spread. */
final class CoolingForecast {
    /** Kinds of wall less likely than this are left out of the intervals: each costs a dozen runs. */
    private static final double LEAST_WEIGHT = 0.02;

    private CoolingForecast() {}

    /**
     * Asks all fits.
     *
     * @param thresholdsC falling
     * @param ahead what the plan still heats on the way down; empty = the output is off
     * @return spreads of ln(remaining seconds), a threshold each
     */
    static Spread[] remaining(
            FiringData data, List<FiringFit.Weighted> fits, double[] thresholdsC, Optional<PlanAhead> ahead) {
        List<FiringFit.Weighted> likely =
                fits.stream().filter(each -> each.weight() >= LEAST_WEIGHT).toList();
        return Spread.ask(
                likely,
                fit -> {
                    Projection projection = new Projection(fit);
                    return z -> logs(data, fit, projection.now(z), z, thresholdsC, ahead);
                },
                thresholdsC.length);
    }

    private static double[] logs(
            FiringData data,
            FittedKiln fit,
            WallSlab slab,
            double[] z,
            double[] thresholdsC,
            Optional<PlanAhead> ahead) {
        double from = ahead.map(plan -> PlanRun.follow(slab, plan, data.nowS, false, Double.POSITIVE_INFINITY)
                        .endS())
                .orElse(data.nowS);
        double[] times = Projection.below(slab, from, fit.prior().kiln(z).ambientC(), thresholdsC);
        for (int i = 0; i < times.length; i++) {
            times[i] = Math.log(Math.max(1, times[i] - data.nowS));
        }
        return times;
    }
}
