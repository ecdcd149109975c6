package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ConeSeries;
import org.kilnside.review.Amount;
import org.kilnside.review.CauseCode;
import org.kilnside.review.Extent;
import org.kilnside.review.Review;
import org.kilnside.review.Review.Cost;
import org.kilnside.review.Sureness;

/** What the parts of a firing cost, in words. */
class ReviewWordsTest {
    private static final Cost TOP = new Cost(
            CauseCode.OVER_FIRED_TOP, -0.33, List.of(Amount.degrees(1263), Amount.degrees(1260), Amount.span(3)));

    @Test
    void aPartThatIsNothingByItselfIsNotMadeATenthForTheTenthsToAddUp() {
        Cost small = new Cost(CauseCode.RAMP_SLOW, -0.04, List.of(Amount.speed(79), Amount.speed(80)));
        assertThat(said(-0.37, TOP, small))
                .anyMatch(line -> line.contains("top 3 °C higher"))
                .noneMatch(line -> line.contains("79 °C/h"));
    }

    @Test
    void numbersThatReadAlikeAreNoCause() {
        Cost alike = new Cost(CauseCode.RAMP_SLOW, -0.07, List.of(Amount.speed(199.8), Amount.speed(200.1)));
        assertThat(said(-0.40, TOP, alike))
                .noneMatch(line -> line.contains("instead of 200 °C/h"))
                .anyMatch(line -> line.contains("+0.1 cones: differences too small to name"));
    }

    private static List<String> said(double shortOfPlan, Cost... shares) {
        Review review = new Review(
                ConeSeries.USUAL,
                Optional.empty(),
                Optional.empty(),
                OptionalDouble.of(shortOfPlan),
                OptionalDouble.of(-1),
                OptionalDouble.of(0.5),
                Extent.WHOLE,
                Optional.empty(),
                Optional.empty(),
                OptionalDouble.empty(),
                List.of(shares),
                List.of(new Review.Cause(CauseCode.AS_PLANNED, Sureness.LIKELY, 0, List.of())),
                List.of(),
                List.of());
        return new ReviewWords(Words.of(Locale.ENGLISH, Preferences.of(Locale.UK)), Optional.empty(), 0, review)
                .lines(review);
    }
}
