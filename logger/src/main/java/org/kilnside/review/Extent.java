package org.kilnside.review;

import org.kilnside.heatwork.ConeReached;
import org.kilnside.quantity.Temperature;

/** How much of a firing the readings show: what was not seen is held against no load. */
public enum Extent {
    /** All that counts for the cone. */
    WHOLE,
    /** Not its top: what the readings prove is a lower bound. */
    TOP_HIDDEN,
    /** Not its top, and nothing that brings a cone down: it may have come to any cone, or to none. */
    NO_CONE_NAMED,
    /** Its beginning only: the readings end while the kiln was heated, before any cone came down. */
    ENDS_ON_THE_WAY,
    /** None of it: the kiln was not heated. */
    NO_FIRING;

    static Extent of(Case facts) {
        ConeReached seen = facts.seen();
        double firstC = facts.question().readings().curve().temperatureC(0);
        if (seen.isHardlyWarmed(Temperature.ofCelsius(firstC))) {
            return NO_FIRING;
        }
        boolean unseen = seen.isAtLeast()
                && facts.hidden()
                        .map(hidden -> hidden.heatingWentOn() || !hidden.clear())
                        .orElse(true);
        if (unseen && seen.isBelowScale() && !facts.witness().isKnown()) {
            return NO_CONE_NAMED;
        }
        if (facts.topHidden()) {
            return TOP_HIDDEN;
        }
        boolean nothingDown = facts.attribution().reached().isBelowScale();
        return nothingDown && !facts.phase().falls() && facts.planReaches() ? ENDS_ON_THE_WAY : WHOLE;
    }

    /** Whether the firing can be measured by a cone. */
    public boolean tellsACone() {
        return this == WHOLE || this == TOP_HIDDEN;
    }

    /** Whether there is anything to find a cause in, or to learn from. */
    boolean isReviewed() {
        return tellsACone() || this == NO_CONE_NAMED;
    }
}
