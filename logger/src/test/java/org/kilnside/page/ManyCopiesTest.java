package org.kilnside.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.Socket;
import java.net.UnixDomainSocketAddress;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.Book;
import org.kilnside.book.BookRecorder;
import org.kilnside.host.SystemClock;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.share.LanWire;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.link.share.ShareKey;
import org.kilnside.link.share.Token;
import org.kilnside.session.FakeFiring;
import org.kilnside.session.LiveFiring;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/** A house full of copies, one of which takes nothing, and a recording that goes on as if there were none. */
class ManyCopiesTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private static final int COPIES = 50;

    @TempDir
    private Path folder;

    @Test
    void fiftyCopiesOfWhichOneNeverReadsDoNotHoldUpTheRecording() throws Exception {
        SystemClock clock = new SystemClock();
        SecureRandom chance = new SecureRandom();
        Token token = Token.random(chance);
        Path file = folder.resolve("firings.book");
        BookRecorder book = BookRecorder.open(file);
        FakeFiring fake = new FakeFiring(book, clock);
        LiveFiring firing = fake.firing();
        firing.start();
        // A long curve: what the deaf one does not take is more than any buffer between the two holds.
        fake.gives(60_000);
        await(() -> firing.latest().curve().size() == 60_000);
        await(() -> book.state().waiting() == 0);
        ToTheDisk gap = new ToTheDisk(book);
        List<AttachedFiring> copies = new ArrayList<>();
        try (SnapshotStream stream =
                        SnapshotStream.open(firing, clock, UnixDomainSocketAddress.of(folder.resolve("s")));
                LanDoor door = LanDoor.open(stream, clock, ShareKey.of(token, chance, LocalDate.EPOCH), false, 0)) {
            RecorderPlace place = RecorderPlace.onTheNetwork("127.0.0.1", door.port(), token, WORDS);
            for (int i = 0; i < COPIES - 1; i++) {
                copies.add(AttachedFiring.now(place, clock).orElseThrow());
            }
            Socket small = new Socket();
            small.setReceiveBufferSize(4_096);
            LanWire.Admitted deaf = LanWire.connect(small, "127.0.0.1", door.port(), token);
            await(() -> stream.followers() == COPIES);
            for (int i = 0; i < 50; i++) {
                // While the deaf one is stuck, every reading goes into the book and on to the others.
                gap.gives(fake, 100);
                gap.looksFor(20);
            }
            for (int i = 0; i < 6_000 && stream.followers() == COPIES; i++) {
                // On until the deaf one is dropped, and all along.
                gap.gives(fake, 1);
                gap.looksFor(10);
            }
            gap.looksFor(1_000);
            await(() -> copies.stream().allMatch(copy -> copy.latest().curve().size() >= gap.given - 10));
            await(() -> stream.followers() == COPIES - 1);
            deaf.wire().close();
            // A stranger at the door in the middle of it all changes nothing either.
            new Socket("127.0.0.1", door.port()).close();
        } finally {
            copies.forEach(AttachedFiring::close);
            firing.close();
            book.close();
        }
        AtomicInteger inTheBook = new AtomicInteger();
        try (Book written = Book.open(file)) {
            written.readings(1, reading -> inTheBook.incrementAndGet());
        }
        assertThat(inTheBook).hasValue(gap.given);
        System.out.printf(
                "%d copies, one of them deaf: at most %d ms from a reading to the disk%n", COPIES, gap.longestMs);
        if (Boolean.getBoolean("kilnside.long")) {
            // On a computer that does nothing else; the house's promise is 500 ms.
            assertThat(gap.longestMs).isLessThanOrEqualTo(500);
        }
    }

    /** How long a reading takes from its arrival to the disk, at the longest. */
    private static final class ToTheDisk {
        private final BookRecorder book;
        private final Deque<long[]> onTheWay = new ArrayDeque<>();
        private int given = 60_000;
        private long longestMs;

        ToTheDisk(BookRecorder book) {
            this.book = book;
        }

        void gives(FakeFiring fake, int readings) {
            onTheWay.add(new long[] {(given + readings - 1) * 1_000L, System.nanoTime()});
            given += readings;
            fake.gives(readings);
        }

        void looksFor(long ms) throws InterruptedException {
            long until = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(ms);
            do {
                long onDiskMs = book.state().onDiskUpToMs().orElse(0);
                while (!onTheWay.isEmpty() && onTheWay.peek()[0] <= onDiskMs) {
                    longestMs = Math.max(longestMs, (System.nanoTime() - onTheWay.remove()[1]) / 1_000_000);
                }
                TimeUnit.MILLISECONDS.sleep(2);
            } while (System.nanoTime() < until);
        }
    }

    private static void await(BooleanSupplier condition) throws InterruptedException {
        long until = System.nanoTime() + 90_000_000_000L;
        while (!condition.getAsBoolean()) {
            assertThat(System.nanoTime()).as("waited 90 s in vain").isLessThan(until);
            TimeUnit.MILLISECONDS.sleep(20);
        }
    }
}
