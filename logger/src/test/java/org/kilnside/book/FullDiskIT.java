package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.FiringEvent;

/** A real disk that is full cannot be had in every container; one slipped in below SQLite and Java can. */
class FullDiskIT {
    @TempDir
    Path folder;

    @Test
    void aFullDiskCostsTheReserveThenReadingsWaitInMemoryAndAllGoesOnWhenThereIsSpaceAgain()
            throws IOException, InterruptedException {
        Path library = ChildProcess.compileDisk(folder);
        Path disk = Files.createDirectory(folder.resolve("disk"));
        Path path = disk.resolve("firing.book");
        Path quota = Files.writeString(folder.resolve("quota"), "1000000000");
        Map<String, String> environment = Map.of(
                "LD_PRELOAD", library.toString(), "DISK_FOLDER", disk.toString(), "DISK_QUOTA", quota.toString());
        try (ChildProcess child =
                ChildProcess.start(List.of(), environment, FullDiskProcess.class, path.toString(), quota.toString())) {
            int ended = child.awaitEnd();
            assertThat(ended).as(() -> String.join("\n", child.lines())).isZero();

            assertThat(child.said("flushed")).contains("true");
            assertThat(child.said("reserve-freed")).contains("true");
            assertThat(child.said("on-the-reserve").orElseThrow())
                    .contains("almost full")
                    .contains("free some space");
            assertThat(child.said("full").orElseThrow())
                    .contains("is full: free some space")
                    .contains("wait in memory, which holds 24 hours")
                    .doesNotContain("left out");
            assertThat(child.said("still-full").orElseThrow()).contains("readings had to be left out");
            assertThat(child.said("bounded")).contains("true");
            assertThat(child.said("on-disk-unchanged")).contains("true");
            assertThat(child.said("backup").orElseThrow()).contains("too full for the backup");
            assertThat(child.said("recovered")).contains("true");
            assertThat(child.said("goes-on")).contains("true");
            assertThat(child.said("afterwards").orElseThrow()).doesNotContain("is full");
            assertThat(child.said("reserve-again")).contains("true");
            assertThat(child.said("opened-full")).contains("true");
            assertThat(child.said("recorded-full")).contains("true");
            assertThat(child.said("opened-full-state").orElseThrow()).contains("almost full");

            assertThat(BookCheck.of(path).findings()).isEmpty();
            try (Book book = Book.open(path)) {
                RecordedFiring firing = book.firing(1);
                long last = firing.curve().elapsedMs(firing.curve().size() - 1);
                assertThat(Long.toString(last))
                        .isEqualTo(child.said("handed-up-to").orElseThrow());
                assertThat(firing.events()).extracting(FiringEvent::kind).contains(FiringEvent.Kind.BOOK_TROUBLE);
                assertThat(firing.events().get(0).text().orElseThrow()).contains("were left out");
            }
        }
    }
}
