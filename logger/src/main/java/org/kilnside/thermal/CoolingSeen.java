package org.kilnside.thermal;

import java.util.List;

/**
 * What a cooling and its fits show of how far a forecast may be off.
 *
 * @param nowC where the curve is
 * @param roomC the room as fitted, °C
 * @param leftAloneForS for how long the elements have been off, or what stands for it while the kiln is led down
 * @param misfit mean square of the cooling's residuals, each over what the model may be off by
 * @param slowness how slow the wall is, in spreads of what walls of brick, or of fibre, usually are
 * @param fibre probability that it is fibre
 */
record CoolingSeen(double nowC, double roomC, double leftAloneForS, double misfit, double slowness, double fibre) {
    private static final double LEAST_ALONE_S = 240;
    private static final double MOST_ALONE_S = 40_000;

    /** A kiln that is led down says as little of itself as one left alone for this long, s. */
    private static final double LED_DOWN_S = 6000;

    /** Below it the mean square is the sensor's noise and says nothing. */
    private static final double LEAST_MISFIT = 0.03;

    /** Beyond these the trials had too few kilns to tell. */
    private static final double LEAST_SLOWNESS = -1;

    private static final double MOST_SLOWNESS = 2.5;
    private static final double MOST_FIBRE = 0.5;
    private static final double LEAST_LOG_FALL = -0.9;
    private static final double LEAST_DEVIATION = 0.003;

    static CoolingSeen of(FiringData data, List<FiringFit.Weighted> fits, double roomC) {
        double slowness = 0;
        double fibre = 0;
        for (FiringFit.Weighted each : fits) {
            slowness += each.weight() * slowness(each.fit());
            fibre += each.fit().kind() == WallKind.FIBRE ? each.weight() : 0;
        }
        boolean ledNow = data.phases.drivenNow() || data.free.isEmpty();
        // What was led down for long says no less the moment it is let go.
        boolean wasLed = DrivenFall.lastedS(data.course, data.phases) >= DrivenFall.LED_FOR_S;
        double alone = ledNow ? LED_DOWN_S : Math.max(data.leftAloneForS(), wasLed ? LED_DOWN_S : 0);
        return new CoolingSeen(
                data.nowC, roomC, alone, FiringFit.misfit(fits.get(0).fit()).cooling(), slowness, fibre);
    }

    private static double slowness(FittedKiln fit) {
        return fit.kind() == WallKind.FIBRE
                ? fit.solution().parameters()[Prior.TAU]
                : Math.log(fit.kiln().tauS() / WallKind.BRICK.typicalTauS()) / Prior.TAU_SPREAD;
    }

    /**
     * What tells how wide an interval must be, each about 0 for a common case: ln of how many times the difference to the room must
     * fall by a factor e, misfit, slowness, time left alone, the fit's own deviation, fibre.
     *
     * @param deviation the fit's own of ln(remaining time)
     */
    double[] telling(double deviation, double thresholdC) {
        double fall = Math.log(Math.max(1, nowC - roomC) / Math.max(1, thresholdC - roomC));
        return new double[] {
            Math.max(LEAST_LOG_FALL, Math.log(Math.max(1e-3, fall))),
            Math.log(misfit + LEAST_MISFIT) + 2,
            Math.max(LEAST_SLOWNESS, Math.min(MOST_SLOWNESS, slowness)),
            Math.log(Math.max(LEAST_ALONE_S, Math.min(MOST_ALONE_S, leftAloneForS)) / 6000),
            Math.log(Math.max(LEAST_DEVIATION, deviation)) + 3,
            Math.min(MOST_FIBRE, fibre)
        };
    }
}
