package org.kilnside.review;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;

/**
 * What a firing came to against its plan, and why.
 *
 * @param series the cones meant
 * @param planReaches what the plan comes to in this kiln, the rest of the cooling apart; empty when it brings no cone down
 * @param reached what the firing came to, the rest of the cooling apart, corrected by what the witness cones say; empty when it
 *     brought no cone down, or none can be named
 * @param shortOfPlan whole cones short of the plan's own cone, all of the cooling counted, positive = short; empty when the plan comes to none, or
 *     nobody can say what the firing came to
 * @param from the least it may be short by, nine in ten
 * @param to the most, nine in ten
 * @param extent how much of the firing was seen; where its top was not, {@link #reached} is what it came to if it went on
 *     as it was going, and only {@link #provenReached} is sure
 * @param provenReached what the readings alone prove; the same as {@link #reached} where the top was seen
 * @param wanted the cone the load wants; empty when nobody said
 * @param shortOfWanted whole cones short of that, positive = short; empty like {@link #shortOfPlan}
 * @param shares what each part cost; they add up to {@link #shortOfPlan}
 * @param causes the likeliest first, at least one where there is a firing to find it in
 * @param advice what to change and what to do with the load, in this order
 * @param remarks what the review rests on and cannot know
 */
public record Review(
        ConeSeries series,
        Optional<ConePosition> planReaches,
        Optional<ConePosition> reached,
        OptionalDouble shortOfPlan,
        OptionalDouble from,
        OptionalDouble to,
        Extent extent,
        Optional<ConePosition> provenReached,
        Optional<Cone> wanted,
        OptionalDouble shortOfWanted,
        List<Cost> shares,
        List<Cause> causes,
        List<Advice> advice,
        List<Remark> remarks) {
    public Review {
        shares = List.copyOf(shares);
        causes = List.copyOf(causes);
        advice = List.copyOf(advice);
        remarks = List.copyOf(remarks);
        if (causes.isEmpty() && extent.isReviewed()) {
            throw new IllegalArgumentException("a review names at least one cause, as planned among them");
        }
    }

    /**
     * The parts rounded to whole steps of a cone so that they add up to {@link #shortOfPlan}, rounded likewise.
     *
     * @param perCone how many steps make a cone
     */
    public List<Cost> sharesInSteps(int perCone) {
        return shortOfPlan.isPresent() ? Costs.inSteps(shares, shortOfPlan.getAsDouble(), perCone) : List.of();
    }

    /** Whether nothing was found that the curve, the controller or the cones can show. */
    public boolean isAsPlanned() {
        return !causes.isEmpty() && causes.get(0).code() == CauseCode.AS_PLANNED;
    }

    /**
     * What one part of the firing cost.
     *
     * @param code which part
     * @param cones whole cones, positive = it made the firing fall short
     * @param amounts what was done and what was planned, in the order in which the text of the code names them
     */
    public record Cost(CauseCode code, double cones, List<Amount> amounts) {
        public Cost {
            amounts = List.copyOf(amounts);
        }
    }

    /**
     * One cause.
     *
     * @param cones about how many cones it explains, positive = short
     */
    public record Cause(CauseCode code, Sureness sure, double cones, List<Evidence> evidence) {
        public Cause {
            evidence = List.copyOf(evidence);
        }
    }
}
