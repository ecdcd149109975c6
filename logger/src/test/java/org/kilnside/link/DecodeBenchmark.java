package org.kilnside.link;

import java.io.ByteArrayOutputStream;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.TimeUnit;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.protocol.ReadingLine;
import org.kilnside.protocol.WireReader;
import org.kilnside.session.ReadingSource;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/** Lines a second: framing, checksum and decoding; the same with conversion; and a plain baseline in the same run. */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class DecodeBenchmark {
    private static final int LINES = 10_000;

    private final byte[] stream = stream("MAX31856");
    private final byte[] uncorrected = stream("MAX31855");

    /** Splits the stream at line ends into strings and does nothing with them: what reading lines costs at least. */
    @Benchmark
    @OperationsPerInvocation(LINES)
    public void baselineSplitIntoStrings(Blackhole hole) {
        int from = 0;
        for (int at = 0; at < stream.length; at++) {
            if (stream[at] == '\n') {
                hole.consume(
                        new String(stream, from, at - from, java.nio.charset.StandardCharsets.US_ASCII).split(" "));
                from = at + 1;
            }
        }
    }

    @Benchmark
    @OperationsPerInvocation(LINES)
    public void decodeAndCheck(Blackhole hole) {
        new WireReader(hole::consume).take(stream, 0, stream.length);
    }

    @Benchmark
    @OperationsPerInvocation(LINES)
    public void decodeCheckAndConvert(Blackhole hole) {
        new ProtocolLines(new Swallow(hole), new HeardLines(), Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH)))
                .take(stream, stream.length, 0);
    }

    /** With the ITS-90 correction an amplifier needs that does not linearise. */
    @Benchmark
    @OperationsPerInvocation(LINES)
    public void decodeCheckAndCorrect(Blackhole hole) {
        new ProtocolLines(new Swallow(hole), new HeardLines(), Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH)))
                .take(uncorrected, uncorrected.length, 0);
    }

    private record Swallow(Blackhole hole) implements LineReader.Ears {
        @Override
        public void uptime(long uptimeMs, OptionalInt resetCauseBits) {
            hole.consume(uptimeMs);
        }

        @Override
        public void hello(ReadingSource.ControllerHello hello) {
            hole.consume(hello);
        }

        @Override
        public void arrival(ReadingSource.Arrival arrival) {
            hole.consume(arrival);
        }
    }

    private static byte[] stream(String amplifier) {
        ByteArrayOutputStream stream = new ByteArrayOutputStream();
        stream.writeBytes(LineEncoder.encode(new Hello(
                0,
                0,
                1,
                Optional.empty(),
                Optional.empty(),
                OptionalInt.of(1),
                List.of(new Hello.HelloChannel(1, Optional.of("K"), Optional.of(amplifier))),
                OptionalInt.of(1000),
                OptionalInt.empty(),
                OptionalInt.empty())));
        int perDegree = amplifier.equals("MAX31855") ? 4 : 128;
        for (int i = 1; i < LINES; i++) {
            stream.writeBytes(LineEncoder.encode(new ReadingLine(
                    i,
                    1_000L * i,
                    List.of(new ChannelCodes(
                            1,
                            OptionalInt.of(20 * perDegree + i * perDegree / 10),
                            OptionalInt.of(377),
                            ChannelCodes.NO_FAULT)),
                    OptionalInt.of(870),
                    OptionalInt.of(10_500),
                    OptionalInt.of(3))));
        }
        return stream.toByteArray();
    }
}
