package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;

class NewestTest {
    @Test
    void letsTheOldestGoAndKeepsWhatCameAfterIt() {
        Map<String, Integer> kept = new Newest<>(2);

        kept.computeIfAbsent("one", key -> 1);
        kept.computeIfAbsent("two", key -> 2);
        kept.computeIfAbsent("one", key -> 10);
        kept.computeIfAbsent("three", key -> 3);

        assertThat(kept).containsExactly(Map.entry("two", 2), Map.entry("three", 3));
    }
}
