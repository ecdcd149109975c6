package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmChange.What;

/** What is told of a firing that goes on beyond its cone. */
class AlarmWatchTest {
    private static final long MINUTE_MS = 60_000;

    private final AlarmWatch watch = new AlarmWatch(AlarmLimits.USUAL, Optional.empty());

    private void swings(long fromMs, long forMs) {
        watch.beyondCone(fromMs, 1200, OptionalDouble.of(0.6));
        for (long now = fromMs; now < fromMs + forMs; now += 10_000) {
            watch.beyondCone(now, 1190, OptionalDouble.empty());
        }
    }

    @Test
    void aThermostatsSwingsBelowTheHighestAreOneAlarm() {
        swings(0, 5 * MINUTE_MS);
        swings(5 * MINUTE_MS, 5 * MINUTE_MS);
        assertThat(watch.takeChanges()).extracting(AlarmChange::what).containsExactly(What.RAISED);
    }

    @Test
    void aKilnThatIsLeftToCoolIsNotBeyondItsConeAnyMore() {
        swings(0, 11 * MINUTE_MS);
        assertThat(watch.takeChanges()).extracting(AlarmChange::what).containsExactly(What.RAISED, What.CLEARED);
    }
}
