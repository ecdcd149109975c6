package org.kilnside.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.kilnside.book.BookException.Reason;

/**
 * The version of a book's tables, and how a book comes to it. {@code PRAGMA user_version} is asked first: it costs
 * nothing, and only a book that is behind wakes Flyway, which costs half a second and would pass a newer book in
 * silence.
 *
 * @param version the version this program writes; the number of the last migration
 * @param migrations where the migrations are, in Flyway's notation
 */
record BookSchema(int version, List<String> migrations) {
    static final BookSchema CURRENT = new BookSchema(4, List.of("classpath:org/kilnside/book/migrations"));

    /** "Kiln" in ASCII: what {@code PRAGMA application_id} says of a firing book. */
    private static final int APPLICATION_ID = 0x4B696C6E;

    BookSchema {
        migrations = List.copyOf(migrations);
    }

    /**
     * The version of a book's tables.
     *
     * @throws BookException when the file is damaged or no firing book
     */
    static int versionOf(BookFile book, Connection connection) {
        try (Statement statement = connection.createStatement()) {
            int application = pragma(statement, "application_id");
            int version = pragma(statement, "user_version");
            // Reads the first pages, and thereby sees a file that was cut short.
            pragma(statement, "page_count");
            statement.executeQuery("SELECT count(*) FROM sqlite_schema").close();
            if (application != APPLICATION_ID) {
                throw new BookException(
                        Reason.NOT_A_BOOK,
                        "The file " + book.path() + " is a SQLite database, but no firing book. Nothing was changed;"
                                + " choose another file.");
            }
            return version;
        } catch (SQLException e) {
            throw SqliteTrouble.of(book.path(), e);
        }
    }

    private static int pragma(Statement statement, String name) throws SQLException {
        try (ResultSet found = statement.executeQuery("PRAGMA " + name)) {
            found.next();
            return found.getInt(1);
        }
    }

    String newerSentence(BookFile book, int found) {
        return "The firing book " + book.path() + " was written by a later Kilnside (its tables are version " + found
                + ", this program knows " + version
                + "). It can be read but not written: use the later program, or choose another book.";
    }

    /** Makes a new, empty book: beside its place first, so that what stands in its place is always whole. */
    void create(BookFile book) {
        Path draft = book.draftFile();
        try {
            Files.deleteIfExists(draft);
            Files.deleteIfExists(book.beside(".draft-wal"));
            Files.deleteIfExists(book.beside(".draft-shm"));
            migrate(book, BookFile.dataSource(draft));
            BookFile.force(draft);
            Files.move(draft, book.path(), StandardCopyOption.ATOMIC_MOVE);
            BookFile.forceFolder(book.folder());
        } catch (IOException e) {
            throw new BookException(
                    Reason.UNUSABLE,
                    "A new firing book cannot be made at " + book.path() + ": " + e.getMessage() + ".",
                    e);
        }
    }

    /** Brings a book's tables to this version in one transaction: wholly or not at all. */
    void migrate(BookFile book, DataSource source) {
        try {
            Flyway.configure(BookSchema.class.getClassLoader())
                    .dataSource(source)
                    .locations(migrations.toArray(String[]::new))
                    .group(true)
                    // Nobody else migrates, as the recorder's role is held; a note being added is over in an instant.
                    .lockRetryCount(2)
                    .loggers("slf4j")
                    .load()
                    .migrate();
        } catch (FlywayException e) {
            Throwable cause = e;
            while (cause.getCause() != null) {
                cause = cause.getCause();
            }
            if (cause instanceof SQLException sql && SqliteTrouble.reason(sql) == Reason.DISK_FULL) {
                throw SqliteTrouble.of(book.path(), sql);
            }
            String why = String.valueOf(cause.getMessage()).lines().findFirst().orElse("no reason given");
            throw new BookException(
                    Reason.UNUSABLE,
                    "The tables of the firing book " + book.path() + " cannot be brought up to version " + version
                            + "; its firings are as they were. The reason: " + why + ".",
                    e);
        }
    }
}
