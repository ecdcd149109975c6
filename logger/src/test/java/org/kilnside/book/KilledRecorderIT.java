package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Kills a recorder at 20 random moments: while it opens the book, makes it, writes, commits. */
class KilledRecorderIT {
    private static final int KILLS = 20;

    @TempDir
    Path folder;

    @Test
    void everyReadingOlderThanASecondIsThereHoweverTheRecorderEnds() throws InterruptedException {
        Path path = folder.resolve("firing.book");
        Random random = new Random();
        long checked = 0;
        for (int kill = 0; kill < KILLS; kill++) {
            boolean whileOpening = kill % 5 == 0;
            try (ChildProcess child =
                    ChildProcess.start(List.of(), Map.of(), RecordingProcess.class, path.toString(), "1")) {
                if (whileOpening) {
                    Thread.sleep(random.nextInt(900));
                } else {
                    child.awaitSaid("handed");
                    Thread.sleep(random.nextInt(2_000));
                }
                long killedAt = System.currentTimeMillis();
                child.kill();
                checked += check(path, child, killedAt);
            }
        }
        System.out.println("readings older than a second at a kill, all found: " + checked);
        assertThat(checked).isPositive();
    }

    /** The book is whole, and has every millisecond's reading up to what was promised or is older than a second. */
    private static long check(Path path, ChildProcess child, long killedAt) {
        if (child.said("handed").isEmpty()) {
            if (path.toFile().exists()) {
                assertThat(BookCheck.of(path).findings()).isEmpty();
            }
            return 0;
        }
        assertThat(BookCheck.of(path).findings()).isEmpty();
        assertThat(Book.isBeingRecorded(path)).isFalse();
        long zero = Long.parseLong(child.said("zero").orElseThrow());
        long firstHanded = child.lines().stream()
                .filter(line -> line.startsWith("handed "))
                .mapToLong(line -> Long.parseLong(line.substring(7)))
                .findFirst()
                .orElseThrow();
        long lastHanded = Long.parseLong(child.said("handed").orElseThrow());
        long promised = child.said("disk").map(Long::parseLong).orElse(-1L);
        long mustBeThere = Math.max(promised, Math.min(lastHanded, killedAt - zero - 1_000));
        if (mustBeThere < firstHanded) {
            // Killed so soon that not even the firing itself had to be on the disk.
            return 0;
        }
        long[] next = {firstHanded};
        try (Book book = Book.open(path)) {
            book.readings(1, reading -> {
                if (reading.elapsedMs() == next[0]) {
                    next[0]++;
                }
            });
        }
        assertThat(next[0] - 1).as("the last reading of an unbroken run").isGreaterThanOrEqualTo(mustBeThere);
        return Math.max(0, mustBeThere - firstHanded + 1);
    }
}
