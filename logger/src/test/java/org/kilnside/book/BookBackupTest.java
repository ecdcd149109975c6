package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.FiringEvent;

class BookBackupTest {
    @TempDir
    Path folder;

    @Test
    void aBackupOfABookBeingRecordedIsAWholeBookOfItsOwn() {
        Path path = folder.resolve("firing.book");
        Path copy = folder.resolve("on the stick/firing.book");
        try (BookRecorder recorder = BookRecorder.open(path);
                Book book = Book.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            SomeReadings.firing(500).forEach(reading -> recorder.append(number, reading));
            assertThat(recorder.flush(Duration.ofSeconds(20))).isTrue();
            book.backup(copy);
            recorder.append(number, SomeReadings.celsius(600_000, 20));
        }
        try (Book book = Book.open(copy)) {
            assertThat(book.caution()).isEmpty();
            assertThat(book.firings().get(0).readingCount()).isEqualTo(500);
        }
        assertThat(BookCheck.of(copy)).isEqualTo(new BookCheck(List.of(), 1, 500));
    }

    @Test
    void aBackupThatIsThereIsNotWrittenOver() throws IOException {
        Path path = folder.resolve("firing.book");
        Path copy = Files.writeString(folder.resolve("copy"), "something else");
        BookRecorder.open(path).close();
        try (Book book = Book.open(path)) {
            assertThatThrownBy(() -> book.backup(copy))
                    .isInstanceOf(BookException.class)
                    .hasMessageContaining("is there already");
        }
        assertThat(copy).hasContent("something else");
    }

    @Test
    void aBackupThatCannotBeWrittenLeavesNothingBehind() throws IOException {
        Path path = folder.resolve("firing.book");
        BookRecorder.open(path).close();
        Path notAFolder = Files.writeString(folder.resolve("a-file"), "");
        try (Book book = Book.open(path)) {
            assertThatThrownBy(() -> book.backup(notAFolder.resolve("copy")))
                    .isInstanceOf(BookException.class)
                    .hasMessageContaining("could not be written");
        }
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files.map(file -> file.getFileName().toString()))
                    .containsExactlyInAnyOrder("firing.book", "firing.book.recorder", "firing.book.reserve", "a-file");
        }
    }

    @Test
    void theCheckFindsWhatDoesNotHoldBetweenTheRows() throws SQLException {
        Path path = folder.resolve("firing.book");
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            recorder.append(number, FiringEvent.of(0, FiringEvent.Kind.RECORDING_BEGAN));
            SomeReadings.firing(100).forEach(reading -> recorder.append(number, reading));
            recorder.append(number, SomeReadings.celsius(99_000, 22));
            recorder.end(number, 100_000);
        }
        assertThat(BookCheck.of(path).isSound()).isTrue();
        try (Connection connection = new BookFile(path).connect();
                Statement statement = connection.createStatement()) {
            statement.execute("PRAGMA foreign_keys = OFF");
            statement.execute("DELETE FROM reading WHERE elapsed_ms = 99000 AND repeat = 0");
            statement.execute("INSERT INTO event (firing, elapsed_ms, kind) VALUES (9, 0, 'RECORDING_BEGAN')");
            statement.execute("UPDATE event SET kind = 'LOOKED_AT' WHERE firing = 1");
        }
        assertThat(BookCheck.of(path).findings())
                .containsExactlyInAnyOrder(
                        "A row of event belongs to no row of firing.",
                        "Firing 1 lacks a line it had at 99000 ms.",
                        "Firing 1 has an event of an unknown kind, LOOKED_AT.",
                        "Firing 1 is listed with 101 readings but has 100.");
    }
}
