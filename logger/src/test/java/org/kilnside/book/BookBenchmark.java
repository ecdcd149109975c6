package org.kilnside.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.kilnside.firing.Reading;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How fast the book takes readings and gives them back, each beside what SQLite does alone with the same rows. The
 * folder can be set with -Dbook.benchmark.folder, as a memory disk says nothing about forced commits.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3)
@Measurement(iterations = 7)
@Fork(1)
public class BookBenchmark {
    private static final int TAKEN = 400_000;
    private static final int OPENED = 130_000;
    private static final Duration PATIENCE = Duration.ofMinutes(2);

    private Path folder;
    private Path path;
    private List<Reading> readings;
    private BookRecorder recorder;
    private long number;

    @Setup(Level.Trial)
    public void recordAFiring() throws IOException {
        String parent = System.getProperty("book.benchmark.folder", System.getProperty("java.io.tmpdir"));
        folder = Files.createTempDirectory(Path.of(parent), "book-benchmark");
        path = folder.resolve("firing.book");
        readings = SomeReadings.firing(TAKEN);
        try (BookRecorder first = BookRecorder.open(path)) {
            FinishedFiring firing = new FinishedFiring(
                    SomeReadings.start(),
                    List.of(new SensorEpoch(0, List.of(SomeReadings.TYPE_K))),
                    readings.subList(0, OPENED),
                    List.of(),
                    List.of(),
                    Optional.empty(),
                    Optional.empty(),
                    OPENED * 1_000L);
            first.importFiring(firing);
        }
    }

    @Setup(Level.Iteration)
    public void begin() {
        recorder = BookRecorder.open(path);
        number = recorder.begin(SomeReadings.start());
        recorder.sensors(number, 0, List.of(SomeReadings.TYPE_K));
        if (!recorder.flush(PATIENCE)) {
            throw new IllegalStateException("the disk is too slow");
        }
    }

    @TearDown(Level.Iteration)
    public void end() {
        recorder.close();
    }

    @TearDown(Level.Trial)
    public void tidyUp() throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }

    /** 400,000 readings handed over one by one, until the last is on disk. */
    @Benchmark
    public boolean groupCommit() {
        for (Reading reading : readings) {
            recorder.append(number, reading);
        }
        return recorder.flush(PATIENCE);
    }

    /** The same rows in one transaction of plain JDBC. */
    @Benchmark
    public int groupCommitBaseline() throws SQLException {
        try (Connection connection = new BookFile(path).connect();
                Statement statement = connection.createStatement();
                PreparedStatement insert = connection.prepareStatement(
                        "INSERT INTO reading (firing, elapsed_ms, repeat,"
                                + " thermocouple_code, cold_junction_code, fault_bits, origin) VALUES (?, ?, 0, ?, ?, 0, 0)")) {
            statement.execute("BEGIN IMMEDIATE");
            for (Reading reading : readings) {
                insert.setLong(1, number);
                insert.setLong(2, reading.elapsedMs());
                insert.setInt(3, reading.first().raw().thermocouple().orElseThrow());
                insert.setInt(4, reading.first().raw().coldJunction().orElseThrow());
                insert.addBatch();
            }
            int written = insert.executeBatch().length;
            statement.execute("COMMIT");
            return written;
        }
    }

    /** A firing of 130,000 readings, from the closed book to its curve. */
    @Benchmark
    public int openFiring() {
        try (Book book = Book.open(path)) {
            return book.firing(1).curve().size();
        }
    }

    /** The same codes through plain JDBC. */
    @Benchmark
    public long openFiringBaseline() throws SQLException {
        long sum = 0;
        try (Connection connection = new BookFile(path).connect();
                Statement statement = connection.createStatement();
                ResultSet found = statement.executeQuery(
                        "SELECT elapsed_ms, thermocouple_code, cold_junction_code FROM reading WHERE firing = 1")) {
            while (found.next()) {
                sum += found.getLong(1) + found.getInt(2) + found.getInt(3);
            }
        }
        return sum;
    }
}
