package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class DeadManTest {
    private static final long MINUTE = 60_000;
    private final DeadMan deadMan = new DeadMan();

    @Test
    void silenceRingsWithinTwoMinutes() {
        assertThat(deadMan.look(80_000, 80_000, false)).isEmpty();
        assertThat(deadMan.look(2 * MINUTE, 2 * MINUTE, false)).singleElement().satisfies(alarm -> {
            assertThat(alarm.kind()).isEqualTo(AlarmKind.RECORDER_SILENT);
            assertThat(alarm.grade()).isEqualTo(Grade.COME_NOW);
            assertThat(alarm.rings()).isTrue();
            assertThat(alarm.sinceMs()).isZero();
        });
    }

    @Test
    void onceAcknowledgedItRingsAgainAfterTenMinutes() {
        String id = deadMan.look(2 * MINUTE, 2 * MINUTE, false).get(0).id();
        deadMan.acknowledge(id, 2 * MINUTE);
        assertThat(deadMan.look(11 * MINUTE, 11 * MINUTE, false).get(0).rings()).isFalse();
        assertThat(deadMan.look(12 * MINUTE, 12 * MINUTE, false).get(0).rings()).isTrue();
    }

    @Test
    void whenItIsHeardAgainTheAlarmIsOverAndStandsUntilSomebodyKnows() {
        String id = deadMan.look(2 * MINUTE, 2 * MINUTE, false).get(0).id();
        assertThat(deadMan.look(0, 3 * MINUTE, false)).singleElement().matches(Alarm::isOver);
        deadMan.acknowledge(id, 3 * MINUTE);
        assertThat(deadMan.look(0, 4 * MINUTE, false)).isEmpty();
        assertThat(deadMan.look(2 * MINUTE, 9 * MINUTE, false)).singleElement().matches(Alarm::rings);
    }

    @Test
    void afterAFiringHasEndedNobodyIsWokenByItsSilence() {
        assertThat(deadMan.look(30 * MINUTE, 30 * MINUTE, true)).isEmpty();
    }
}
