package org.kilnside.book;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import org.jdbi.v3.core.JdbiException;
import org.kilnside.book.BookException.Reason;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.Probe;
import org.kilnside.session.FiringBook;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The recorder's side of a firing book. Takes entries from the session's thread and returns at once; commits them on a
 * thread of its own, at once after a quiet while and otherwise every {@value #GROUP_MS} ms, so that each is on disk
 * within 500 ms. One process holds this role for a book; the system takes it back when the process ends.
 */
public final class BookRecorder implements FiringBook, AutoCloseable {
    /** Half of the 500 ms that are promised is left to the disk. */
    static final int GROUP_MS = 250;

    private static final Logger LOG = LoggerFactory.getLogger(BookRecorder.class);
    private static final int FULL_BATCH = 20_000;
    private static final Duration BETWEEN_ATTEMPTS = Duration.ofSeconds(1);
    private static final Duration PATIENCE_AT_CLOSE = Duration.ofSeconds(10);

    private static final Duration PATIENCE_TO_READ_BACK = Duration.ofSeconds(2);

    private final BookFile book;
    private final RecorderLock role;
    private final WaitingEntries waiting;
    private final CommitLoop loop;
    private final AtomicLong nextNumber;
    private final Set<Long> known = ConcurrentHashMap.newKeySet();

    /** The firings that came into the book from here: their curves in small are worked out at the end. */
    private final Set<Long> recordedHere = ConcurrentHashMap.newKeySet();

    private volatile long current;

    private BookRecorder(BookFile book, RecorderLock role, Connection connection, Words words) throws SQLException {
        this.book = book;
        this.role = role;
        this.waiting = new WaitingEntries(
                WaitingEntries.MOST_READINGS, Duration.ofMillis(GROUP_MS).toNanos(), FULL_BATCH);
        known.addAll(FiringRows.numbers(connection));
        nextNumber =
                new AtomicLong(known.stream().mapToLong(Long::longValue).max().orElse(0) + 1);
        loop = new CommitLoop(book, connection, waiting, BETWEEN_ATTEMPTS, words);
        loop.start();
    }

    /**
     * Takes the recorder's role for a book, which is made when there is none.
     *
     * @param path the book's file
     * @throws BookException when another process records into it, or it is newer than this program, damaged, or may
     *     not be written; the book is then as it was
     */
    public static BookRecorder open(Path path) {
        return open(path, Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH)));
    }

    /**
     * The same, saying in a potter's own language why the book cannot be written later on.
     *
     * @param words says it
     */
    public static BookRecorder open(Path path, Words words) {
        ReserveFile reserve = new ReserveFile(new BookFile(path).reserveFile());
        try {
            return attempt(path, words);
        } catch (BookException e) {
            // Even opening takes a few kilobytes; a recorder that starts on a full disk has the reserve for that.
            if (reserve.isNeeded() && reserve.release()) {
                return attempt(path, words);
            }
            throw e;
        }
    }

    private static BookRecorder attempt(Path path, Words words) {
        RecorderLock role = RecorderLock.take(new BookFile(path));
        BookFile book = role.book();
        Connection connection = null;
        try {
            connection = Books.CURRENT.openForRecorder(book);
            return new BookRecorder(book, role, connection, words);
        } catch (SQLException e) {
            closeAfter(connection, role);
            throw SqliteTrouble.of(book.path(), e);
        } catch (RuntimeException e) {
            closeAfter(connection, role);
            throw e;
        }
    }

    private static void closeAfter(Connection connection, RecorderLock role) {
        try {
            if (connection != null) {
                connection.close();
            }
        } catch (SQLException e) {
            LOG.warn("a firing book that could not be used could not be closed either", e);
        } finally {
            role.close();
        }
    }

    @Override
    public long begin(FiringStart start) {
        long number = nextNumber.getAndIncrement();
        known.add(number);
        recordedHere.add(number);
        current = number;
        waiting.add(new Entry.Begin(number, start));
        return number;
    }

    @Override
    public void append(long firing, Reading reading) {
        waiting.add(new Entry.Line(going(firing), ReadingRow.of(reading)));
    }

    @Override
    public void append(long firing, FiringEvent event) {
        waiting.add(new Entry.Happening(going(firing), event));
    }

    @Override
    public void sensors(long firing, long fromElapsedMs, List<Probe> probes) {
        waiting.add(new Entry.Sensors(going(firing), fromElapsedMs, List.copyOf(probes)));
    }

    @Override
    public void clockTie(long firing, ClockTie tie) {
        waiting.add(new Entry.Tie(going(firing), tie));
    }

    @Override
    public void end(long firing, long elapsedMs) {
        waiting.add(new Entry.End(going(firing), elapsedMs));
    }

    private long going(long firing) {
        if (!known.contains(firing)) {
            throw new IllegalArgumentException("the book has no firing " + firing + ": begin it first");
        }
        current = firing;
        return firing;
    }

    @Override
    public DiskState state() {
        return new DiskState(loop.onDiskUpToMs(current), waiting.readings(), loop.trouble());
    }

    /** Waits for the disk: to be asked once, before the first reading. */
    @Override
    public Optional<OpenFiring> unfinished() {
        try (Book reader = Book.open(book.path())) {
            Optional<OpenFiring> found = reader.unfinished();
            found.ifPresent(firing -> {
                current = firing.number();
                recordedHere.add(current);
                loop.alreadyOnDisk(firing.number(), newestMs(firing.readings()));
            });
            return found;
        }
    }

    @Override
    public Optional<List<Reading>> readings(long firing) {
        if (!flush(PATIENCE_TO_READ_BACK)) {
            return Optional.empty();
        }
        try (Book reader = Book.open(book.path())) {
            List<Reading> readings = new ArrayList<>();
            reader.readings(firing, readings::add);
            return Optional.of(readings);
        }
    }

    private static OptionalLong newestMs(List<Reading> readings) {
        return readings.isEmpty()
                ? OptionalLong.empty()
                : OptionalLong.of(readings.get(readings.size() - 1).elapsedMs());
    }

    /**
     * Puts a finished firing into the book, wholly or not at all, and waits for the disk.
     *
     * @return its number
     * @throws BookException when the book cannot be written; nothing of the firing is in it then
     */
    public long importFiring(FinishedFiring firing) {
        long number = nextNumber.getAndIncrement();
        try (Connection own = book.connect();
                Statement statement = own.createStatement()) {
            statement.execute("BEGIN IMMEDIATE");
            try (BookWriter writer = new BookWriter(own)) {
                firing.write(writer, number);
                writer.finish();
                statement.execute("COMMIT");
            }
            known.add(number);
            recordedHere.add(number);
            return number;
        } catch (SQLException | JdbiException e) {
            throw SqliteTrouble.of(book.path(), SqliteTrouble.within(e));
        }
    }

    /** Keeps the curves in small, so that they are there when the list is looked at. */
    private void sketchWhatWasRecorded() {
        if (recordedHere.isEmpty()) {
            return;
        }
        try (Book reader = Book.open(book.path())) {
            recordedHere.forEach(reader::sketch);
        } catch (BookException e) {
            // The readings are all there, and whoever lists the book works out what is missing.
            LOG.warn("curves in small could not be worked out", e);
        }
    }

    /**
     * Waits until everything handed over so far is on disk.
     *
     * @return whether it is; false when the disk did not take it in time
     */
    public boolean flush(Duration patience) {
        try {
            return waiting.awaitWritten(patience.toNanos());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    /**
     * Writes what is waiting and gives the role back.
     *
     * @throws BookException when the book could not be written to the end within 10 s; the message says how many
     *     readings are lost
     */
    @Override
    public void close() {
        waiting.close();
        try {
            int lost = loop.finish(PATIENCE_AT_CLOSE);
            if (lost > 0) {
                throw new BookException(
                        Reason.UNUSABLE,
                        lost + " readings could not be written into the firing book and are lost. "
                                + loop.trouble().orElse(""));
            }
            sketchWhatWasRecorded();
        } finally {
            role.close();
        }
    }
}
