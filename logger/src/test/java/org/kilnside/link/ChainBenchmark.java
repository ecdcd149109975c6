package org.kilnside.link;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.TimeUnit;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.OutlierFilter;
import org.kilnside.session.ReadingSource;
import org.kilnside.tracking.FiringTracker;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/**
 * A reading's way from bytes to its place in the plan: decode, check, convert, leave out what is false, track. Goal: a
 * million lines a second on one core; a wire of 115,200 baud carries about 230. Beside it the plain way to take a line
 * apart (split, map, bit-by-bit checksum), decoding alone, in the same run.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
public class ChainBenchmark {
    private static final int LINES = 20_000;

    private byte[] bytes;
    private Schedule plan;

    @Setup
    public void firing() {
        StringBuilder lines = new StringBuilder();
        lines.append(line("H 0 0 v=1 d=tall-drum w=bench-1 n=1 p1=K a1=MAX31855 i=1000"));
        for (int s = 1; s < LINES; s++) {
            double celsius = 20 + s * 100 / 3_600.0;
            lines.append(line("R " + (s & 0xffff) + " " + s * 1_000L + " t1=" + Math.round(celsius * 4) + " j1="
                    + (377 + s / 2_000) + " u=" + (300 + s % 500) + " s=" + Math.round(celsius * 10) + " g=1"));
        }
        bytes = lines.toString().getBytes(StandardCharsets.US_ASCII);
        plan = new Schedule(
                "Bisque",
                List.of(
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(100), Temperature.ofCelsius(992), Duration.ofMinutes(10)),
                        new Segment.FreeCooling()));
    }

    @Benchmark
    @OperationsPerInvocation(LINES)
    public int decodeCheckConvertAndTrack() {
        Follower follower = new Follower(plan);
        ProtocolLines lines =
                new ProtocolLines(follower, new HeardLines(), Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH)));
        for (int from = 0; from < bytes.length; from += 4_096) {
            int length = Math.min(4_096, bytes.length - from);
            byte[] chunk = new byte[length];
            System.arraycopy(bytes, from, chunk, 0, length);
            lines.take(chunk, length, from);
        }
        if (follower.count != LINES - 1) {
            throw new IllegalStateException("only " + follower.count + " of " + LINES + " lines came through");
        }
        return follower.tracker.position().orElseThrow().segment();
    }

    @Benchmark
    @OperationsPerInvocation(LINES)
    public int plainDecoding() {
        int count = 0;
        for (String line : new String(bytes, StandardCharsets.US_ASCII).split("\n")) {
            int tilde = line.lastIndexOf('~');
            String body = line.substring(0, tilde - 1);
            if (crc(body) != Integer.parseInt(line.substring(tilde + 1), 16)) {
                continue;
            }
            String[] words = body.split(" ");
            Map<String, String> fields = new HashMap<>();
            for (int i = 3; i < words.length; i++) {
                String[] pair = words[i].split("=");
                fields.put(pair[0], pair[1]);
            }
            if (fields.containsKey("t1") && Integer.parseInt(fields.get("t1")) > -1_000_000) {
                count++;
            }
        }
        return count;
    }

    private static String line(String body) {
        return body + String.format(" ~%04X%n", crc(body)).replace("\r", "");
    }

    /** CRC-16/CCITT-FALSE, bit by bit. */
    private static int crc(String body) {
        int crc = 0xffff;
        for (int i = 0; i < body.length(); i++) {
            crc ^= body.charAt(i) << 8;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 0x8000) != 0 ? (crc << 1) ^ 0x1021 : crc << 1;
            }
            crc &= 0xffff;
        }
        return crc;
    }

    private static final class Follower implements LineReader.Ears, OutlierFilter.Listener<Reading.Measured> {
        private final FiringTracker tracker;
        private final OutlierFilter<Reading.Measured> filter = new OutlierFilter<>(this);
        private int count;

        Follower(Schedule plan) {
            this.tracker = new FiringTracker(Optional.of(plan));
        }

        @Override
        public void uptime(long uptimeMs, OptionalInt resetCauseBits) {}

        @Override
        public void hello(ReadingSource.ControllerHello hello) {}

        @Override
        public void arrival(ReadingSource.Arrival arrival) {
            Reading reading = arrival.at(arrival.uptimeMs().getAsLong());
            if (reading instanceof Reading.Measured measured) {
                filter.offer(measured.elapsedMs(), measured.temperature().celsius(), measured);
            }
        }

        @Override
        public void accepted(long elapsedMs, double celsius, Reading.Measured reading) {
            count++;
            tracker.take(elapsedMs, celsius, reading.controller());
        }

        @Override
        public void rejected(long elapsedMs, double celsius, Reading.Measured reading) {}
    }
}
