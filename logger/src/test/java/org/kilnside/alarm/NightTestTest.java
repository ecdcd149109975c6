package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class NightTestTest {
    private final NightTest test = new NightTest();

    @Test
    void itRingsAsAnAlarmToComeNowForTwoMinutesAndIsGone() {
        assertThat(test.look(1_000)).isEmpty();
        test.begin(1_000, 500);
        assertThat(test.look(1_000)).singleElement().satisfies(alarm -> {
            assertThat(alarm.kind()).isEqualTo(AlarmKind.TEST);
            assertThat(alarm.grade()).isEqualTo(Grade.COME_NOW);
            assertThat(alarm.rings()).isTrue();
            assertThat(alarm.sinceMs()).isEqualTo(500);
        });
        assertThat(test.look(1_000 + NightTest.LASTS_MS - 1)).hasSize(1);
        assertThat(test.look(1_000 + NightTest.LASTS_MS)).isEmpty();
        assertThat(test.look(1_000 + NightTest.LASTS_MS + 1)).isEmpty();
    }

    @Test
    void rungAnewItIsAnotherAlarmSoThatWhatWasSilencedRingsAgain() {
        test.begin(0, 0);
        String first = test.look(0).get(0).id();
        test.begin(30_000, 30_000);
        assertThat(test.look(30_000).get(0).id()).isNotEqualTo(first);
        assertThat(test.look(30_000 + NightTest.LASTS_MS - 1)).hasSize(1);
    }

    @Test
    void heardByEverybodyItIsOverAtOnceAndCanBeRungAgain() {
        test.begin(0, 0);
        test.end();
        assertThat(test.look(1)).isEmpty();
        test.begin(2, 2);
        assertThat(test.look(3)).hasSize(1);
    }
}
