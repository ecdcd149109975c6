package org.kilnside.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.UnixDomainSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.files.SaidByCopy;
import org.kilnside.host.SystemClock;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.share.LanWire;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.link.share.ShareKey;
import org.kilnside.link.share.Token;
import org.kilnside.session.Connection;
import org.kilnside.session.HandFeed;
import org.kilnside.session.Snapshot;
import org.kilnside.session.Snapshots;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class LanDoorTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private static final String HERE = "127.0.0.1";

    private final SystemClock clock = new SystemClock();
    private final HandFeed feed = new HandFeed(Snapshots.bisque(clock.monotonicMs(), 1_000));
    private final SecureRandom chance = new SecureRandom();
    private final Token token = Token.random(chance);
    private final ShareKey key = ShareKey.of(token, chance, LocalDate.EPOCH);

    @TempDir
    private Path folder;

    private SnapshotStream stream;
    private LanDoor door;

    @BeforeEach
    void open() throws IOException {
        stream = SnapshotStream.open(feed, clock, UnixDomainSocketAddress.of(folder.resolve("s")));
        door = LanDoor.open(stream, clock, key, true, 0);
    }

    @AfterEach
    void close() {
        door.close();
        stream.close();
    }

    private RecorderPlace place(Token its) {
        return RecorderPlace.onTheNetwork(HERE, door.port(), its, WORDS);
    }

    @Test
    void aCopyThatKnowsTheTokenSeesTheFiringAndMaySayWhatWasDone() {
        try (AttachedFiring attached = AttachedFiring.now(place(token), clock).orElseThrow()) {
            assertThat(attached.latest().kiln()).hasValue("Tall Drum");
            assertThat(attached.latest().curve().size()).isEqualTo(1_000);
            feed.show(Snapshots.bisque(clock.monotonicMs(), 1_001));
            await(() -> attached.latest().curve().size() == 1_001);
            assertThat(attached.takesNotes()).isTrue();
            attached.note("Bung out");
            await(() -> feed.said.contains("Bung out"));
        }
    }

    @Test
    void whereTheOwnerAllowsOnlyLookingNothingIsHeard() throws IOException {
        door.close();
        door = LanDoor.open(stream, clock, key, false, 0);
        try (AttachedFiring attached = AttachedFiring.now(place(token), clock).orElseThrow()) {
            assertThat(attached.takesNotes()).isFalse();
            attached.note("Bung out");
        }
        // A copy that says something all the same is not heard either.
        LanWire.Admitted rude = LanWire.connect(HERE, door.port(), token);
        rude.wire()
                .writeLine(
                        new SaidByCopy(SaidByCopy.What.NOTE, Optional.of("Bung out"), OptionalInt.empty(), "rude", 1, 0)
                                .line(),
                        sent -> {});
        assertThat(rude.wire().readLine(10_000_000)).contains("Tall Drum");
        feed.show(Snapshots.bisque(clock.monotonicMs(), 1_002));
        assertThat(rude.wire().readLine(10_000_000)).isNotNull();
        assertThat(feed.said).isEmpty();
        rude.wire().close();
    }

    @Test
    void aWrongTokenIsNotToldToTheRecorderAndTheCopySaysWhatToDo() {
        assertThatThrownBy(() -> LanWire.connect(HERE, door.port(), Token.random(chance)))
                .isInstanceOf(LanWire.RefusedException.class)
                .hasMessageContaining("was not told")
                .hasMessageContaining("kilnside share new");
        assertThat(stream.followers()).isZero();
        AttachedFiring attached =
                AttachedFiring.whenThere(place(Token.random(chance)), clock, Snapshots.bisque(clock.monotonicMs(), 0));
        await(() -> attached.latest().connection().detail().orElse("").contains("does not know this token"));
        attached.close();
    }

    @Test
    void afterWrongTokensAnAddressIsTurnedAwayUnheard() throws IOException {
        for (int i = 0; i < 4; i++) {
            assertThatThrownBy(() -> LanWire.connect(HERE, door.port(), Token.random(chance)))
                    .isInstanceOf(IOException.class);
        }
        assertThatThrownBy(() -> LanWire.connect(HERE, door.port(), token))
                .isInstanceOf(IOException.class)
                .isNotInstanceOf(LanWire.RefusedException.class);
        assertThat(stream.followers()).isZero();
    }

    @Test
    void whoStandsBetweenTheTwoIsFoundOutBeforeTheTokenIsTold() throws Exception {
        // An impostor that knows another token has a certificate of its own; it passes every line on to the recorder.
        ShareKey own = ShareKey.of(Token.random(chance), chance, LocalDate.EPOCH);
        List<String> overheard = new ArrayList<>();
        try (ServerSocket trap = new ServerSocket(0, 5, InetAddress.getByName(HERE))) {
            Thread impostor = new Thread(() -> Impostor.passOn(trap, own, HERE, door.port(), overheard), "impostor");
            impostor.setDaemon(true);
            impostor.start();
            assertThatThrownBy(() -> LanWire.connect(HERE, trap.getLocalPort(), token))
                    .isInstanceOf(LanWire.RefusedException.class);
            impostor.join(10_000);
        }
        assertThat(overheard).isNotEmpty();
        assertThat(String.join("\n", overheard)).doesNotContain(token.typed());
        assertThat(stream.followers()).isZero();
    }

    @Test
    void nothingReadableGoesOverTheWire() throws Exception {
        ByteArrayOutputStream seen = new ByteArrayOutputStream();
        try (ServerSocket tap = new ServerSocket(0, 5, InetAddress.getByName(HERE))) {
            Thread listener = new Thread(() -> Wiretap.pass(tap, HERE, door.port(), seen), "tap");
            listener.setDaemon(true);
            listener.start();
            LanWire.Admitted there = LanWire.connect(HERE, tap.getLocalPort(), token);
            assertThat(there.wire().readLine(10_000_000)).contains("Tall Drum");
            there.wire().close();
        }
        String bytes = seen.toString(StandardCharsets.ISO_8859_1);
        assertThat(bytes.length()).isGreaterThan(1_000);
        assertThat(bytes).doesNotContain("Tall Drum").doesNotContain(token.typed());
    }

    @Test
    void anotherTokenMadeLaterShutsTheOldOneOut() throws IOException {
        door.close();
        Token newer = Token.random(chance);
        door = LanDoor.open(stream, clock, ShareKey.of(newer, chance, LocalDate.EPOCH), true, 0);
        assertThatThrownBy(() -> LanWire.connect(HERE, door.port(), token))
                .isInstanceOf(LanWire.RefusedException.class);
        assertThat(AttachedFiring.now(place(newer), clock)).isPresent();
    }

    @Test
    void whatIsNoCopyGetsNothing() throws IOException {
        try (Socket browser = new Socket(HERE, door.port())) {
            browser.setSoTimeout(10_000);
            browser.getOutputStream().write("GET / HTTP/1.1\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
            InputStream in = browser.getInputStream();
            assertThat(new String(in.readAllBytes(), StandardCharsets.ISO_8859_1))
                    .doesNotContain("Tall Drum");
        }
        assertThat(stream.followers()).isZero();
    }

    @Test
    void aTakenPortIsSaidInASentence() {
        assertThatThrownBy(() -> LanDoor.open(stream, clock, key, true, door.port()))
                .hasMessageContaining("--share-port");
    }

    @Test
    void theCopyComesBackByItselfWhenTheRecorderDoes() throws IOException {
        int port = door.port();
        try (AttachedFiring attached = AttachedFiring.now(RecorderPlace.onTheNetwork(HERE, port, token, WORDS), clock)
                .orElseThrow()) {
            door.close();
            stream.close();
            await(() -> attached.latest().connection().state() == Connection.State.LOST);
            Snapshot shown = attached.latest();
            assertThat(shown.connection().detail().orElseThrow()).contains("No Kilnside answers on " + HERE);
            assertThat(shown.curve().size()).isEqualTo(1_000);
            stream = SnapshotStream.open(feed, clock, UnixDomainSocketAddress.of(folder.resolve("s")));
            await(() -> opensAgain(port));
            await(() -> attached.latest().connection().state() == Connection.State.RECEIVING);
        }
    }

    /** A copy that calls a port of this computer where nobody listens can meet itself there; the recorder too tries again. */
    private boolean opensAgain(int port) {
        try {
            door = LanDoor.open(stream, clock, key, true, port);
            return true;
        } catch (IOException taken) {
            return false;
        }
    }

    private static void await(BooleanSupplier condition) {
        long until = System.nanoTime() + 20_000_000_000L;
        while (!condition.getAsBoolean()) {
            assertThat(System.nanoTime()).as("waited 20 s in vain").isLessThan(until);
            java.util.concurrent.locks.LockSupport.parkNanos(10_000_000);
        }
    }
}
