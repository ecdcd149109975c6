package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** When an alarm is sounded, and how loud. */
class BellTest {
    private static final LocalTime NIGHT = LocalTime.of(2, 10);
    private static final QuietHours QUIET = new QuietHours(LocalTime.of(22, 0), LocalTime.of(7, 0));
    private static final Finding IT = new Finding(0, 0, Optional.empty(), Optional.empty());

    private final AlarmLedger ledger = new AlarmLedger(600_000);
    private final Bell bell = new Bell(QUIET);

    @Test
    void comeNowRepeatsAndGetsLouderUntilAcknowledgedInQuietHoursToo() {
        ledger.raise(AlarmKind.STUCK_RELAY, IT, 0);
        double loudness = 0;
        int rings = 0;
        for (long now = 0; now <= 300_000; now += 1_000) {
            for (Bell.Ring ring : bell.due(ledger.current(), now, NIGHT)) {
                assertThat(ring.loudness()).isGreaterThanOrEqualTo(loudness);
                loudness = ring.loudness();
                rings++;
            }
        }
        assertThat(loudness).isEqualTo(1);
        assertThat(rings).isEqualTo(16);
        ledger.acknowledge("stuck-relay-1", 300_000);
        assertThat(bell.due(ledger.current(), 400_000, NIGHT)).isEmpty();
    }

    @Test
    void raisedAgainItBeginsAnew() {
        ledger.raise(AlarmKind.STUCK_RELAY, IT, 0);
        bell.due(ledger.current(), 0, NIGHT);
        ledger.acknowledge("stuck-relay-1", 0);
        assertThat(bell.due(ledger.current(), 300_000, NIGHT)).isEmpty();
        ledger.raise(AlarmKind.STUCK_RELAY, IT, 600_000);
        List<Bell.Ring> rings = bell.due(ledger.current(), 600_000, NIGHT);
        assertThat(rings).hasSize(1);
        assertThat(rings.get(0).count()).isEqualTo(1);
    }

    @Test
    void lookSoonIsSoundedOnceAtAnyHour() {
        ledger.raise(AlarmKind.BOX_TOO_HOT, IT, 0);
        assertThat(bell.due(ledger.current(), 0, NIGHT)).hasSize(1);
        assertThat(bell.due(ledger.current(), 3_600_000, NIGHT)).isEmpty();
    }

    @Test
    void goodNewsKeepsQuietHours() {
        bell.due(List.of(), 0, NIGHT);
        ledger.tell(AlarmKind.TOP_REACHED, IT, 0);
        assertThat(bell.due(ledger.current(), 1_000, NIGHT)).isEmpty();
        ledger.tell(AlarmKind.HOLD_BEGAN, IT, 0);
        assertThat(bell.due(ledger.current(), 2_000, LocalTime.NOON)).hasSize(1);
    }

    @Test
    void newsThatStoodThereBeforeTheBellIsOld() {
        ledger.tell(AlarmKind.TOP_REACHED, IT, 0);
        assertThat(bell.due(ledger.current(), 0, LocalTime.NOON)).isEmpty();
    }

    @Test
    void quietHoursGoOverMidnight() {
        assertThat(QUIET.contains(LocalTime.of(23, 0))).isTrue();
        assertThat(QUIET.contains(LocalTime.of(6, 59))).isTrue();
        assertThat(QUIET.contains(LocalTime.of(7, 0))).isFalse();
        assertThat(QuietHours.NONE.contains(LocalTime.MIDNIGHT)).isFalse();
        assertThat(new QuietHours(LocalTime.of(13, 0), LocalTime.of(14, 0)).contains(LocalTime.of(13, 30)))
                .isTrue();
    }
}
