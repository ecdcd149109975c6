package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.List;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.BookException.Reason;

/** What is in the book's place may be anything: each case gets one sentence, and not a byte of it is changed. */
class BookOpeningTest {
    @TempDir
    Path folder;

    private Path path;

    @BeforeEach
    void nameTheBook() {
        path = folder.resolve("firing.book");
    }

    @Test
    void aBookThatIsNotThereIsMadeByTheRecorderAndByNobodyElse() {
        refuses(Reason.MISSING, "no firing book at " + path, () -> Book.open(path));
        assertThat(path).doesNotExist();
        Path deeper = folder.resolve("a folder/of mine/ünser.book");
        BookRecorder.open(deeper).close();
        try (Book book = Book.open(deeper)) {
            assertThat(book.firings()).isEmpty();
            assertThat(book.caution()).isEmpty();
        }
    }

    @Test
    void aTextFileIsRefused() throws IOException {
        Files.writeString(path, "elapsed_s,temp_c\n0,20\n".repeat(100));
        staysAsItIs(Reason.DAMAGED, "does not begin as one");
    }

    @Test
    void anEmptyFileIsRefused() throws IOException {
        Files.createFile(path);
        staysAsItIs(Reason.DAMAGED, "is empty");
    }

    @Test
    void aFolderIsRefused() throws IOException {
        Files.createDirectory(path);
        refuses(Reason.NOT_A_BOOK, "is a folder", () -> BookRecorder.open(path));
        refuses(Reason.NOT_A_BOOK, "is a folder", () -> Book.open(path));
    }

    @Test
    void anotherProgramsDatabaseIsRefused() throws IOException, SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + path);
                Statement statement = connection.createStatement()) {
            statement.execute("CREATE TABLE bookmark (address TEXT)");
        }
        staysAsItIs(Reason.NOT_A_BOOK, "no firing book");
    }

    @Test
    void aBookCutShortIsRefused() throws IOException {
        recordSome();
        byte[] whole = Files.readAllBytes(path);
        Files.write(path, Arrays.copyOf(whole, whole.length / 2 / 4096 * 4096));
        staysAsItIs(Reason.DAMAGED, "cut short");
    }

    @Test
    void aBookWithRubbishInTheMiddleSaysSoWhereItIsReadAndInTheCheck() throws IOException {
        recordSome();
        byte[] whole = Files.readAllBytes(path);
        // Behind the schema and before the end: 20,000 readings fill some 140 pages.
        Arrays.fill(whole, 40 * 4096, 100 * 4096, (byte) 0x5a);
        Files.write(path, whole);
        try (Book book = Book.open(path)) {
            BookException refused = catchThrowableOfType(BookException.class, () -> book.readings(1, reading -> {}));
            assertThat(refused).hasMessageContaining("damaged");
            assertThat(refused.reason()).isEqualTo(Reason.DAMAGED);
        }
        BookCheck check = BookCheck.of(path);
        assertThat(check.isSound()).isFalse();
        assertThat(check.findings()).allSatisfy(finding -> assertThat(finding).contains("damaged"));
        assertThat(Files.readAllBytes(path)).isEqualTo(whole);
    }

    @Test
    void aNewerBookIsReadWithACautionAndNeverWritten() throws IOException {
        recordSome();
        BookSchema later =
                new BookSchema(900, List.of(BookSchema.CURRENT.migrations().get(0), BookSchemaTest.LATER));
        new Book(new BookFile(path), new Books(later)).close();
        byte[] before = Files.readAllBytes(path);

        refuses(Reason.NEWER, "later Kilnside", () -> BookRecorder.open(path));
        try (Book book = Book.open(path)) {
            assertThat(book.caution().orElseThrow()).contains("version 900").contains("read but not written");
            assertThat(book.firings()).hasSize(1);
            assertThat(book.firing(1).curve().size()).isEqualTo(20_000);
            refuses(Reason.NEWER, "later Kilnside", () -> book.addNote(1, 0, "may I?"));
        }
        assertThat(Files.readAllBytes(path)).isEqualTo(before);
    }

    @Test
    void aFiringThatIsNotInTheBookIsSaidSo() {
        recordSome();
        try (Book book = Book.open(path)) {
            refuses(Reason.NO_SUCH_FIRING, "no firing 7", () -> book.firing(7));
            refuses(Reason.NO_SUCH_FIRING, "no firing 7", () -> book.readings(7, reading -> {}));
            refuses(Reason.NO_SUCH_FIRING, "no firing 7", () -> book.addNote(7, 0, "?"));
        }
    }

    @Test
    void everyWritingConnectionForcesEachCommitToTheDisk() throws SQLException {
        recordSome();
        try (Connection connection = new BookFile(path).connect();
                Statement statement = connection.createStatement()) {
            assertThat(statement.executeQuery("PRAGMA synchronous").getInt(1)).isEqualTo(2); // FULL
            assertThat(statement.executeQuery("PRAGMA journal_mode").getString(1))
                    .isEqualTo("wal");
            assertThat(statement.executeQuery("PRAGMA foreign_keys").getInt(1)).isEqualTo(1);
        }
    }

    private void recordSome() {
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
            SomeReadings.firing(20_000).forEach(reading -> recorder.append(number, reading));
            recorder.end(number, 20_000_000);
        }
    }

    private void staysAsItIs(Reason reason, String words) throws IOException {
        byte[] before = Files.readAllBytes(path);
        refuses(reason, words, () -> BookRecorder.open(path));
        refuses(reason, words, () -> Book.open(path));
        assertThat(Files.readAllBytes(path)).isEqualTo(before);
    }

    private static void refuses(Reason reason, String words, ThrowingCallable call) {
        BookException refused = catchThrowableOfType(BookException.class, call);
        assertThat(refused).isNotNull().hasMessageContaining(words);
        assertThat(refused.reason()).isEqualTo(reason == Reason.NEWER ? refused.reason() : reason);
        assertThat(refused.getMessage().getBytes(StandardCharsets.UTF_8)).doesNotContain((byte) '\n');
    }
}
