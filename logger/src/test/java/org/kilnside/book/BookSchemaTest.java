package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;

class BookSchemaTest {
    static final String LATER = "classpath:org/kilnside/book/later";
    private static final BookSchema NEXT =
            new BookSchema(900, List.of(BookSchema.CURRENT.migrations().get(0), LATER));

    @TempDir
    Path folder;

    private Path path;

    @BeforeEach
    void recordAFiring() {
        path = folder.resolve("firing.book");
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            recorder.append(number, FiringEvent.of(0, FiringEvent.Kind.RECORDING_BEGAN));
            SomeReadings.firing(50).forEach(reading -> recorder.append(number, reading));
        }
    }

    @Test
    void theVersionThisProgramWritesIsThatOfTheLastMigration() {
        String last = Flyway.configure()
                .dataSource(BookFile.dataSource(path))
                .locations(BookSchema.CURRENT.migrations().get(0))
                .loggers("slf4j")
                .load()
                .info()
                .current()
                .getVersion()
                .getVersion();
        assertThat(BookSchema.CURRENT.version()).isEqualTo(Integer.parseInt(last));
    }

    @Test
    void anOlderBookIsCopiedAsItWasAndThenBroughtUpToDate() throws SQLException {
        new Book(new BookFile(path), new Books(NEXT)).close();
        assertThat(versionOf(path)).isEqualTo(900);
        Path copy = folder.resolve("firing.book.before-version-900");
        assertThat(versionOf(copy)).isEqualTo(BookSchema.CURRENT.version());
        try (Book old = Book.open(copy)) {
            assertThat(old.firing(1).events()).hasSize(1);
            assertThat(old.firings().get(0).readingCount()).isEqualTo(50);
        }
    }

    /** A book as the first Kilnside wrote it, kept as a file; its text is what that version's own book said. */
    @Test
    void aRealBookOfTheFirstVersionKeepsAllItHadAndACopyIsLeftBesideIt() throws Exception {
        Path first = folder.resolve("first.book");
        try (InputStream kept = BookSchemaTest.class.getResourceAsStream("version-1.book")) {
            Files.copy(kept, first);
        }
        List<String> before = contentsOfVersionOne(first);
        assertThat(versionOf(first)).isEqualTo(1);
        byte[] untouched = Files.readAllBytes(first);
        try (Book book = Book.open(first)) {
            RecordedFiring bisque = book.firing(1);
            assertThat(bisque.start().plan().orElseThrow().name()).isEqualTo("Bisque");
            assertThat(bisque.start().series()).isEqualTo(ConeSeries.SELF_SUPPORTING);
            assertThat(bisque.loadText()).hasValue("two dozen soup bowls, Saltmarsh");
            assertThat(bisque.notes()).hasValue("Cracked the lid early");
            assertThat(bisque.events()).extracting(FiringEvent::text).contains(java.util.Optional.of("Bung out"));
            assertThat(bisque.clockTies()).hasSize(2);
            assertThat(bisque.endedElapsedMs()).hasValue(119_000);
            assertThat(book.firings()).extracting(FiringSummary::ended).containsExactly(true, false);
            List<org.kilnside.firing.Reading> readings = new ArrayList<>();
            book.readings(1, readings::add);
            assertThat(readings).hasSize(120);
            assertThat(readings.stream().mapToInt(reading -> reading.channels().size()))
                    .contains(1, 2);
        }
        assertThat(versionOf(first)).isEqualTo(BookSchema.CURRENT.version());
        assertThat(contentsOfVersionOne(first)).isEqualTo(before);
        assertThat(rows(first, "PRAGMA integrity_check")).containsExactly("ok");
        assertThat(BookCheck.of(first).findings()).isEmpty();

        Path copy = folder.resolve("first.book.before-version-" + BookSchema.CURRENT.version());
        assertThat(versionOf(copy)).isEqualTo(1);
        assertThat(contentsOfVersionOne(copy)).isEqualTo(before);
        assertThat(untouched.length).isEqualTo((int) Files.size(copy));
    }

    /** In version 3 every sketch told self-supporting cones, whichever were noted for its firing. */
    @Test
    void aSketchOfVersionThreeIsMadeAnewWhereOtherConesWereNoted() throws SQLException {
        Path third = folder.resolve("third.book");
        Flyway.configure()
                .dataSource(BookFile.dataSource(third))
                .locations(BookSchema.CURRENT.migrations().get(0))
                .target("3")
                .loggers("slf4j")
                .load()
                .migrate();
        try (Connection connection = new BookFile(third).connect();
                Statement statement = connection.createStatement()) {
            for (int firing = 1; firing <= 2; firing++) {
                statement.execute("INSERT INTO firing (number, link, started_at, reading_count, last_elapsed_ms,"
                        + " ended_elapsed_ms) VALUES (" + firing + ", 'a log', '2026-10-01T06:00:00Z', 0, 0, 0)");
                statement.execute("INSERT INTO sketch VALUES (" + firing + ", " + SketchRows.METHOD
                        + ", 0, 0, x'0014', 1222, '6', '7', 0.2, 'SEEN')");
            }
            statement.execute("INSERT INTO witness_cone VALUES (1, 2, 'top', 'large', '6', 90, NULL)");
        }
        try (Book book = Book.open(third)) {
            assertThat(book.list()).extracting(ListedFiring::upToDate).containsExactly(false, true);
            assertThat(book.list())
                    .extracting(firing ->
                            firing.sketch().orElseThrow().cone().orElseThrow().series())
                    .containsOnly(ConeSeries.SELF_SUPPORTING);
            assertThat(book.history("").seriesOf(2)).isEqualTo(ConeSeries.LARGE);
        }
    }

    /** Every column the first version had, in the order it had them. */
    private static List<String> contentsOfVersionOne(Path path) throws SQLException {
        List<String> all = new ArrayList<>();
        all.addAll(rows(
                path,
                "SELECT number, kiln, link, started_at, plan_name, plan_text, load_text, notes, ended_elapsed_ms,"
                        + " reading_count, last_elapsed_ms, peak_c, peak_elapsed_ms FROM firing ORDER BY number"));
        for (String table : List.of("reading", "further_channel", "event", "probe", "clock_tie", "plan_segment")) {
            all.addAll(rows(path, "SELECT * FROM " + table));
        }
        return all;
    }

    @Test
    void aBookThatIsBeingRecordedIsNotChangedUnderItsRecorder() throws SQLException {
        try (BookRecorder recorder = BookRecorder.open(path)) {
            assertThat(recorder.state().trouble()).isEmpty();
            assertThatThrownBy(() -> new Book(new BookFile(path), new Books(NEXT)))
                    .isInstanceOf(BookException.class)
                    .hasMessageContaining("already records into it");
        }
        assertThat(versionOf(path)).isEqualTo(BookSchema.CURRENT.version());
    }

    /** Fails at the first step of the migration, then at the second, and so on until none is left to fail. */
    @Test
    void aMigrationThatFailsAtAnyStepOnceOrForEverLeavesAllOrNothing() throws SQLException {
        List<String> before = contents(path);
        for (boolean forEver : new boolean[] {false, true}) {
            // Flyway tries what comes before step 7 ten times, a second apart; once is enough to see that fail.
            int step = forEver ? 7 : 1;
            boolean failed = true;
            for (; failed; step++) {
                Path copy = folder.resolve("copy-" + forEver + "-" + step);
                try (Book book = Book.open(path)) {
                    book.backup(copy);
                }
                FailingDataSource source = new FailingDataSource(BookFile.dataSource(copy), step, forEver);
                try {
                    NEXT.migrate(new BookFile(copy), source);
                } catch (BookException e) {
                    assertThat(e).hasMessageContaining("cannot be brought up to version 900");
                }
                failed = source.hasFailed();
                int version = versionOf(copy);
                if (version == BookSchema.CURRENT.version()) {
                    assertThat(contents(copy)).as("after step %d", step).isEqualTo(before);
                    NEXT.migrate(new BookFile(copy), BookFile.dataSource(copy));
                }
                assertThat(versionOf(copy)).isEqualTo(900);
                assertThat(rows(copy, "SELECT weather FROM firing")).containsExactly("dry");
                assertThat(rows(copy, "SELECT name FROM visitor")).containsExactly("Tall Drum");
                assertThat(rows(copy, "SELECT count(*) FROM event")).containsExactly("0");
                assertThat(rows(copy, "PRAGMA integrity_check")).containsExactly("ok");
            }
            assertThat(step).as("steps that were made to fail").isGreaterThan(10);
        }
    }

    @Test
    void aNewBookWhoseMakingFailedIsNotThere() {
        Path fresh = folder.resolve("fresh.book");
        BookSchema broken = new BookSchema(1, List.of("classpath:org/kilnside/book/later"));
        assertThatThrownBy(() -> new Books(broken).openForRecorder(new BookFile(fresh)))
                .isInstanceOf(BookException.class);
        assertThat(Files.exists(fresh)).isFalse();
        BookRecorder.open(fresh).close();
        assertThat(BookCheck.of(fresh).isSound()).isTrue();
    }

    private static int versionOf(Path path) throws SQLException {
        try (Connection connection = new BookFile(path).connectReadOnly()) {
            return BookSchema.versionOf(new BookFile(path), connection);
        }
    }

    private static List<String> contents(Path path) throws SQLException {
        List<String> all = rows(path, "SELECT sql FROM sqlite_schema WHERE name NOT LIKE 'flyway%' ORDER BY name");
        for (String table : List.of("firing", "reading", "event", "probe", "clock_tie", "plan_segment")) {
            all.addAll(rows(path, "SELECT * FROM " + table));
        }
        return all;
    }

    private static List<String> rows(Path path, String sql) throws SQLException {
        List<String> rows = new ArrayList<>();
        try (Connection connection = new BookFile(path).connectReadOnly();
                Statement statement = connection.createStatement();
                ResultSet found = statement.executeQuery(sql)) {
            int columns = found.getMetaData().getColumnCount();
            while (found.next()) {
                List<String> row = new ArrayList<>();
                for (int i = 1; i <= columns; i++) {
                    row.add(found.getString(i));
                }
                rows.add(String.join("|", row));
            }
        }
        return rows;
    }
}
