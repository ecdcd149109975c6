package org.kilnside.book;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Cuts the power. A recorder runs on a disk that writes down every write and sync; from that record the test works
 * out what a power cut at any moment leaves: all that was synced, and of the rest a random part, torn at sectors.
 */
class PowerCutIT {
    private static final int PER_MS = 20;
    private static final int CUTS = 30;

    @TempDir
    Path folder;

    @Test
    void afterAPowerCutEveryReadingOlderThanASecondIsThere() throws IOException, InterruptedException {
        Path library = ChildProcess.compileDisk(folder);
        Path disk = Files.createDirectory(folder.resolve("disk"));
        Path path = disk.resolve("firing.book");
        Path log = folder.resolve("log");
        BookRecorder.open(path).close();
        byte[] before = Files.readAllBytes(path);
        List<String> said;
        Map<String, String> environment =
                Map.of("LD_PRELOAD", library.toString(), "DISK_FOLDER", disk.toString(), "DISK_LOG", log.toString());
        try (ChildProcess child = ChildProcess.start(
                List.of(), environment, RecordingProcess.class, path.toString(), Integer.toString(PER_MS))) {
            child.awaitSaid("disk");
            // A checkpoint, the one moment at which the book's own file is written, must be within the record.
            long giveUp = System.nanoTime() + TimeUnit.SECONDS.toNanos(60);
            while (Files.size(path) == before.length && System.nanoTime() < giveUp) {
                Thread.sleep(50);
            }
            Thread.sleep(1_500);
            child.kill();
            said = child.lines();
        }
        DiskLog record = DiskLog.read(log);
        assertThat(record.syncs("firing.book-wal"))
                .as("commits forced to the disk")
                .isGreaterThan(4);
        assertThat(record.syncs("firing.book"))
                .as("checkpoints within the record")
                .isPositive();

        Random random = new Random(20261125);
        int lostOnADiskThatLies = 0;
        for (int i = 0; i < CUTS; i++) {
            int cut = record.size() / 10 + random.nextInt(record.size() * 9 / 10);
            long mustHave = olderThanASecond(said, record.timeMs(cut));
            assertThat(record.survivor(folder.resolve("cut-" + i), before, cut, random, true))
                    .satisfies(survivor -> {
                        assertThat(BookCheck.of(survivor).findings()).isEmpty();
                        assertThat(newestUnbroken(survivor)).isGreaterThanOrEqualTo(mustHave);
                    });
            // The test of the test: without the forced commits it must find readings missing.
            Path lied = record.survivor(folder.resolve("lie-" + i), before, cut, random, false);
            lostOnADiskThatLies += isWhole(lied, mustHave) ? 0 : 1;
        }
        assertThat(lostOnADiskThatLies)
                .as("cuts that lose readings when commits are not forced")
                .isPositive();
    }

    /** The newest elapsed ms that had been handed over a second before a moment; −1 when none had. */
    private static long olderThanASecond(List<String> said, long cutMs) {
        long zero = said.stream()
                .filter(line -> line.startsWith("zero "))
                .mapToLong(line -> Long.parseLong(line.substring(5)))
                .findFirst()
                .orElseThrow();
        return said.stream()
                .filter(line -> line.startsWith("handed "))
                .mapToLong(line -> Long.parseLong(line.substring(7)))
                // Handed over at zero + elapsed at the earliest, and the line was said within one burst after that.
                .filter(elapsed -> zero + elapsed <= cutMs - 1_000)
                .max()
                .orElse(-1);
    }

    private static boolean isWhole(Path survivor, long mustHave) {
        try {
            return BookCheck.of(survivor).isSound() && newestUnbroken(survivor) >= mustHave;
        } catch (BookException e) {
            return false;
        }
    }

    private static long newestUnbroken(Path survivor) {
        TreeMap<Long, Integer> found = new TreeMap<>();
        try (Book book = Book.open(survivor)) {
            if (book.firings().isEmpty()) {
                return -1;
            }
            book.readings(1, reading -> found.merge(reading.elapsedMs(), 1, Integer::sum));
        }
        long next = 0;
        while (found.getOrDefault(next, 0) == PER_MS) {
            next++;
        }
        return next - 1;
    }

    /** What a cut leaves is worked out on paper before it is trusted with the book. */
    @Test
    void onlyWhatWasSyncedIsSure() {
        List<DiskLog.Step> steps = new ArrayList<>();
        steps.add(new DiskLog.Step('W', 0, "a", 0, "old".getBytes(US_ASCII)));
        steps.add(new DiskLog.Step('S', 1, "a", 0, new byte[0]));
        steps.add(new DiskLog.Step('W', 2, "a", 0, "new".getBytes(US_ASCII)));
        DiskLog log = new DiskLog(steps);
        Random random = new Random(1);
        boolean sawOld = false;
        boolean sawNew = false;
        for (int i = 0; i < 50; i++) {
            String text = new String(log.contents("a", new byte[0], 3, random, true), US_ASCII);
            sawOld |= text.equals("old");
            sawNew |= text.equals("new");
            assertThat(text).isIn("old", "new");
        }
        assertThat(sawOld && sawNew).isTrue();
    }
}
