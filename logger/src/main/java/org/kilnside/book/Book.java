package org.kilnside.book;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.JdbiException;
import org.kilnside.book.BookException.Reason;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.firing.Reading;
import org.kilnside.firing.WallClockLine;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.FiringBook;
import org.kilnside.session.FiringBook.ClockTie;
import org.kilnside.session.FiringBook.FiringStart;
import org.kilnside.session.FiringBook.OpenFiring;
import org.kilnside.session.Snapshot.Peak;

/** The firing book as everybody but the recorder uses it: looks things up, and adds notes. One thread at a time. */
public final class Book implements AutoCloseable {
    private final BookFile book;
    private final Connection connection;
    private final Handle handle;
    private final Optional<String> caution;

    Book(BookFile book, Books books) {
        this.book = book;
        try {
            Books.Opened opened = books.open(book);
            this.connection = opened.connection();
            this.caution = opened.caution();
        } catch (SQLException e) {
            throw SqliteTrouble.of(book.path(), e);
        }
        this.handle = FiringRows.handle(connection);
    }

    /**
     * Opens a book that is there. One of a later Kilnside, or one that may not be written, is opened for reading
     * only, and {@link #caution()} says so; an older one is brought up to date, a backup beside it first.
     *
     * @throws BookException when there is none, it is damaged, or no firing book; nothing of it is changed then
     */
    public static Book open(Path path) {
        BookFile file = new BookFile(path);
        if (!file.exists()) {
            throw new BookException(
                    Reason.MISSING,
                    "There is no firing book at " + file.path() + " yet: the first recording makes it.");
        }
        return new Book(file, Books.CURRENT);
    }

    /** Whether a process records into a book now, this one included. */
    public static boolean isBeingRecorded(Path path) {
        return RecorderLock.isHeld(new BookFile(path));
    }

    /** Why this book can only be read, in one sentence; empty when notes can be added. */
    public Optional<String> caution() {
        return caution;
    }

    /** The file this is. */
    public Path path() {
        return book.path();
    }

    /** All firings, oldest first. */
    public List<FiringSummary> firings() {
        return asked(() -> {
            Clocks clocks = new Clocks(FiringRows.allClockTies(connection));
            return handle.createQuery("SELECT * FROM firing ORDER BY number")
                    .map((row, context) -> summary(row, clocks))
                    .list();
        });
    }

    /** The clock ties of every firing. */
    private record Clocks(Map<Long, List<ClockTie>> ties) {
        WallClockLine wallClock(long firing, Instant startedAt) {
            return FiringBook.wallClock(startedAt, ties.getOrDefault(firing, List.of()));
        }
    }

    private FiringSummary summary(ResultSet row, Clocks clocks) throws SQLException {
        long number = row.getLong("number");
        OptionalLong ended = FiringRows.number(row, "ended_elapsed_ms");
        FiringQueries.Extent extent = FiringRows.number(row, "reading_count").isPresent()
                ? storedExtent(row)
                : FiringQueries.extent(connection, number);
        return new FiringSummary(
                number,
                FiringRows.text(row, "kiln"),
                row.getString("link"),
                FiringRows.text(row, "plan_name"),
                clocks.wallClock(number, FiringRows.instant(row, "started_at")).at(0),
                Duration.ofMillis(ended.orElse(extent.lastElapsedMs().orElse(0))),
                extent.readingCount(),
                extent.peak(),
                ended.isPresent());
    }

    private static FiringQueries.Extent storedExtent(ResultSet row) throws SQLException {
        double peakC = row.getDouble("peak_c");
        Optional<Peak> peak = row.wasNull()
                ? Optional.empty()
                : Optional.of(new Peak(Temperature.ofCelsius(peakC), row.getLong("peak_elapsed_ms")));
        return new FiringQueries.Extent(row.getLong("reading_count"), FiringRows.number(row, "last_elapsed_ms"), peak);
    }

