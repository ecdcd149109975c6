package org.kilnside.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Optional;
import org.kilnside.book.BookException.Reason;

/**
 * Opens books: looks before it touches, brings an older one up to date with a backup first, and never writes into
 * one it does not know.
 *
 * @param schema the version of tables this program writes
 */
record Books(BookSchema schema) {
    static final Books CURRENT = new Books(BookSchema.CURRENT);

    /**
     * A book for whoever looks things up.
     *
     * @param caution why it can only be read, in one sentence; empty when notes can be added
     */
    record Opened(Connection connection, Optional<String> caution) {}

    /** Opens a book for its recorder, who holds the role already; makes it when there is none. */
    Connection openForRecorder(BookFile book) throws SQLException {
        if (!book.exists()) {
            schema.create(book);
        }
        int version = look(book);
        if (version > schema.version()) {
            throw new BookException(Reason.NEWER, schema.newerSentence(book, version));
        }
        if (!book.isWritable()) {
            throw new BookException(Reason.READ_ONLY, readOnlySentence(book) + ", or choose another book.");
        }
        if (version < schema.version()) {
            bringUpToDate(book, version);
        }
        return book.connect();
    }

    /** Opens a book that is there, for reading and, where it may be written, for notes. */
    Opened open(BookFile book) throws SQLException {
        if (!book.exists()) {
            throw new BookException(
                    Reason.MISSING,
                    "There is no firing book at " + book.path() + " yet: the first recording makes it.");
        }
        int version = look(book);
        if (version > schema.version()) {
            return new Opened(book.connectReadOnly(), Optional.of(schema.newerSentence(book, version)));
        }
        if (!book.isWritable()) {
            if (version < schema.version()) {
                throw new BookException(
                        Reason.READ_ONLY,
                        readOnlySentence(book) + ": it is of an older version and must be brought up to date first.");
            }
            return new Opened(
                    book.connectReadOnly(), Optional.of(readOnlySentence(book) + "; notes cannot be added to it."));
        }
        if (version < schema.version()) {
            try (RecorderLock role = RecorderLock.take(book)) {
                bringUpToDate(role.book(), look(book));
            }
        }
        return new Opened(book.connect(), Optional.empty());
    }

    private static String readOnlySentence(BookFile book) {
        return "The firing book " + book.path()
                + " can be read but not written: give yourself permission to write the file and its folder";
    }

    /** The version of a book, found without changing a byte of it. */
    private static int look(BookFile book) throws SQLException {
        try {
            if (Files.isDirectory(book.path())) {
                throw new BookException(
                        Reason.NOT_A_BOOK, book.path() + " is a folder, no firing book: name a file in it.");
            }
            if (!Files.isReadable(book.path())) {
                throw new BookException(
                        Reason.READ_ONLY,
                        "The firing book " + book.path() + " may not be read: give yourself permission, or choose"
                                + " another book.");
            }
            if (Files.size(book.path()) == 0) {
                throw new BookException(
                        Reason.DAMAGED,
                        "The file " + book.path() + " is empty, a firing book never is. Nothing was changed; put a"
                                + " backup in its place, or move the file away to begin a new book.");
            }
        } catch (IOException e) {
            throw new BookException(
                    Reason.UNUSABLE, "The firing book " + book.path() + " cannot be read: " + e.getMessage() + ".", e);
        }
        try (Connection connection = book.connectReadOnly()) {
            return BookSchema.versionOf(book, connection);
        }
    }

    /** Under the recorder's role: copies the book as it is, then changes it. */
    private void bringUpToDate(BookFile book, int version) throws SQLException {
        if (version >= schema.version()) {
            return; // another program was quicker
        }
        try (Connection connection = book.connect()) {
            BookBackup.write(book, connection, freeName(book, ".before-version-" + schema.version()));
        }
        schema.migrate(book, BookFile.dataSource(book.path()));
    }

    private static Path freeName(BookFile book, String ending) {
        Path candidate = book.beside(ending);
        for (int i = 2; Files.exists(candidate); i++) {
            candidate = book.beside(ending + "-" + i);
        }
        return candidate;
    }
}
