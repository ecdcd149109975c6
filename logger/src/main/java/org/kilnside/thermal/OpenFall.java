package org.kilnside.thermal;

import java.util.List;
import org.kilnside.thermal.Forecast.When;

/**
 * A kiln that has fallen from its very top as none does that is shut: opened with the elements going off, it has no corner in its curve
 * by which it could be told. What is asked of it then is a leak far beyond any that kilns are left with, and one that grows less
 * as the kiln gets hotter. Only as long as it stays open does it go on like that, and the open number falls faster at first than
 * what stands in it.
 */
final class OpenFall {
    /**
     * By how much ln λ must lie above, and the leak's exponent below, what is usual, in their spreads together: of 2,400 shut coolings all
     * but four came to 2.2 at the most, and those four, of one outside simulator with fibre and fans in it, to 2.9 to 6.3. A kiln opened
     * to eight and fifteen times its leak came to 4.6 to 6.3; of six trial kilns asked at 600 °C eight times is not said of any, fifteen of
     * three, forty of all.
     */
    private static final double FROM = 2.5;

    private static final double SURE = 4;

    /** What is left may take so many times as long as told: they took 1.3 to 2.8 times as long to 60 °C, few up to 3.7. */
    private static final double LONGER = 3;

    /** More likely than not. */
    static final double SAID = 0.5;

    private OpenFall() {}

    /** How much it looks like one, 0 … 1; 0 where somebody noted, or a corner told, that something was opened, or it did not come from its top. */
    static double share(FiringData data, List<FiringFit.Weighted> fits) {
        if (data.openedNow() || data.free.isEmpty() || data.phases.drivenNow() || HalfSoaked.is(data)) {
            return 0;
        }
        double share = 0;
        for (FiringFit.Weighted each : fits) {
            double[] z = each.fit().solution().parameters();
            double beyond = z[Prior.LAMBDA] - z[Prior.LEAK_EXPONENT];
            share += each.weight() * Math.max(0, Math.min(1, (beyond - FROM) / (SURE - FROM)));
        }
        return share;
    }

    /** The same times, for one that may be open. */
    static When later(When when, double nowS, double share) {
        return new When(when.atS(), when.fromS(), nowS + (when.toS() - nowS) * Math.pow(LONGER, share));
    }
}