    /**
     * One firing with its curve.
     *
     * @throws BookException when the book has no firing of this number
     */
    public RecordedFiring firing(long number) {
        return asked(() -> {
            FiringStart start = startOf(number);
            List<SensorEpoch> sensors = FiringRows.sensors(connection, number);
            return new RecordedFiring(
                    number,
                    start,
                    FiringQueries.trace(connection, number, new ProbeEpochs(sensors)),
                    FiringRows.events(connection, number),
                    sensors,
                    FiringRows.clockTies(connection, number),
                    text(number, "load_text"),
                    text(number, "notes"),
                    endedElapsedMs(number));
        });
    }

    private FiringStart startOf(long number) {
        return FiringRows.start(connection, number)
                .orElseThrow(() -> new BookException(
                        Reason.NO_SUCH_FIRING,
                        "The firing book " + book.path() + " has no firing " + number
                                + ": \"book list\" shows those it has."));
    }

    private Optional<String> text(long number, String column) {
        return handle.select("SELECT " + column + " FROM firing WHERE number = ?", number)
                .map((row, context) -> FiringRows.text(row, column))
                .one();
    }

    private OptionalLong endedElapsedMs(long number) {
        return handle.select("SELECT ended_elapsed_ms FROM firing WHERE number = ?", number)
                .map((row, context) -> FiringRows.number(row, "ended_elapsed_ms"))
                .one();
    }

    /**
     * Hands over every reading of a firing, to the code, in order of time, without holding them all.
     *
     * @throws BookException when the book has no firing of this number
     */
    public void readings(long number, Consumer<Reading> taker) {
        asked(() -> {
            startOf(number);
            ProbeEpochs probes = new ProbeEpochs(FiringRows.sensors(connection, number));
            FiringQueries.readings(connection, number, probes, taker);
            return number;
        });
    }

    /** The newest firing, when it has not ended, with all that is needed to go on with it. */
    public Optional<OpenFiring> unfinished() {
        Optional<Long> newest =
                asked(() -> handle.createQuery("SELECT number FROM firing WHERE ended_elapsed_ms IS NULL"
                                + " AND number = (SELECT max(number) FROM firing)")
                        .mapTo(Long.class)
                        .findOne());
        return newest.map(number -> {
            RecordedFiring firing = firing(number);
            List<Reading> readings = new ArrayList<>();
            readings(number, readings::add);
            List<SensorEpoch> sensors = firing.sensors();
            return new OpenFiring(
                    number,
                    firing.start(),
                    readings,
                    firing.events(),
                    sensors.isEmpty()
                            ? List.of()
                            : sensors.get(sensors.size() - 1).probes(),
                    firing.clockTies());
        });
    }

    /**
     * Adds a note to a firing.
     *
     * @param elapsedMs the time it belongs to, on the recording's clock, ms
     */
    public void addNote(long number, long elapsedMs, String text) {
        write(
                number,
                "INSERT INTO event (firing, elapsed_ms, kind, text) VALUES (?, ?, ?, ?)",
                number,
                elapsedMs,
                FiringEvent.Kind.NOTE.name(),
                text);
    }

    /** Writes down what is in the kiln, in the potter's words; what stood there before is replaced. */
    public void setLoadText(long number, String text) {
        write(number, "UPDATE firing SET load_text = ? WHERE number = ?", text, number);
    }

    /** Writes the potter's notes on a firing as a whole; what stood there before is replaced. */
    public void setNotes(long number, String text) {
        write(number, "UPDATE firing SET notes = ? WHERE number = ?", text, number);
    }

    /** All firings as a list shows them, newest first, without touching a reading. */
    public List<ListedFiring> list() {
        return asked(() -> ListQueries.list(connection));
    }

    /** A number that is another one whenever the list has changed, but for the newest reading of a firing going on. */
    public long changes() {
        return asked(() -> ListQueries.changes(connection));
    }

    /** Works out a firing's curve in small and the cone it came to, and keeps both where the book can be written. */
    public CurveSketch sketch(long number) {
        return asked(() -> {
            startOf(number);
            long count = FiringQueries.count(connection, number);
            CurveSketch sketch =
                    SketchRows.workOut(history(startOf(number).kiln().orElse("")), number);
            if (caution.isEmpty()) {
                SketchRows.store(connection, number, sketch, count);
            }
            return sketch;
        });
    }

