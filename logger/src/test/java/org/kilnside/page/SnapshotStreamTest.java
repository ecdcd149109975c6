package org.kilnside.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.SocketChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.alarm.Alarm;
import org.kilnside.host.SystemClock;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.session.Connection;
import org.kilnside.session.HandFeed;
import org.kilnside.session.LineView;
import org.kilnside.session.Snapshot;
import org.kilnside.session.Snapshots;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class SnapshotStreamTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private final SystemClock clock = new SystemClock();
    private final HandFeed feed = new HandFeed(Snapshots.bisque(clock.monotonicMs(), 1_000));

    @TempDir
    private Path folder;

    private final RecorderPlace place = RecorderPlace.here(() -> Optional.of(this.address), WORDS);
    private UnixDomainSocketAddress address;
    private SnapshotStream stream;

    @BeforeEach
    void open() throws IOException {
        address = UnixDomainSocketAddress.of(folder.resolve("s"));
        stream = SnapshotStream.open(feed, clock, address);
    }

    @AfterEach
    void close() {
        stream.close();
    }

    @Test
    void anAttachedCopySeesTheSameFiring() {
        try (AttachedFiring attached = AttachedFiring.now(place, clock).orElseThrow()) {
            assertThat(attached.latest().kiln()).hasValue("Tall Drum");
            assertThat(attached.latest().curve().size()).isEqualTo(1_000);
            feed.show(Snapshots.bisque(clock.monotonicMs(), 1_001));
            await(() -> attached.latest().curve().size() == 1_001);
        }
    }

    @Test
    void anAttachedCopySeesTheLinesOfTheWire() {
        feed.lines = new LineView(
                List.of(new LineView.Line(
                        1, clock.monotonicMs(), "R 1 10 t1=4", false, LineView.Verdict.CHECKSUM_MISSING)),
                Map.of(LineView.Verdict.CHECKSUM_MISSING, 1L));
        try (AttachedFiring attached = AttachedFiring.now(place, clock).orElseThrow()) {
            assertThat(attached.lines().lines().get(0).text()).isEqualTo("R 1 10 t1=4");
            assertThat(attached.lines().count(LineView.Sort.SPOILT)).isEqualTo(1);
        }
    }

    @Test
    void anAttachedCopyMayAddANoteAndSayThatTheFiringEnds() {
        try (AttachedFiring attached = AttachedFiring.now(place, clock).orElseThrow()) {
            attached.note("Bung out");
            await(() -> feed.said.contains("Bung out"));
            attached.firingEnds();
            await(() -> feed.said.contains("ends"));
        }
    }

    @Test
    void whatIsSaidWhileTheRecorderIsGoneReachesItOnceItIsBackAndOnceOnly() throws IOException {
        try (AttachedFiring attached = AttachedFiring.now(place, clock).orElseThrow()) {
            stream.close();
            await(() -> attached.latest().connection().state() == Connection.State.LOST);
            attached.note("Bung out");
            attached.acknowledge("stuck-relay-1");
            await(() -> attached.waiting() == 2);
            assertThat(attached.takesNotes()).isTrue();
            stream = SnapshotStream.open(feed, clock, address);
            await(() -> feed.said.contains("acknowledge: stuck-relay-1"));
            await(() -> attached.waiting() == 0);
            // A wire that breaks before the answer has come: the same is sent once more, and taken down once.
            stream.close();
            await(() -> attached.latest().connection().state() == Connection.State.LOST);
            stream = SnapshotStream.open(feed, clock, address);
            await(() -> attached.latest().connection().state() == Connection.State.RECEIVING);
            assertThat(feed.said).containsExactly("Bung out", "acknowledge: stuck-relay-1");
        }
    }

    @Test
    void anAnswerThatComesLateDoesNotSilenceWhatWasRaisedAgainSince() {
        Alarm alarm = Snapshots.stuckRelay();
        feed.show(Snapshots.bisque(clock.monotonicMs(), 1_000).withAlarms(List.of(alarm)));
        Alarm again = new Alarm(
                alarm.id(),
                alarm.kind(),
                alarm.grade(),
                Alarm.State.RAISED_AGAIN,
                alarm.sinceMs(),
                alarm.raisedMs(),
                alarm.times() + 1,
                alarm.seen(),
                alarm.expected(),
                alarm.acknowledgedMs(),
                alarm.clearedMs());
        try (AttachedFiring attached = AttachedFiring.now(place, clock).orElseThrow()) {
            stream.close();
            await(() -> attached.latest().connection().state() == Connection.State.LOST);
            attached.acknowledge(alarm.id());
            feed.show(Snapshots.bisque(clock.monotonicMs(), 1_001).withAlarms(List.of(again)));
            stream = SnapshotStream.open(feed, clock, address);
            await(() -> attached.latest().connection().state() == Connection.State.RECEIVING);
            attached.note("Bung out");
            await(() -> feed.said.contains("Bung out"));
            assertThat(feed.said).containsExactly("Bung out");
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Test
    void whenTheRecorderGoesTheCopySaysSoAndComesBackWithIt() throws IOException {
        try (AttachedFiring attached = AttachedFiring.now(place, clock).orElseThrow()) {
            stream.close();
            await(() -> attached.latest().connection().state() == Connection.State.LOST);
            assertThat(attached.latest().connection().detail().orElseThrow()).contains("kilnside record");
            stream = SnapshotStream.open(feed, clock, address);
            await(() -> attached.latest().connection().state() == Connection.State.RECEIVING);
        }
    }

    @Test
    void aFollowerThatDoesNotReadHoldsUpNobody() throws IOException {
        Snapshot large = Snapshots.bisque(clock.monotonicMs(), 200_000);
        feed.show(large);
        List<SocketChannel> deaf = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            SocketChannel channel = SocketChannel.open(StandardProtocolFamily.UNIX);
            channel.connect(address);
            deaf.add(channel);
        }
        await(() -> feed.listeners() == 5);
        for (int i = 1; i <= 1_000; i++) {
            feed.show(large);
        }
        try (AttachedFiring attached = AttachedFiring.now(place, clock).orElseThrow()) {
            assertThat(attached.latest().curve().size()).isEqualTo(200_000);
            // The deaf are dropped after 5 s; the one that reads stays.
            await(() -> feed.listeners() == 1);
        }
        for (SocketChannel channel : deaf) {
            channel.close();
        }
    }

    @Test
    void noiseOnTheSocketDropsOnlyWhoMadeIt() throws IOException {
        try (SocketChannel noisy = SocketChannel.open(StandardProtocolFamily.UNIX)) {
            noisy.connect(address);
            noisy.write(java.nio.ByteBuffer.wrap(new byte[] {0, 1, 2, '\n'}));
            await(() -> feed.listeners() == 0);
        }
        try (AttachedFiring attached = AttachedFiring.now(place, clock).orElseThrow()) {
            assertThat(attached.latest().kiln()).hasValue("Tall Drum");
        }
    }

    @Test
    void withoutARecorderThereIsNothingToAttachTo() {
        assertThat(AttachedFiring.now(
                        RecorderPlace.here(
                                () -> Optional.of(UnixDomainSocketAddress.of(folder.resolve("nobody"))), WORDS),
                        clock))
                .isEmpty();
    }

    @Test
    void aCopyThatIsOpenedFirstAttachesWhenTheRecorderComes() throws IOException {
        stream.close();
        Snapshot nothing = Snapshots.bisque(0, 0);
        try (AttachedFiring attached = AttachedFiring.whenThere(place, clock, nothing)) {
            stream = SnapshotStream.open(feed, clock, address);
            await(() -> attached.latest().curve().size() == 1_000);
        }
    }

    @Test
    void aSocketLeftByAKilledRecorderIsReplaced() throws IOException {
        stream.close();
        Files.writeString(folder.resolve("s"), "left behind");
        stream = SnapshotStream.open(feed, clock, address);
        assertThat(AttachedFiring.now(place, clock)).isPresent();
    }

    private static void await(BooleanSupplier condition) {
        long until = System.nanoTime() + 15_000_000_000L;
        while (!condition.getAsBoolean()) {
            assertThat(System.nanoTime()).as("waited 15 s in vain").isLessThan(until);
            Thread.onSpinWait();
            java.util.concurrent.locks.LockSupport.parkNanos(10_000_000);
        }
    }
}
