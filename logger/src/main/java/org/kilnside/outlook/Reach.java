package org.kilnside.outlook;

import java.util.OptionalDouble;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.ImaginedFirings;
import org.kilnside.thermal.LikelyKilns;

/** Whether a plan's top is within a kiln's reach: one judgement, whoever asks and in whatever shape. */
final class Reach {
    /** Likelier than this to get there, or not to, is a yes or a no. */
    private static final double SURE = 0.95;

    /** A controller calls it there this far below, K. */
    private static final double AS_GOOD_AS_K = 2;

    /** What does not get as hot as the coolest enamels want fires no pottery at all, °C (common practice). */
    private static final double EVERY_KILN_C = 700;

    private Reach() {}

    static Reaches of(OutlookQuestion question, LikelyKilns kilns, ImaginedFirings firings) {
        double arrived = firings.share(firing -> firing.arrivalS().isPresent());
        if (firings.middle().powerKnown()) {
            return arrived >= SURE ? Reaches.YES : arrived <= 1 - SURE ? Reaches.NO : Reaches.CANNOT_SAY_YET;
        }
        // Where it has been it can go again, and where every kiln goes too; further, nobody knows.
        OptionalDouble seen = kilns.hottestSeenC();
        double knownC = Math.max(EVERY_KILN_C, seen.orElse(EVERY_KILN_C));
        return arrived >= 0.5 && question.plan().top().celsius() <= knownC + AS_GOOD_AS_K
                ? Reaches.YES
                : Reaches.CANNOT_SAY_YET;
    }
}