    /** What a person has written into a firing's record. */
    public WrittenRecord record(long number) {
        return asked(() -> {
            startOf(number);
            return RecordRows.of(connection, number);
        });
    }

    /** Every batch that has been in a firing, the one last put in first. */
    public List<KnownBatch> batches() {
        return asked(() -> RecordRows.batches(connection));
    }

    /**
     * A photo as it was made smaller for the book.
     *
     * @return a JPEG; empty when it has been taken out of the record
     */
    public Optional<byte[]> picture(long photo) {
        return asked(() -> RecordRows.picture(connection, photo));
    }

    /**
     * Changes a firing's record; the change is on disk when this returns.
     *
     * @throws BookException when the record is no longer as the person saw it; nothing is changed then
     */
    public void apply(BookEdit edit) {
        edited(editor -> {
            editor.apply(edit);
            return edit;
        });
    }

    /** Puts a new batch into a firing's load; gives the change, to be undone. */
    public BookEdit.Loaded addBatch(long number, String name) {
        return edited(editor -> editor.addBatch(number, name));
    }

    /** Puts a batch that was in an earlier firing into this one's load; gives the change, to be undone. */
    public BookEdit.Loaded addAgain(long number, LoadedBatch earlier) {
        return edited(editor -> editor.addAgain(number, earlier));
    }

    /** Puts a photo into a firing's record; gives the change, to be undone. */
    public BookEdit.PhotoInRecord addPhoto(long number, String name, byte[] picture, byte[] thumbnail) {
        return edited(editor -> editor.addPhoto(number, name, picture, thumbnail));
    }

    /** The witness cones of a firing, in the order they were noted. */
    public List<NotedCone> witnessCones(long number) {
        return asked(() -> {
            startOf(number);
            return WitnessRows.of(connection, number);
        });
    }

    /**
     * Notes witness cones of a firing; gives the changes, to be undone.
     *
     * @param cones their numbers are given by the book
     */
    public List<BookEdit.Witness> addWitnessCones(long number, List<NotedCone> cones) {
        refuseWhenReadOnly();
        asked(() -> startOf(number)).kiln().ifPresent(kiln -> history(kiln).ensureGuide(number));
        return edited(editor -> editor.addCones(number, cones));
    }

    /** What the book knows of a kiln beyond its single firings: sensors, calibration, true curves. */
    public KilnHistory history(String kiln) {
        return new KilnHistory(book.path(), connection, caution.isEmpty(), kiln);
    }

    private <T> T edited(Change<T> change) {
        refuseWhenReadOnly();
        return asked(() -> change.by(new RecordEditor(book.path(), connection)));
    }

    @FunctionalInterface
    private interface Change<T> {
        T by(RecordEditor editor) throws SQLException;
    }

    private void refuseWhenReadOnly() {
        if (caution.isPresent()) {
            throw new BookException(Reason.READ_ONLY, caution.get());
        }
    }

    private void write(long number, String sql, Object... values) {
        refuseWhenReadOnly();
        asked(() -> {
            startOf(number);
            return handle.execute(sql, values);
        });
    }

    /**
     * Copies the book as it is now, also while it is being recorded. The copy is forced to the disk and checked.
     *
     * @param target a file that is not there yet; its folder is made when missing
     * @throws BookException when the copy is there already, cannot be written, or does not read back
     */
    public void backup(Path target) {
        BookBackup.write(book, connection, target);
    }

    /** Asks the book something, and says in a sentence what SQLite found wrong. */
    private <T> T asked(Question<T> question) {
        try {
            return question.ask();
        } catch (SQLException | JdbiException e) {
            throw SqliteTrouble.of(book.path(), SqliteTrouble.within(e));
        }
    }

    @FunctionalInterface
    private interface Question<T> {
        T ask() throws SQLException;
    }

    @Override
    public void close() {
        handle.close();
        try {
            connection.close();
        } catch (SQLException e) {
            throw SqliteTrouble.of(book.path(), e);
        }
    }
}
