package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class ConeTest {
    @Test
    void runFromTheSoftestToTheHardestWithTwoHalfOnes() {
        assertThat(Cone.whole()).hasSize(36);
        assertThat(Cone.values()).hasSize(38).isSorted();
        assertThat(Cone.whole().get(0).number()).isEqualTo("022");
        assertThat(Cone.whole().get(35).number()).isEqualTo("14");
        assertThat(Cone.parse("05.5")).isBetween(Cone.parse("06"), Cone.parse("05"));
    }

    @Test
    void theZeroInFrontCounts() {
        assertThat(Cone.parse("06")).isNotEqualTo(Cone.parse("6"));
        assertThat(Cone.parse(" cone 5½ ")).isEqualTo(Cone.parse("5.5"));
        assertThat(Cone.find("0")).isEmpty();
        assertThat(Cone.find("023")).isEmpty();
        assertThatThrownBy(() -> Cone.parse("15"))
                .hasMessage("there is no cone \"15\": cones run 022 … 01, then 1 … 14, softest first (06 is not 6)");
    }

    @Test
    void fromZeroOneToOneIsOneStep() {
        ConePosition zeroOne = ConePosition.at(Cone.parse("01"));
        assertThat(zeroOne.stepsTo(ConePosition.at(Cone.parse("1"))).orElseThrow())
                .isCloseTo(1, within(1e-12));
        assertThat(zeroOne.stepsTo(ConePosition.at(Cone.parse("06"))).orElseThrow())
                .isCloseTo(-5, within(1e-12));
        assertThatThrownBy(() -> ConePosition.at(Cone.parse("5.5"))).isInstanceOf(IllegalArgumentException.class);
    }
}
