package org.kilnside.book;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The book's own thread: takes what waits, puts it into one transaction, and tries again until the disk has it. */
final class CommitLoop {
    private static final Logger LOG = LoggerFactory.getLogger(CommitLoop.class);
    private static final Duration BETWEEN_ATTEMPTS = Duration.ofSeconds(1);

    private final BookFile book;
    private final WaitingEntries waiting;
    private final ReserveFile reserve;
    private final Thread thread;
    private Connection connection;
    private BookWriter writer;
    private volatile OnDisk onDisk = new OnDisk(0, OptionalLong.empty());
    private volatile Optional<String> trouble = Optional.empty();

    private record OnDisk(long firing, OptionalLong upToMs) {}

    CommitLoop(BookFile book, Connection connection, WaitingEntries waiting) throws SQLException {
        this.book = book;
        this.waiting = waiting;
        this.reserve = new ReserveFile(book.reserveFile());
        this.connection = connection;
        connection.setAutoCommit(false);
        this.writer = new BookWriter(connection);
        this.thread = new Thread(this::run, "firing book");
        // A program that ends without closing the book must not hang on it: what is committed is safe.
        thread.setDaemon(true);
    }

    void start() {
        thread.start();
    }

    OptionalLong onDiskUpToMs(long firing) {
        OnDisk seen = onDisk;
        return seen.firing == firing ? seen.upToMs : OptionalLong.empty();
    }

    void alreadyOnDisk(long firing, OptionalLong upToMs) {
        onDisk = new OnDisk(firing, upToMs);
    }

    Optional<String> trouble() {
        return trouble;
    }

    private void run() {
        try {
            reserve.fill();
            for (List<Entry> batch = waiting.take(); !batch.isEmpty(); batch = waiting.take()) {
                if (commit(batch)) {
                    waiting.written();
                } else {
                    waiting.putBack(batch);
                    waiting.pause(BETWEEN_ATTEMPTS.toNanos());
                }
            }
        } catch (InterruptedException e) {
            LOG.debug("the firing book's thread was told to stop", e);
        }
    }

    private boolean commit(List<Entry> batch) {
        try {
            for (Entry entry : batch) {
                entry.write(writer);
            }
            writer.finish();
            connection.commit();
        } catch (SQLException e) {
            LOG.warn("the firing book could not be written", e);
            trouble = Optional.of(SqliteTrouble.sentence(book.path(), e));
            rollBack();
            return false;
        }
        trouble = Optional.empty();
        noteOnDisk(batch);
        return true;
    }

    private void rollBack() {
        try {
            writer.forget();
            connection.rollback();
        } catch (SQLException e) {
            LOG.warn("the firing book could not be rolled back", e);
        }
    }

    private void noteOnDisk(List<Entry> batch) {
        OnDisk newest = onDisk;
        for (Entry entry : batch) {
            if (entry.firing() != newest.firing) {
                newest = new OnDisk(entry.firing(), OptionalLong.empty());
            }
            if (entry instanceof Entry.Line line) {
                long upTo = Math.max(newest.upToMs.orElse(Long.MIN_VALUE), line.row().elapsedMs);
                newest = new OnDisk(entry.firing(), OptionalLong.of(upTo));
            }
        }
        onDisk = newest;
    }

    /** Waits for the last commit and closes the connection; returns the number of readings that did not get there. */
    int finish(Duration patience) {
        try {
            thread.join(patience.toMillis());
            thread.interrupt();
            thread.join(patience.toMillis());
            writer.close();
            connection.close();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (SQLException e) {
            LOG.warn("the firing book could not be closed cleanly; what was committed is safe", e);
        }
        return waiting.readings();
    }
}
