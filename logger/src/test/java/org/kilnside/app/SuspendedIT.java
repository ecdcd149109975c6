package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.host.SystemClock;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.RecorderAddress;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.session.HostClock;
import org.kilnside.testing.SimulatedBoard;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.ReadingAge;
import org.kilnside.wording.Words;

/** The recorder's process stands still for a while, as when its computer sleeps, with the real firmware going on. */
class SuspendedIT {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private static final int ASLEEP_S = 22;

    @TempDir
    private Path folder;

    @Test
    void whatTheCableHeldIsNotLostAndMeanwhileAnAttachedCopySaysThatItsNumberIsOld() throws Exception {
        HostClock clock = new SystemClock();
        try (SimulatedBoard board = SimulatedBoard.start();
                Recording recording = new Recording(folder)) {
            board.temperature(480, 30);
            recording.from(board.pty().toString()).awaitReadings(3);
            try (AttachedFiring attached = AttachedFiring.now(
                            RecorderPlace.here(() -> RecorderAddress.find(recording.book), WORDS), clock)
                    .orElseThrow()) {
                assertThat(ReadingAge.isOld(attached.latest(), clock.monotonicMs()))
                        .isFalse();
                recording.sleep();
                TimeUnit.SECONDS.sleep(ASLEEP_S);
                assertThat(ReadingAge.isOld(attached.latest(), clock.monotonicMs()))
                        .isTrue();
                int before = recording.readings().size();
                recording.wake();
                recording.awaitReadings(before + ASLEEP_S);
                recording.await("a fresh reading", () -> !ReadingAge.isOld(attached.latest(), clock.monotonicMs()));
            }
            recording.stop();
            List<Reading> readings = recording.readings();
            for (int i = 1; i < readings.size(); i++) {
                assertThat(readings.get(i).elapsedMs() - readings.get(i - 1).elapsedMs())
                        .as("pause before reading %d", i)
                        .isBetween(900L, 1_100L);
            }
            assertThat(readings)
                    .allSatisfy(reading -> assertThat(reading.origin()).isEqualTo(Origin.LIVE));
            assertThat(recording.events().stream().map(FiringEvent::kind))
                    .doesNotContain(Kind.GAP, Kind.CONTROLLER_RESTARTED, Kind.CONNECTION_LOST);
        }
    }

    @Test
    void whatTheCableCouldNotHoldIsAskedForAndFilledIn() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.with().speed(20).start();
                Recording recording = new Recording(folder)) {
            board.temperature(20, 21);
            board.temperatureOver(420, Duration.ofHours(2));
            recording.from(board.pty().toString()).awaitReadings(60);
            recording.sleep();
            // An hour of the kiln's time, far more lines than a cable's buffer holds; what finds no room is lost.
            int frames = board.chipFrames().size();
            board.speed(1);
            TimeUnit.SECONDS.sleep(1);
            board.speed(0);
            board.awaitFrames(frames + 1_200, Duration.ofMinutes(2));
            board.speed(20);
            recording.wake();
            recording.awaitEvent(Kind.GAP);
            recording.awaitEvent(Kind.GAP_FILLED);
            recording.stop();
            List<Reading> readings = recording.readings();
            assertThat(readings.stream().filter(reading -> reading.origin() == Origin.FILLED_IN))
                    .isNotEmpty();
            for (int i = 1; i < readings.size(); i++) {
                assertThat(readings.get(i).elapsedMs() - readings.get(i - 1).elapsedMs())
                        .as("pause before reading %d", i)
                        .isLessThanOrEqualTo(62_000);
            }
        }
    }

    @Test
    void aSenderThatStandsStillIsSilentWithinThreeIntervalsAndASecondAndComesBack() throws Exception {
        HostClock clock = new SystemClock();
        try (SimulatedBoard board = SimulatedBoard.start();
                Recording recording = new Recording(folder)) {
            board.temperature(480, 30);
            recording.from(board.pty().toString()).awaitReadings(3);
            try (AttachedFiring attached = AttachedFiring.now(
                            RecorderPlace.here(() -> RecorderAddress.find(recording.book), WORDS), clock)
                    .orElseThrow()) {
                board.suspend();
                recording.await("silence", () -> state(attached).equals("SILENT"));
                long sinceLast = attached.latest().connection().sinceHostMs()
                        - attached.latest().latest().orElseThrow().hostMs();
                assertThat(sinceLast).isBetween(2_500L, 4_500L);
                assertThat(attached.latest().connection().detail().orElseThrow())
                        .contains("Nothing comes from " + board.pty());
                board.resume();
                recording.await("lines again", () -> state(attached).equals("RECEIVING"));
                assertThat(attached.latest().connection().detail()).isEqualTo(Optional.empty());
            }
        }
    }

    private static String state(AttachedFiring attached) {
        return attached.latest().connection().state().name();
    }
}
