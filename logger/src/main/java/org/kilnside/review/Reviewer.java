package org.kilnside.review;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;

/** Reviews a firing. Pure: the same question gives the same answer. */
public final class Reviewer {
    private Reviewer() {}

    /**
     * What a firing came to against its plan, and why.
     *
     * @throws IllegalArgumentException when it has no reading at all
     */
    public static Review review(ReviewQuestion question) {
        if (question.readings().curve().size() < 2) {
            throw new IllegalArgumentException("a review needs a curve of at least two good readings");
        }
        Case facts = Case.of(question);
        Attribution attribution = facts.attribution();
        double planned = attribution.plannedSteps();
        double reached = attribution.reachedSteps();
        Extent extent = Extent.of(facts);
        boolean comparable = facts.planReaches() && extent.tellsACone();
        List<Review.Cause> causes = extent.isReviewed() ? Causes.of(facts) : List.of();
        Optional<ConePosition> reachedPosition =
                extent == Extent.NO_CONE_NAMED ? Optional.empty() : position(attribution.reached());
        return new Review(
                question.table().series(),
                position(attribution.planned()),
                reachedPosition,
                when(comparable, planned - reached),
                when(comparable, planned - facts.mostSteps()),
                when(comparable, planned - facts.leastSteps()),
                extent,
                extent == Extent.TOP_HIDDEN ? facts.proven() : reachedPosition,
                facts.wanted(),
                facts.wanted().isPresent() && extent.tellsACone()
                        ? OptionalDouble.of(facts.shortForLoad())
                        : OptionalDouble.empty(),
                comparable ? Costs.of(facts) : List.of(),
                causes,
                extent.isReviewed() ? Advisor.advise(facts, causes) : List.of(),
                Remarks.of(facts, extent));
    }

    private static OptionalDouble when(boolean known, double value) {
        return known ? OptionalDouble.of(value) : OptionalDouble.empty();
    }

    /** A wanted cone as a number of whole cones above the softest. */
    static double wantedSteps(Cone cone) {
        // A half cone stands half way between its neighbours.
        return cone.isWhole()
                ? ConePosition.at(cone).steps().orElseThrow()
                : wantedSteps(Cone.parse(cone.number().replace(".5", "")))
                        + (cone.number().startsWith("0") ? -0.5 : 0.5);
    }

    /** A place on the scale, as a plan's and a firing's cone is told everywhere: the rest of the cooling apart. */
    private static Optional<ConePosition> position(ConeReached reached) {
        return reached.isBelowScale() ? Optional.empty() : Optional.of(reached.cone());
    }
}
