package org.kilnside.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.attribute.BasicFileAttributes;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Objects;
import java.util.Optional;
import org.kilnside.book.BookException.Reason;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The recorder's own connection: one transaction at a time, begun only when there is something to write, so that
 * others can add notes in between. Opened anew after trouble, as the disk may have gone and come back. Confined to the
 * book's thread once that runs.
 */
final class BookConnection {
    private static final Logger LOG = LoggerFactory.getLogger(BookConnection.class);

    private final BookFile book;
    private Optional<Connection> connection = Optional.empty();
    private Optional<BookWriter> writer = Optional.empty();
    private Optional<Object> identity = Optional.empty();

    BookConnection(BookFile book, Connection opened) throws SQLException {
        this.book = book;
        take(opened);
    }

    private void take(Connection opened) throws SQLException {
        identity = identityOfFile();
        connection = Optional.of(opened);
        writer = Optional.of(new BookWriter(opened));
    }

    /**
     * Begins a transaction, on a new connection when the last one had trouble.
     *
     * @throws BookException when there is no sound book in its place any more
     */
    BookWriter begin() throws SQLException {
        if (connection.isPresent() && !identity.equals(identityOfFile())) {
            close(); // another file has taken its place; what is written into the old one would be lost
        }
        if (connection.isEmpty()) {
            take(reopen());
        }
        execute("BEGIN IMMEDIATE");
        return writer.orElseThrow();
    }

    private Connection reopen() throws SQLException {
        identityOfFile();
        return Books.CURRENT.openForRecorder(book);
    }

    void commit() throws SQLException {
        execute("COMMIT");
    }

    private void execute(String sql) throws SQLException {
        try (Statement statement = connection.orElseThrow().createStatement()) {
            statement.execute(sql);
        }
    }

    /** Ends a transaction that failed. SQLite may have rolled it back already, and says so by failing again. */
    void recover(SQLException cause) {
        try {
            if (connection.isPresent()) {
                writer.orElseThrow().forget();
                execute("ROLLBACK");
            }
            if (SqliteTrouble.reason(cause) != Reason.DISK_FULL && SqliteTrouble.reason(cause) != Reason.IN_USE) {
                close();
            }
        } catch (SQLException e) {
            LOG.debug("the failed transaction was rolled back already", e);
            abandon();
        }
    }

    /** Lets go of the connection, and of what it has not committed; the next transaction opens another. */
    void abandon() {
        try {
            close();
        } catch (SQLException e) {
            LOG.warn("the firing book could not be closed after trouble", e);
        }
    }

    void close() throws SQLException {
        Optional<Connection> closing = connection;
        connection = Optional.empty();
        writer = Optional.empty();
        if (closing.isPresent()) {
            closing.get().close();
        }
    }

    /**
     * Which file stands in the book's place; always the same answer where the system has no such number. SQLite would
     * go on writing into a file that has been removed, and everything after that would be lost in silence.
     */
    private Optional<Object> identityOfFile() {
        try {
            return Optional.ofNullable(
                    Files.readAttributes(book.path(), BasicFileAttributes.class).fileKey());
        } catch (NoSuchFileException e) {
            throw new BookException(
                    Reason.MISSING,
                    "The firing book " + book.path() + " is no longer there: put it back in its place.",
                    e);
        } catch (IOException e) {
            throw new BookException(
                    Reason.UNUSABLE,
                    "The disk that holds the firing book " + book.path()
                            + " does not answer: check that it is still connected. (" + Objects.toString(e.getMessage())
                            + ")",
                    e);
        }
    }
}
