package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every line of {@code vectors/}, which also bind the C library. Expected values: the files beside the lines. */
class VectorsTest {
    private static final Path VECTORS = Path.of("vectors");

    static List<Path> goodLines() throws IOException {
        return lines(VECTORS.resolve("good"));
    }

    static List<Path> badLines() throws IOException {
        return lines(VECTORS.resolve("bad"));
    }

    @ParameterizedTest
    @MethodSource("goodLines")
    void aGoodLineSaysWhatItsExpectationSays(Path file) throws IOException {
        LineDecoder decoder = new LineDecoder();
        Verdict verdict = decode(decoder, Files.readAllBytes(file));
        List<String> said = new ArrayList<>();
        if (verdict == Verdict.UNKNOWN_KIND) {
            said.add("kind=" + (char) Files.readAllBytes(file)[0]);
            said.add("sequence=" + decoder.sequence());
            said.add("uptime=" + decoder.uptimeMs());
            said.add("skipped-kind");
        } else {
            assertThat(verdict.good()).as("%s", verdict).isTrue();
            Said.of(decoder.message(), said);
            said.add("skipped=" + decoder.unknownKeys());
        }
        Path expectation = Path.of(file.toString().replace(".line", ".expect"));
        assertThat(said).containsExactlyInAnyOrderElementsOf(stated(Files.readAllLines(expectation)));
    }

    @ParameterizedTest
    @MethodSource("badLines")
    void aBadLineIsDiscardedByTheDefectItsFolderNames(Path file) throws IOException {
        assertThat(decode(new LineDecoder(), Files.readAllBytes(file)).title())
                .isEqualTo(file.getParent().getFileName().toString());
    }

    @Test
    void thereAreVectorsForEveryDefect() throws IOException {
        try (Stream<Path> folders = Files.list(VECTORS.resolve("bad"))) {
            assertThat(folders.map(folder -> folder.getFileName().toString()))
                    .containsExactlyInAnyOrderElementsOf(Stream.of(Verdict.values())
                            .filter(Verdict::defect)
                            .map(Verdict::title)
                            .toList());
        }
    }

    /** A message does not tell "unknown" from absent, nor "no fault" from no word of faults: PROTOCOL.md treats them alike. */
    private static List<String> stated(List<String> expected) {
        return expected.stream()
                .filter(line -> !line.isBlank() && !line.endsWith("=unknown") && !line.matches("f\\d=0"))
                .toList();
    }

    private static Verdict decode(LineDecoder decoder, byte[] file) {
        List<Verdict> verdicts = new ArrayList<>();
        new LineFramer().take(file, 0, file.length, new LineFramer.Lines() {
            @Override
            public void line(byte[] bytes, int from, int to) {
                verdicts.add(decoder.decode(bytes, from, to));
            }

            @Override
            public void overlong(byte[] bytes, int from, int to) {
                verdicts.add(Verdict.TOO_LONG);
            }
        });
        assertThat(verdicts)
                .as("one line in %s", new String(file, StandardCharsets.ISO_8859_1))
                .hasSize(1);
        return verdicts.get(0);
    }

    private static List<Path> lines(Path folder) throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            return files.filter(file -> file.toString().endsWith(".line"))
                    .sorted()
                    .toList();
        }
    }

    /** A message in the words of the expectation files. */
    private static final class Said {
        static void of(Message message, List<String> said) {
            said.add("sequence=" + message.sequence());
            said.add("uptime=" + message.uptimeMs());
            if (message instanceof ReadingLine reading) {
                said.add("kind=R");
                channels(reading.channels(), said);
                controller(reading.outputPermille(), reading.setpointTenths(), reading.segment(), said);
            } else if (message instanceof KeptLine kept) {
                said.add("kind=K");
                said.add("o=" + kept.minute());
                said.add("x=" + kept.minutesCovered());
                channels(kept.channels(), said);
                controller(kept.outputPermille(), kept.setpointTenths(), kept.segment(), said);
            } else if (message instanceof KeptEnd end) {
                said.add("kind=E");
                said.add("o=" + end.fromMinute());
                said.add("n=" + end.sent());
            } else if (message instanceof Hello hello) {
                said.add("kind=H");
                said.add("v=" + hello.version());
                hello.device().ifPresent(text -> said.add("d=" + text));
                hello.firmware().ifPresent(text -> said.add("w=" + text));
                put("n", hello.channelCount(), said);
                for (Hello.HelloChannel channel : hello.channels()) {
                    channel.thermocouple().ifPresent(text -> said.add("p" + channel.number() + "=" + text));
                    channel.amplifier().ifPresent(text -> said.add("a" + channel.number() + "=" + text));
                }
                put("i", hello.lineIntervalMs(), said);
                put("k", hello.keptMinutes(), said);
                put("r", hello.resetCauseBits(), said);
            }
        }

        private static void channels(List<ChannelCodes> channels, List<String> said) {
            for (ChannelCodes channel : channels) {
                put("t" + channel.number(), channel.thermocouple(), said);
                put("j" + channel.number(), channel.coldJunction(), said);
                if (!channel.faultBits().equals(ChannelCodes.NO_FAULT)) {
                    put("f" + channel.number(), channel.faultBits(), said);
                }
            }
        }

        private static void controller(
                OptionalInt output, OptionalInt setpoint, OptionalInt segment, List<String> said) {
            put("u", output, said);
            put("s", setpoint, said);
            put("g", segment, said);
        }

        private static void put(String key, OptionalInt value, List<String> said) {
            value.ifPresent(known -> said.add(key + "=" + known));
        }
    }
}
