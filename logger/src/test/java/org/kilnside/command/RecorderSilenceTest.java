package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.session.Connection;
import org.kilnside.session.HandClock;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.Language;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.Words;

/** What a copy takes for silence of its recorder, where the recorder talks of an old reading. */
class RecorderSilenceTest {
    private static final long HOURS_AGO_MS = 3 * 3_600_000;
    private static final Words WORDS = Words.of(Language.ENGLISH, Preferences.of(Locale.UK));

    private final HandClock clock = new HandClock();
    private final AttachedFiring copy = AttachedFiring.whenThere(
            RecorderPlace.here(Optional::empty, WORDS), clock, SampleSnapshots.nothingYet(Connection.State.CONNECTING));
    private final RecorderSilence silence = new RecorderSilence(copy, true);

    @AfterEach
    void close() {
        copy.close();
    }

    /** A firing whose newest reading is hours old, heard of a recorder that has listened since a moment. */
    private static Snapshot oldReading(long now, long listensSinceMs) {
        Snapshot firing = SampleSnapshots.heating();
        Connection connection =
                new Connection(Connection.State.CONNECTING, listensSinceMs, Optional.empty(), Connection.Counts.NONE);
        return firing.with(
                connection,
                firing.latest().map(reading -> reading.earlier(reading.hostMs() - now + HOURS_AGO_MS)),
                firing.curve());
    }

    private List<AlarmKind> raisedWithin(long seconds, long listensSinceMs) {
        long began = clock.monotonicMs();
        List<Alarm> alarms = List.of();
        for (long s = 0; s <= seconds; s++) {
            long now = began + s * 1000;
            alarms = silence.look(oldReading(now, listensSinceMs), now);
        }
        return alarms.stream().map(Alarm::kind).toList();
    }

    @Test
    void aRecorderThatHasJustGoneOnWithAnOldFiringIsGivenItsTimeToRingForItself() {
        assertThat(raisedWithin(100, clock.monotonicMs())).isEmpty();
    }

    @Test
    void oneThatTalksOfNothingButAnOldReadingForLongIsStuck() {
        assertThat(raisedWithin(30, clock.monotonicMs() - HOURS_AGO_MS)).containsExactly(AlarmKind.RECORDER_SILENT);
    }

    @Test
    void oneThatRangNothingByThenIsStuckToo() {
        assertThat(raisedWithin(120, clock.monotonicMs())).containsExactly(AlarmKind.RECORDER_SILENT);
    }
}
