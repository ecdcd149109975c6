package org.kilnside.book;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.jdbi.v3.core.JdbiException;
import org.kilnside.book.BookException.Reason;
import org.kilnside.firing.FiringEvent;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The book's own thread: takes what waits, puts it into one transaction, and tries again until the disk has it. A full
 * disk first costs the reserve; after that, and for every other trouble, entries wait in memory.
 */
final class CommitLoop {
    private static final Logger LOG = LoggerFactory.getLogger(CommitLoop.class);

    private final BookFile book;
    private final WaitingEntries waiting;
    private final ReserveFile reserve;
    private final Thread thread;
    private final Words words;
    private final Duration betweenAttempts;
    private final long lookAtReserveNanos;
    private final BookConnection connection;
    private volatile OnDisk onDisk = new OnDisk(0, OptionalLong.empty());
    private volatile Optional<String> trouble = Optional.empty();
    private volatile boolean reserveInUse;
    private long reserveLookedAtNanos;

    private record OnDisk(long firing, OptionalLong upToMs) {}

    /**
     * @param betweenAttempts how long to wait before a book that could not be written is tried again
     * @param words says why it could not be
     */
    CommitLoop(BookFile book, Connection connection, WaitingEntries waiting, Duration betweenAttempts, Words words)
            throws SQLException {
        this.words = words;
        this.book = book;
        this.waiting = waiting;
        this.betweenAttempts = betweenAttempts;
        this.lookAtReserveNanos = betweenAttempts.multipliedBy(30).toNanos();
        this.reserve = new ReserveFile(book.reserveFile());
        this.connection = new BookConnection(book, connection);
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

    /** What is wrong, what becomes of the readings, and what to do; empty when all is well. */
    Optional<String> trouble() {
        Optional<String> cannotWrite = trouble;
        if (cannotWrite.isPresent()) {
            long leftOut = waiting.leftOut();
            return Optional.of(cannotWrite.get() + " " + waiting.readings()
                    + " readings wait in memory, which holds 24 hours at one a second, and are lost if the program or"
                    + " the computer stops."
                    + (leftOut > 0
                            ? " Memory was full as well: " + leftOut
                                    + " readings had to be left out, every second one at a time."
                            : ""));
        }
        return reserveInUse
                ? Optional.of("The disk that holds the firing book " + book.path()
                        + " is almost full, and the book lives on the space it had kept back: free some space on it.")
                : Optional.empty();
    }

    private void run() {
        try {
            lookAfterReserve();
            for (List<Entry> batch = waiting.take(); !batch.isEmpty(); batch = waiting.take()) {
                if (commit(batch)) {
                    noteLeftOut(waiting.written());
                    if (System.nanoTime() - reserveLookedAtNanos > lookAtReserveNanos) {
                        lookAfterReserve();
                    }
                } else {
                    waiting.putBack(batch);
                    waiting.pause(betweenAttempts.toNanos());
                }
            }
            sumUp();
        } catch (InterruptedException e) {
            LOG.debug("the firing book's thread was told to stop", e);
        }
    }

    /** Leaves the list's columns complete; what cannot be written now is worked out by whoever lists. */
    private void sumUp() {
        try {
            connection.begin().summariseEnded();
            connection.commit();
        } catch (SQLException | JdbiException | BookException e) {
            LOG.warn("a firing that received readings after its end is not summed up", e);
            connection.abandon();
        }
    }

    private void lookAfterReserve() {
        reserveInUse = !reserve.fill();
        reserveLookedAtNanos = System.nanoTime();
    }

    private boolean commit(List<Entry> batch) {
        try {
            write(batch);
        } catch (SQLException | JdbiException e) {
            return afterTrouble(batch, SqliteTrouble.within(e));
        } catch (BookException e) {
            connection.abandon();
            trouble = Optional.of(e.getMessage());
            return false;
        } catch (RuntimeException e) {
            if (trouble.isEmpty()) {
                LOG.error("the firing book's thread met an error of the program itself", e);
            }
            connection.abandon();
            trouble = Optional.of(words.text("book.program_error", book.path()));
            return false;
        }
        trouble = Optional.empty();
        noteOnDisk(batch);
        return true;
    }

    private boolean afterTrouble(List<Entry> batch, SQLException e) {
        if (trouble.isEmpty()) {
            LOG.warn("the firing book could not be written; it is tried again until it can be", e);
        }
        connection.recover(e);
        if (SqliteTrouble.reason(e) == Reason.DISK_FULL && reserve.release()) {
            reserveInUse = true;
            reserveLookedAtNanos = System.nanoTime();
            return commit(batch);
        }
        trouble = Optional.of(
                SqliteTrouble.isConstraint(e)
                        ? words.text("book.exchanged", book.path())
                        : SqliteTrouble.sentence(book.path(), e, words));
        return false;
    }

    private void write(List<Entry> batch) throws SQLException {
        BookWriter writer = connection.begin();
        for (Entry entry : batch) {
            entry.write(writer);
        }
        writer.finish();
        connection.commit();
    }

    private void noteOnDisk(List<Entry> batch) {
        OnDisk newest = onDisk;
        for (Entry entry : batch) {
            if (entry.firing() != newest.firing) {
                newest = new OnDisk(entry.firing(), OptionalLong.empty());
            }
            if (entry instanceof Entry.Line line && line.row().elapsedMs > newest.upToMs.orElse(Long.MIN_VALUE)) {
                newest = new OnDisk(entry.firing(), OptionalLong.of(line.row().elapsedMs));
            }
        }
        onDisk = newest;
    }

    /** Whoever reads this firing next year should know why its curve is coarser here. */
    private void noteLeftOut(long readings) {
        OnDisk newest = onDisk;
        if (readings > 0) {
            waiting.addIfOpen(new Entry.Happening(
                    newest.firing,
                    FiringEvent.of(
                            newest.upToMs.orElse(0),
                            FiringEvent.Kind.BOOK_TROUBLE,
                            "the book could not be written for so long that " + readings
                                    + " readings before this were left out")));
        }
    }

    /** Waits for the last commit and closes the connection; returns the number of readings that did not get there. */
    int finish(Duration patience) {
        try {
            thread.join(patience.toMillis());
            thread.interrupt();
            thread.join(patience.toMillis());
            if (!thread.isAlive()) {
                connection.close();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (SQLException e) {
            LOG.warn("the firing book could not be closed cleanly; what was committed is safe", e);
        }
        return waiting.readings();
    }
}
