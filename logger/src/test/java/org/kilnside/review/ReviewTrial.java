package org.kilnside.review;

import java.util.EnumSet;
import java.util.Set;

/**
 * One simulated firing with what was done to it: other physics than any model of the program, a controller of its own,
 * noise, and a sampling of its own.
 *
 * @param injected what was done; empty = nothing
 * @param question what the review is asked
 * @param shortOfPlan the truth: heat work of the true temperature at the sensor against the plan's, cooling of a usual
 *     kiln in both
 * @param label what one needs to look at it again
 */
record ReviewTrial(Set<Injected> injected, ReviewQuestion question, double shortOfPlan, String label) {
    /** What does not show in the heat work. */
    private static final Set<Injected> UNSEEN =
            EnumSet.of(Injected.COOLING_FAST, Injected.COOLING_SLOW, Injected.UNEVEN, Injected.SENSOR_FAULT);

    /** Whether what was done told in the ware; a kiln that by itself cannot follow its plan is not a clean one. */
    boolean tells() {
        if (injected.isEmpty()) {
            return Math.abs(shortOfPlan) < 0.2;
        }
        if (injected.stream().anyMatch(UNSEEN::contains)) {
            return Math.abs(shortOfPlan) < 0.25 || injected.size() > 1 || injected.contains(Injected.COOLING_SLOW);
        }
        return Math.abs(shortOfPlan) > 0.4;
    }
}
