package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class WitnessPackTest {
    private static final WitnessPack.DayClock NINE_IS_ZERO =
            (hour, minute, second) -> OptionalLong.of(((hour - 9) * 60L + minute) * 60_000 + second * 1000L);

    private static final WitnessPack.DayClock NO_CLOCK = (hour, minute, second) -> OptionalLong.empty();

    @Test
    void readsAShelfAndItsConesSoftestFirst() {
        WitnessPack pack = WitnessPack.parse("middle shelf 6:35 5:90 7:0", NO_CLOCK);
        assertThat(pack.shelf()).isEqualTo("middle shelf");
        assertThat(pack.cones()).extracting(seen -> seen.cone().number()).containsExactly("5", "6", "7");
        assertThat(pack.cones().get(1).degrees()).hasValue(35);
    }

    @Test
    void keepsTheZeroInFront() {
        assertThat(WitnessPack.parse("06:90 05.5:10", NO_CLOCK).cones())
                .extracting(WitnessCone::cone)
                .containsExactly(Cone.parse("06"), Cone.parse("05.5"));
    }

    @Test
    void readsWhenAConeWasSeenDown() {
        assertThat(WitnessPack.parse("top 6@21:10 7:20", NINE_IS_ZERO)
                        .cones()
                        .get(0)
                        .seenDownMs())
                .hasValue((12 * 60 + 10) * 60_000L);
    }

    @Test
    void saysWhatIsWrongWithAPack() {
        refused("middle", "there is no cone");
        refused("middle 6:181", "expected 0 (upright) to 180");
        refused("middle 6:35 6:40", "stands twice");
        refused("middle 99:35", "there is no cone \"99\"");
        refused("middle 6:35 nonsense", "found \"nonsense\"");
        refused("middle 6@25:10", "no time of day");
        refused("middle 6@21:10", "does not tell the time of day");
    }

    private static void refused(String text, String words) {
        assertThatThrownBy(() -> WitnessPack.parse(text, NO_CLOCK))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(words);
    }
}
