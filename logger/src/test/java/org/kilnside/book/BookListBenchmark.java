package org.kilnside.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
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

/** A book of 2,000 firings listed with its small curves, from the closed book. Aim: 200 ms. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3)
@Measurement(iterations = 10)
@Fork(1)
public class BookListBenchmark {
    private static final int FIRINGS = 2_000;

    private Path folder;
    private Path path;

    @Setup(Level.Trial)
    public void writeTheBook() throws IOException {
        folder = Files.createTempDirectory("book-list-benchmark");
        path = folder.resolve("firing.book");
        RookLaneBook.write(path, FIRINGS, 900_000);
        RookLaneBook.describeLoads(path);
    }

    @TearDown(Level.Trial)
    public void tidyUp() throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }

    @Benchmark
    public int list() {
        try (Book book = Book.open(path)) {
            return book.list().size();
        }
    }

    /** What a window asks every two seconds. */
    @Benchmark
    public long changes() {
        try (Book book = Book.open(path)) {
            return book.changes();
        }
    }
}
