package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.testing.Tools;

/** The superuser may write everything: where the tests run as one, the child gives that right away first. */
class ReadOnlyBookIT {
    @TempDir
    Path folder;

    private Path disk;
    private Path path;

    @BeforeEach
    void recordSome() throws IOException {
        disk = Files.createDirectory(folder.resolve("disk"));
        path = disk.resolve("firing.book");
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            SomeReadings.firing(100).forEach(reading -> recorder.append(number, reading));
            recorder.end(number, 100_000);
        }
    }

    @AfterEach
    void letTheFolderBeRemoved() throws IOException {
        allow(disk, "rwx------");
    }

    @Test
    void aBookThatMayNotBeWrittenIsReadAndSaysWhy() throws IOException, InterruptedException {
        allow(path, "r--r--r--");
        isReadOnly();
    }

    @Test
    void aBookInAFolderThatMayNotBeWrittenIsReadAndSaysWhy() throws IOException, InterruptedException {
        allow(path, "r--r--r--");
        allow(disk.resolve("firing.book.recorder"), "r--r--r--");
        allow(disk, "r-xr-xr-x");
        isReadOnly();
    }

    /** As on a stick that was pulled out and is now looked at where nothing may be written. */
    @Test
    void aBookWhoseRecorderWasKilledIsReadWholeWhereNothingMayBeWritten() throws IOException, InterruptedException {
        try (ChildProcess child =
                ChildProcess.start(List.of(), Map.of(), RecordingProcess.class, path.toString(), "1")) {
            child.awaitSaid("disk");
            child.kill();
        }
        assertThat(disk.resolve("firing.book-wal")).isNotEmptyFile();
        for (String ending : List.of("", "-wal", "-shm", ".recorder")) {
            allow(disk.resolve("firing.book" + ending), "r--r--r--");
        }
        allow(disk, "r-xr-xr-x");
        try (ChildProcess child = attempt()) {
            assertThat(child.awaitEnd())
                    .as(() -> String.join("\n", child.lines()))
                    .isZero();
            assertThat(child.said("caution").orElseThrow()).contains("can be read but not written");
            assertThat(child.said("firings")).contains("2");
            assertThat(child.said("findings")).contains("[]");
        }
    }

    @Test
    void aBookThatMayNotEvenBeReadSaysSo() throws IOException, InterruptedException {
        allow(path, "---------");
        try (ChildProcess child = attempt()) {
            assertThat(child.awaitEnd()).isZero();
            assertThat(child.said("record").orElseThrow())
                    .startsWith("READ_ONLY")
                    .contains("may not be read");
            assertThat(child.said("read").orElseThrow()).startsWith("READ_ONLY").contains("may not be read");
        }
    }

    private void isReadOnly() throws IOException, InterruptedException {
        byte[] before = Files.readAllBytes(path);
        try (ChildProcess child = attempt()) {
            assertThat(child.awaitEnd())
                    .as(() -> String.join("\n", child.lines()))
                    .isZero();
            assertThat(child.said("record").orElseThrow())
                    .startsWith("READ_ONLY")
                    .contains("give yourself permission");
            assertThat(child.said("caution").orElseThrow()).contains("can be read but not written");
            assertThat(child.said("readings")).contains("100");
            assertThat(child.said("note").orElseThrow()).startsWith("READ_ONLY").contains("notes cannot be added");
            assertThat(child.said("findings")).contains("[]");
        }
        assertThat(Files.readAllBytes(path)).isEqualTo(before);
    }

    private ChildProcess attempt() {
        List<String> prefix = System.getProperty("user.name").equals("root")
                ? List.of(
                        Tools.require("setpriv").toString(),
                        "--bounding-set=-dac_override,-dac_read_search",
                        "--inh-caps=-dac_override,-dac_read_search")
                : List.of();
        return ChildProcess.start(prefix, Map.of(), ReadOnlyProcess.class, path.toString());
    }

    private static void allow(Path file, String permissions) throws IOException {
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString(permissions));
    }
}
