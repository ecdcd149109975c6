package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.kilnside.thermal.ElementStrength;
import org.kilnside.thermal.ElementStrength.Strength;

class ElementWordsTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private static List<String> said(Strength... firings) {
        return new ElementWords(WORDS).lines(new ElementStrength(List.of(firings)), List.of(11L, 12L, 15L, 18L));
    }

    @Test
    void ageingIsASlopeWithItsInterval() {
        List<String> lines = said(
                new Strength(0, 1, 1, 1),
                new Strength(1, 0.97, 0.94, 1.0),
                new Strength(2, 0.93, 0.9, 0.96),
                new Strength(3, 0.9, 0.87, 0.93));
        assertThat(lines.get(0))
                .isEqualTo(
                        "in firing 18 the elements had 90 % of the power they had in firing 11 (87 % to 93 %, nine in"
                                + " ten)");
        assertThat(lines.get(1)).startsWith("they lose about ").contains("in ten firings");
        assertThat(lines.get(2)).contains("6 to 18 %").contains("common practice");
    }

    @Test
    void withinTheIntervalTheyAreAsStrong() {
        assertThat(said(new Strength(0, 1, 1, 1), new Strength(1, 0.99, 0.96, 1.02)))
                .containsExactly("in firing 12 the elements were as strong as in firing 11, as far as can be told: 99 %"
                        + " (96 % to 102 %, nine in ten)");
    }

    @Test
    void aThirdGoneAtOnceIsNoAgeing() {
        List<String> lines =
                said(new Strength(0, 1, 1, 1), new Strength(1, 0.99, 0.96, 1.02), new Strength(2, 0.66, 0.63, 0.69));
        assertThat(lines).hasSize(2);
        assertThat(lines.get(1)).startsWith("from firing 15 on").contains("a ring, a relay or a phase");
    }

    @Test
    void withoutOutputNothingIsSaidOfThem() {
        assertThat(said()).containsExactly(WORDS.text("elements.no_output"));
        assertThat(said(new Strength(2, 1, 1, 1)).get(0)).startsWith("firing 15 tells its output");
    }
}
