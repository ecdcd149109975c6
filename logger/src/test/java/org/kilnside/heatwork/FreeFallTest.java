package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FreeFallTest {
    private static final double ALONE = Double.NEGATIVE_INFINITY;

    private static double minutesToFall(double topC, double byK) {
        FreeFall.Falling kiln = FreeFall.USUAL.from(topC);
        double seconds = 0;
        while (kiln.celsius() > topC - byK) {
            kiln.go(1, ALONE);
            seconds++;
        }
        return seconds / 60;
    }

    /** Independent: lowest and highest of the middles of five authors' simulated kilns, glaze about 1222, bisque about 1030 °C. */
    @ParameterizedTest
    @CsvSource({"1222, 25, 3.1, 4.0", "1222, 100, 15.5, 19.5", "1030, 25, 3.4, 4.5", "1030, 100, 20, 24.5"})
    void aKilnNobodyKnowsFallsAsTheMiddleOfThemDoes(double topC, double byK, double from, double to) {
        assertThat(minutesToFall(topC, byK)).isBetween(from, to);
    }

    @Test
    void itFallsFastestAtFirst() {
        assertThat(minutesToFall(1222, 100)).isGreaterThan(4.8 * minutesToFall(1222, 25));
    }

    /** Computed: one body falls by the same part in equal times. */
    @Test
    void aKilnOfOneTimeConstantFallsAsOneBody() {
        FreeFall.Falling kiln = FreeFall.ofConstant(7200).from(1220);
        kiln.go(7200, ALONE);
        assertThat(kiln.celsius()).isCloseTo(20 + 1200 / Math.E, within(0.001));
    }

    @Test
    void theSameTimeInManyStepsIsTheSameFall() {
        FreeFall.Falling once = FreeFall.USUAL.from(1222);
        FreeFall.Falling often = FreeFall.USUAL.from(1222);
        once.go(3600, ALONE);
        for (int i = 0; i < 360; i++) {
            often.go(10, ALONE);
        }
        assertThat(often.celsius()).isCloseTo(once.celsius(), within(1e-6));
    }

    @Test
    void itIsHeldAtWhatIsWantedAndNeverColderThanItGetsByItself() {
        FreeFall.Falling held = FreeFall.USUAL.from(1222);
        FreeFall.Falling alone = FreeFall.USUAL.from(1222);
        held.go(60, 1222);
        assertThat(held.celsius()).isCloseTo(1222, within(1e-9));
        held.go(600, 500);
        alone.go(600, ALONE);
        assertThat(held.celsius()).isCloseTo(alone.celsius(), within(1e-6));
    }

    @Test
    void aFallThatTakesNoTimeIsNone() {
        assertThatThrownBy(() -> FreeFall.ofConstant(0)).isInstanceOf(IllegalArgumentException.class);
    }
}
