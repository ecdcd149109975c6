package org.kilnside.app;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Comparator;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.kilnside.book.Book;
import org.kilnside.book.BookRecorder;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.host.SystemClock;
import org.kilnside.link.LinkSurroundings;
import org.kilnside.link.Links;
import org.kilnside.session.FiringSettings;
import org.kilnside.session.LiveFiring;
import org.kilnside.session.ModelForecaster;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A day of lines at 10 Hz, replayed without pauses through the whole chain: bytes, codec, conversion, book on disk,
 * outliers, tracking, a snapshot for each reading. Goal: 10 s. Beside it the plain way to bring the same lines into a
 * database: split each, insert, commit every thousand; no checksum, no tracking.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 1)
@Measurement(iterations = 3)
@Fork(1)
public class DayAtTenHertzBenchmark {
    private static final int LINES = 864_000;

    private Path folder;
    private Path stream;
    private int run;

    @Setup
    public void write() throws IOException {
        folder = Files.createTempDirectory("bench");
        stream = folder.resolve("day.stream");
        try (BufferedWriter out = Files.newBufferedWriter(stream, StandardCharsets.US_ASCII)) {
            out.write(line("H 0 0 v=1 d=tall-drum w=bench-1 n=1 p1=K a1=MAX31855 i=100"));
            for (int i = 1; i < LINES; i++) {
                double celsius = i < LINES / 2 ? 15 + i * 977.0 / (LINES / 2) : 992.0 * (LINES - i) / (LINES / 2) + 15;
                out.write(line("R " + (i & 0xffff) + " " + i * 100L + " t1=" + Math.round(celsius * 4) + " j1=377 u="
                        + (i < LINES / 2 ? 500 : 0) + " s=" + Math.round(celsius * 10)));
            }
        }
    }

    @TearDown
    public void clear() throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        }
    }

    @Benchmark
    public long wholeChain() throws Exception {
        Path book = folder.resolve("chain" + run++ + ".book");
        ProfileLibrary library = ProfileLibrary.starters();
        ProfileLibrary.Plan plan = library.plan("bisque");
        SystemClock clock = new SystemClock();
        CountDownLatch over = new CountDownLatch(1);
        BookRecorder recorder = BookRecorder.open(book);
        LiveFiring firing = new LiveFiring(
                recorder,
                clock,
                FiringSettings.of(Optional.of("Tall Drum"), Optional.of(plan.schedule()), Optional.of(plan.text())),
                Links.open("replay:" + stream + "?speed=max", LinkSurroundings.of(clock, library)),
                new ModelForecaster());
        firing.subscribe(snapshot -> {
            if (snapshot.connection().state() == org.kilnside.session.Connection.State.FINISHED) {
                over.countDown();
            }
        });
        firing.start();
        over.await();
        firing.close();
        recorder.close();
        try (Book opened = Book.open(book)) {
            long count = opened.firings().get(0).readingCount();
            if (count != LINES - 1) {
                throw new IllegalStateException("the book has " + count + " of " + LINES + " readings");
            }
            return count;
        }
    }

    @Benchmark
    public long plainInsert() throws IOException, SQLException {
        Path book = folder.resolve("plain" + run++ + ".db");
        long count = 0;
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + book);
                BufferedReader in = Files.newBufferedReader(stream, StandardCharsets.US_ASCII)) {
            try (Statement statement = connection.createStatement()) {
                statement.execute("PRAGMA journal_mode = WAL");
                statement.execute("PRAGMA synchronous = FULL");
                statement.execute(
                        "CREATE TABLE reading (id INTEGER PRIMARY KEY, at_ms INTEGER, temp_c REAL, output REAL)");
            }
            connection.setAutoCommit(false);
            try (PreparedStatement insert =
                    connection.prepareStatement("INSERT INTO reading (at_ms, temp_c, output) VALUES (?, ?, ?)")) {
                for (String line = in.readLine(); line != null; line = in.readLine()) {
                    String[] words = line.split(" ");
                    if (!words[0].equals("R")) {
                        continue;
                    }
                    insert.setLong(1, Long.parseLong(words[2]));
                    insert.setDouble(2, Integer.parseInt(words[3].substring(3)) * 0.25);
                    insert.setDouble(3, Integer.parseInt(words[5].substring(2)) / 1000.0);
                    insert.executeUpdate();
                    if (++count % 1_000 == 0) {
                        connection.commit();
                    }
                }
            }
            connection.commit();
        }
        return count;
    }

    private static String line(String body) {
        int crc = 0xffff;
        for (int i = 0; i < body.length(); i++) {
            crc ^= body.charAt(i) << 8;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 0x8000) != 0 ? (crc << 1) ^ 0x1021 : crc << 1;
            }
            crc &= 0xffff;
        }
        return body + String.format(" ~%04X%n", crc).replace("\r", "");
    }
}
