package org.kilnside.desktop.now;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.NightTest;
import org.kilnside.session.Connection;
import org.kilnside.session.Snapshot;
import org.kilnside.session.Snapshots;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class AlarmStripModelTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private static AlarmStripModel strip(List<Alarm> alarms) {
        return AlarmStripModel.of(Snapshots.bisque(0, 10).withAlarms(alarms), WORDS)
                .orElseThrow();
    }

    @Test
    void whoeverIsWokenSaysThatTheyKnow() {
        AlarmStripModel strip = strip(List.of(Snapshots.stuckRelay()));
        assertThat(strip.answer()).isEqualTo("I know");
        assertThat(strip.toAcknowledge()).isTrue();
        assertThat(strip.whatToDo()).contains("cannot switch the kiln off");
    }

    @Test
    void whoeverTriesTheAlarmSaysThatTheyHearItAndIsNotSentToTheKiln() {
        NightTest test = new NightTest();
        test.begin(0, 0);
        AlarmStripModel strip = strip(test.look(0));
        assertThat(strip.answer()).isEqualTo("I hear it");
        assertThat(strip.whatToDo()).startsWith("Nothing is wrong.").doesNotContain("Switch off");
    }

    @Test
    void beforeAnythingWasHeardNoTimeOfAnyOtherClockIsSaid() {
        Snapshot nothing = Snapshot.before(
                        Optional.empty(),
                        new Connection(Connection.State.LOST, 0, Optional.empty(), Connection.Counts.NONE))
                .withAlarms(List.of(Snapshots.stuckRelay()));
        assertThat(AlarmStripModel.of(nothing, WORDS).orElseThrow().standing()).isEqualTo("Come now");
    }

    @Test
    void whatWasAnsweredAsksNoMore() {
        assertThat(strip(List.of(Snapshots.stuckRelay().acknowledged(1_000))).toAcknowledge())
                .isFalse();
    }
}
