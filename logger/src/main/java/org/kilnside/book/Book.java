package org.kilnside.book;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;
import org.kilnside.book.BookException.Reason;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.FiringBook.FiringStart;
import org.kilnside.session.FiringBook.OpenFiring;
import org.kilnside.session.Snapshot.Peak;

/** The firing book as everybody but the recorder uses it: looks things up, and adds notes. One thread at a time. */
public final class Book implements AutoCloseable {
    private final BookFile book;
    private final Connection connection;
    private final Handle handle;
    private final Optional<String> caution;

    private Book(BookFile book, Connection connection, Optional<String> caution) {
        this.book = book;
        this.connection = connection;
        this.handle = FiringRows.handle(connection);
        this.caution = caution;
    }

    /**
     * Opens a book that is there.
     *
     * @throws BookException when there is none, or it is damaged
     */
    public static Book open(Path path) {
        BookFile file = new BookFile(path);
        if (!file.exists()) {
            throw new BookException(
                    Reason.MISSING,
                    "There is no firing book at " + file.path() + " yet: the first recording makes it.");
        }
        try {
            return new Book(file, Books.openForWriting(file), Optional.empty());
        } catch (SQLException e) {
            throw SqliteTrouble.of(file.path(), e);
        }
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
        return handle.createQuery("SELECT * FROM firing ORDER BY number")
                .map((row, context) -> summary(row))
                .list();
    }

    private FiringSummary summary(ResultSet row) throws SQLException {
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
                Instant.parse(row.getString("started_at")),
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
        try {
            FiringStart start = FiringRows.start(connection, number).orElseThrow(() -> noSuchFiring(number));
            List<SensorEpoch> sensors = FiringRows.sensors(connection, number);
            Optional<String> load = text(number, "load_text");
            Optional<String> notes = text(number, "notes");
            return new RecordedFiring(
                    number,
                    start,
                    FiringQueries.trace(connection, number, new ProbeEpochs(sensors)),
                    FiringRows.events(connection, number),
                    sensors,
                    FiringRows.clockTies(connection, number),
                    load,
                    notes,
                    endedElapsedMs(number));
        } catch (SQLException e) {
            throw SqliteTrouble.of(book.path(), e);
        }
    }

    private BookException noSuchFiring(long number) {
        return new BookException(
                Reason.NO_SUCH_FIRING,
                "The firing book " + book.path() + " has no firing " + number + ": \"book list\" shows those it has.");
    }

    private Optional<String> text(long number, String column) {
        return handle.select("SELECT " + column + " FROM firing WHERE number = ?", number)
                .mapTo(String.class)
                .findOne();
    }

    private OptionalLong endedElapsedMs(long number) {
        return handle.select("SELECT ended_elapsed_ms FROM firing WHERE number = ?", number)
                .map((row, context) -> FiringRows.number(row, "ended_elapsed_ms"))
                .one();
    }

    /** Hands over every reading of a firing, to the code, in order of time. */
    public void readings(long number, Consumer<Reading> taker) {
        try {
            ProbeEpochs probes = new ProbeEpochs(FiringRows.sensors(connection, number));
            FiringQueries.readings(connection, number, probes, taker);
        } catch (SQLException e) {
            throw SqliteTrouble.of(book.path(), e);
        }
    }

    /** The newest firing, when it has not ended, with all that is needed to go on with it. */
    public Optional<OpenFiring> unfinished() {
        Optional<Long> newest = handle.createQuery("SELECT number FROM firing WHERE ended_elapsed_ms IS NULL"
                        + " AND number = (SELECT max(number) FROM firing)")
                .mapTo(Long.class)
                .findOne();
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
                    firing.clockTies().stream().reduce((earlier, later) -> later));
        });
    }

    /** Adds a note to a firing, at a time on its recording's clock. */
    public void addNote(long number, long elapsedMs, String text) {
        if (FiringRows.start(connection, number).isEmpty()) {
            throw noSuchFiring(number);
        }
        handle.execute(
                "INSERT INTO event (firing, elapsed_ms, kind, text) VALUES (?, ?, ?, ?)",
                number,
                elapsedMs,
                FiringEvent.Kind.NOTE.name(),
                text);
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
