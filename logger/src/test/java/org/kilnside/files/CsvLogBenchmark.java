package org.kilnside.files;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
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
import org.openjdk.jmh.annotations.Warmup;

/**
 * A log of 130,000 rows read, against splitting its lines and parsing two numbers with the JDK's own means in the same
 * run, and written. Aim: 200 ms. {@code firstRead} is what a command sees: a JVM that has read nothing before.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 4, time = 2)
@Fork(1)
public class CsvLogBenchmark {
    private static final int ROWS = 130_000;

    private Trace trace;
    private String text;

    @Setup(Level.Trial)
    public void write() throws IOException {
        Trace.Builder builder = new Trace.Builder();
        for (int i = 0; i < ROWS; i++) {
            builder.add(
                    i * 1000L,
                    20 + i * 0.01 + (i % 4) * 0.25,
                    OptionalDouble.of((i % 1001) / 1000.0),
                    OptionalDouble.of(20 + i * 0.01));
        }
        trace = builder.view();
        text = writeLog();
    }

    @Benchmark
    public Log read() throws IOException {
        return CsvLogs.read(new StringReader(text), "log", ZoneOffset.UTC);
    }

    @Benchmark
    @BenchmarkMode(Mode.SingleShotTime)
    @Warmup(iterations = 0)
    @Measurement(iterations = 1)
    @Fork(5)
    public Log firstRead() throws IOException {
        return CsvLogs.read(new StringReader(text), "log", ZoneOffset.UTC);
    }

    @Benchmark
    public double baselineSplitAndParse() throws IOException {
        double sum = 0;
        try (BufferedReader reader = new BufferedReader(new StringReader(text))) {
            reader.readLine();
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                String[] cells = line.split(",", -1);
                sum += Double.parseDouble(cells[0])
                        + Instant.parse(cells[1]).toEpochMilli()
                        + Double.parseDouble(cells[2]);
            }
        }
        return sum;
    }

    @Benchmark
    public String writeLog() throws IOException {
        StringWriter out = new StringWriter();
        try (CsvLogWriter writer =
                new CsvLogWriter(out, Optional.of(WallClockLine.from(Instant.parse("2026-11-25T06:30:00Z"))))) {
            writer.write(trace);
        }
        return out.toString();
    }
}
