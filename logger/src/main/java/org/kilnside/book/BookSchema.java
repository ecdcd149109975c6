package org.kilnside.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.kilnside.book.BookException.Reason;

/**
 * The version of the book's tables, and how a book comes to it. {@code PRAGMA user_version} is asked first: it costs
 * nothing, and only a book that is behind wakes Flyway, which costs half a second and would pass a newer book in
 * silence.
 */
final class BookSchema {
    /** The version this program writes; the number of the last migration. */
    static final int VERSION = 1;

    /** "Kiln" in ASCII: what {@code PRAGMA application_id} says of a firing book. */
    static final int APPLICATION_ID = 0x4B696C6E;

    static final String MIGRATIONS = "classpath:org/kilnside/book/migrations";

    private BookSchema() {}

    /**
     * The version of a book's tables.
     *
     * @throws BookException when the file is damaged or no firing book
     */
    static int versionOf(BookFile book, Connection connection) {
        try (Statement statement = connection.createStatement()) {
            int application = pragma(statement, "application_id");
            int version = pragma(statement, "user_version");
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

    static BookException newer(BookFile book, int version) {
        return new BookException(
                Reason.NEWER,
                "The firing book " + book.path() + " was written by a later Kilnside (its tables are version " + version
                        + ", this program knows " + VERSION
                        + "). It can be read but not written: use the later program, or choose another book.");
    }

    /** Makes a new, empty book: beside its place first, so that what stands in its place is always whole. */
    static void create(BookFile book) {
        try {
            Files.deleteIfExists(book.draftFile());
            Files.deleteIfExists(book.beside(".draft-wal"));
            Files.deleteIfExists(book.beside(".draft-shm"));
            migrate(book, BookFile.dataSource(book.draftFile()), MIGRATIONS);
            BookFile.force(book.draftFile());
            Files.move(book.draftFile(), book.path(), StandardCopyOption.ATOMIC_MOVE);
            BookFile.forceFolder(book.path().getParent());
        } catch (IOException e) {
            throw new BookException(
                    Reason.UNUSABLE,
                    "A new firing book cannot be made at " + book.path() + ": " + e.getMessage() + ".",
                    e);
        }
    }

    /** Brings a book's tables to this program's version, wholly or not at all. */
    static void migrate(BookFile book, DataSource source, String location) {
        try {
            Flyway.configure(BookSchema.class.getClassLoader())
                    .dataSource(source)
                    .locations(location)
                    .group(true)
                    .loggers("slf4j")
                    .load()
                    .migrate();
        } catch (FlywayException e) {
            throw new BookException(
                    Reason.UNUSABLE,
                    "The tables of the firing book " + book.path() + " cannot be brought up to date; the book is as it"
                            + " was: " + firstLine(e) + ".",
                    e);
        }
    }

    private static String firstLine(FlywayException e) {
        Throwable cause = e;
        while (cause.getCause() != null) {
            cause = cause.getCause();
        }
        return String.valueOf(cause.getMessage()).lines().findFirst().orElse("no reason given");
    }
}
