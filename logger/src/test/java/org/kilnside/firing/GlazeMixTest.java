package org.kilnside.firing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GlazeMixTest {
    @Test
    void aMixIsReadAsAPersonWritesIt() {
        GlazeMix mix = GlazeMix.parse("Oatmeal 3 + Rainwater 1,5");
        assertThat(mix.parts()).containsExactly(new GlazeMix.Part("Oatmeal", 3), new GlazeMix.Part("Rainwater", 1.5));
        assertThat(GlazeMix.parse("Oatmeal 3, Rainwater 1.5")).isEqualTo(mix);
        assertThat(GlazeMix.parse("Oatmeal 3;Rainwater 1.5 ")).isEqualTo(mix);
        assertThat(GlazeMix.parse("Iron Moth No. 2 40 %").parts())
                .containsExactly(new GlazeMix.Part("Iron Moth No. 2", 40));
        assertThat(GlazeMix.parse("  ")).isEqualTo(GlazeMix.NONE);
    }

    @Test
    void whatIsWrittenIsReadAgainWithPointAndComma() {
        GlazeMix mix = GlazeMix.parse("Oatmeal 60 + Rainwater 37.25 + Iron Moth 2.75");
        assertThat(mix.text('.')).isEqualTo("Oatmeal 60 + Rainwater 37.25 + Iron Moth 2.75");
        assertThat(mix.text(',')).isEqualTo("Oatmeal 60 + Rainwater 37,25 + Iron Moth 2,75");
        assertThat(GlazeMix.parse(mix.text(','))).isEqualTo(mix);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"Oatmeal", "3", "Oatmeal 0", "Oatmeal -3", "Oatmeal three", "Oatmeal 3 + ", "+ 3", "💥 1e9"})
    void whatIsNoMixIsRefusedInASentenceOrReadWithoutTheEmptyPart(String text) {
        if (text.equals("Oatmeal 3 + ")) {
            assertThat(GlazeMix.parse(text).parts()).hasSize(1);
        } else {
            assertThatThrownBy(() -> GlazeMix.parse(text))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("no part of a mix");
        }
    }
}
