package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmChange.What;

/** What happens to an alarm; the rules are issue text: repeated until acknowledged, again if worse or still true. */
class AlarmLedgerTest {
    private static final long MINUTE_MS = 60_000;
    private static final Finding HOT = Finding.since(1_000, Measure.ofCelsius(1012), Measure.ofCelsius(1000));

    private final AlarmLedger ledger = new AlarmLedger(10 * MINUTE_MS);

    @Test
    void isRaisedOnceForAsLongAsItIsTrue() {
        for (long now = 0; now < MINUTE_MS; now += 10_000) {
            ledger.assess(AlarmKind.STUCK_RELAY, Optional.of(HOT), now);
        }
        assertThat(ledger.takeChanges()).extracting(AlarmChange::what).containsExactly(What.RAISED);
        assertThat(ledger.current()).hasSize(1);
        assertThat(ledger.current().get(0).id()).isEqualTo("stuck-relay-1");
        assertThat(ledger.current().get(0).rings()).isTrue();
    }

    @Test
    void staysQuietOnceAcknowledgedUntilTenMinutesLaterItIsStillTrue() {
        ledger.raise(AlarmKind.STUCK_RELAY, HOT, 0);
        ledger.acknowledge("stuck-relay-1", MINUTE_MS);
        ledger.raise(AlarmKind.STUCK_RELAY, HOT, 10 * MINUTE_MS);
        assertThat(ledger.current().get(0).rings()).isFalse();
        ledger.raise(AlarmKind.STUCK_RELAY, HOT, 11 * MINUTE_MS);
        assertThat(ledger.current().get(0).state()).isEqualTo(Alarm.State.RAISED_AGAIN);
        assertThat(ledger.current().get(0).times()).isEqualTo(2);
        assertThat(ledger.takeChanges())
                .extracting(AlarmChange::what)
                .containsExactly(What.RAISED, What.ACKNOWLEDGED, What.RAISED_AGAIN);
    }

    /** Through a whole cooling it would hide what is to come. */
    @Test
    void aFiringThatEndedEarlyIsOutOfSightOnceAPersonKnows() {
        ledger.raise(AlarmKind.ENDED_EARLY, HOT, 0);
        ledger.acknowledge("ended-early-1", MINUTE_MS);
        assertThat(ledger.current()).isEmpty();
        assertThat(ledger.takeChanges()).extracting(AlarmChange::what).containsExactly(What.RAISED, What.ACKNOWLEDGED);
    }

    @Test
    void isRaisedAgainAtOnceWhenItGetsWorse() {
        ledger.raise(AlarmKind.STUCK_RELAY, HOT, 0);
        ledger.acknowledge("stuck-relay-1", 1_000);
        ledger.raise(AlarmKind.STUCK_RELAY, HOT.withBadness(0.9), 2_000);
        assertThat(ledger.current().get(0).rings()).isFalse();
        ledger.raise(AlarmKind.STUCK_RELAY, HOT.withBadness(1), 3_000);
        assertThat(ledger.current().get(0).rings()).isTrue();
    }

    @Test
    void isRaisedAgainAtOnceWhenItGetsGraverEvenIfNobodyHasAnswered() {
        ledger.raise(AlarmKind.BEYOND_CONE, Grade.LOOK_SOON, HOT, 0);
        ledger.raise(AlarmKind.BEYOND_CONE, Grade.COME_NOW, HOT, 1_000);
        ledger.raise(AlarmKind.BEYOND_CONE, Grade.COME_NOW, HOT, 2_000);
        assertThat(ledger.current().get(0).grade()).isEqualTo(Grade.COME_NOW);
        assertThat(ledger.takeChanges()).extracting(AlarmChange::what).containsExactly(What.RAISED, What.RAISED_AGAIN);
    }

    @Test
    void whatIsToBeLookedAtSoonIsNotRaisedAgainForBeingStillTrue() {
        ledger.raise(AlarmKind.BOX_TOO_HOT, HOT, 0);
        ledger.acknowledge("box-too-hot-1", 0);
        ledger.raise(AlarmKind.BOX_TOO_HOT, HOT, 60 * MINUTE_MS);
        assertThat(ledger.current().get(0).rings()).isFalse();
    }

    @Test
    void whatIsOverIsShownUntilAcknowledged() {
        ledger.raise(AlarmKind.SENSOR_GONE, HOT, 0);
        ledger.clear(AlarmKind.SENSOR_GONE, MINUTE_MS);
        assertThat(ledger.current()).extracting(Alarm::state).containsExactly(Alarm.State.CLEARED);
        assertThat(ledger.current().get(0).clearedMs()).hasValue(MINUTE_MS);
        ledger.acknowledge("sensor-gone-1", 2 * MINUTE_MS);
        assertThat(ledger.current()).isEmpty();
    }

    @Test
    void whatBeginsAnewAfterItWasOverIsAnotherAlarm() {
        ledger.raise(AlarmKind.SENSOR_GONE, HOT, 0);
        ledger.clear(AlarmKind.SENSOR_GONE, MINUTE_MS);
        ledger.raise(AlarmKind.SENSOR_GONE, HOT, 2 * MINUTE_MS);
        assertThat(ledger.current()).extracting(Alarm::id).containsExactly("sensor-gone-2");
    }

    @Test
    void whatComesAndGoesWithEachSwingIsOneAlarm() {
        for (int swing = 0; swing < 6; swing++) {
            long now = swing * 5 * MINUTE_MS;
            ledger.assess(AlarmKind.CANDLING_OVERSHOOT, Optional.of(HOT), now, 10 * MINUTE_MS);
            ledger.assess(AlarmKind.CANDLING_OVERSHOOT, Optional.empty(), now + 2 * MINUTE_MS, 10 * MINUTE_MS);
        }
        assertThat(ledger.takeChanges()).extracting(AlarmChange::what).containsExactly(What.RAISED);
    }

    @Test
    void newsGoesByItself() {
        ledger.tell(AlarmKind.TOP_REACHED, HOT, 0);
        ledger.tidy(9 * MINUTE_MS);
        assertThat(ledger.current()).hasSize(1);
        ledger.tidy(10 * MINUTE_MS);
        assertThat(ledger.current()).isEmpty();
    }

    @Test
    void theWorstStandsFirst() {
        ledger.tell(AlarmKind.TOP_REACHED, HOT, 0);
        ledger.raise(AlarmKind.BOX_TOO_HOT, HOT, 1);
        ledger.raise(AlarmKind.STUCK_RELAY, HOT, 2);
        assertThat(ledger.current())
                .extracting(Alarm::kind)
                .containsExactly(AlarmKind.STUCK_RELAY, AlarmKind.BOX_TOO_HOT, AlarmKind.TOP_REACHED);
    }

    @Test
    void anIdNobodyKnowsChangesNothing() {
        ledger.raise(AlarmKind.STUCK_RELAY, HOT, 0);
        ledger.takeChanges();
        ledger.acknowledge("stuck-relay-7", 1);
        assertThat(ledger.takeChanges()).isEqualTo(List.of());
    }
}
