package org.kilnside.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.Socket;
import java.net.UnixDomainSocketAddress;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.host.SystemClock;
import org.kilnside.link.AttachedFiring;
import org.kilnside.link.share.LanWire;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.link.share.ShareKey;
import org.kilnside.link.share.Token;
import org.kilnside.session.BookInMemory;
import org.kilnside.session.FakeFiring;
import org.kilnside.session.LiveFiring;

/** A house full of copies, one of which takes nothing, and a recording that goes on as if there were none. */
class ManyCopiesTest {
    private static final int COPIES = 50;

    @TempDir
    private Path folder;

    @Test
    void fiftyCopiesOfWhichOneNeverReadsDoNotHoldUpTheRecording() throws Exception {
        SystemClock clock = new SystemClock();
        SecureRandom chance = new SecureRandom();
        Token token = Token.random(chance);
        BookInMemory book = new BookInMemory();
        FakeFiring fake = new FakeFiring(book, clock);
        LiveFiring firing = fake.firing();
        firing.start();
        // A long curve: what the deaf one does not take is more than any buffer between the two holds.
        fake.gives(60_000);
        await(() -> book.readings.get(0).size() == 60_000);
        List<AttachedFiring> copies = new ArrayList<>();
        try (SnapshotStream stream =
                        SnapshotStream.open(firing, clock, UnixDomainSocketAddress.of(folder.resolve("s")));
                LanDoor door = LanDoor.open(stream, clock, ShareKey.of(token, chance, LocalDate.EPOCH), false, 0)) {
            RecorderPlace place = RecorderPlace.onTheNetwork("127.0.0.1", door.port(), token);
            for (int i = 0; i < COPIES - 1; i++) {
                copies.add(AttachedFiring.now(place, clock).orElseThrow());
            }
            Socket small = new Socket();
            small.setReceiveBufferSize(4_096);
            LanWire.Admitted deaf = LanWire.connect(small, "127.0.0.1", door.port(), token);
            await(() -> stream.followers() == COPIES);
            for (int i = 0; i < 50; i++) {
                // While the deaf one is stuck, every reading goes into the book and on to the others.
                fake.gives(100);
                TimeUnit.MILLISECONDS.sleep(20);
            }
            await(() -> book.readings.get(0).size() == 65_000);
            await(() -> copies.stream().allMatch(copy -> copy.latest().curve().size() >= 64_990));
            await(() -> stream.followers() == COPIES - 1);
            deaf.wire().close();
            // A stranger at the door in the middle of it all changes nothing either.
            new Socket("127.0.0.1", door.port()).close();
        } finally {
            copies.forEach(AttachedFiring::close);
            firing.close();
        }
        assertThat(book.readings.get(0)).hasSize(65_000);
    }

    private static void await(BooleanSupplier condition) throws InterruptedException {
        long until = System.nanoTime() + 90_000_000_000L;
        while (!condition.getAsBoolean()) {
            assertThat(System.nanoTime()).as("waited 90 s in vain").isLessThan(until);
            TimeUnit.MILLISECONDS.sleep(20);
        }
    }
}
