package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Inputs kept for the fuzzer, without the fuzzer: every vector, and what earlier runs found worth keeping. */
class FuzzedWireTest {
    /** One input a line, in hex: the smallest set that reaches all that a long run reached. */
    static final Path FOUND = Path.of("src/test/resources/org/kilnside/protocol/fuzzed-wire.txt");

    @Test
    void whatEarlierRunsFoundIsReadTheSameInWholeAndInPiecesAndBackAgain() throws IOException {
        List<String> inputs = Files.readAllLines(FOUND, StandardCharsets.US_ASCII);
        assertThat(inputs).hasSizeGreaterThan(100);
        for (String input : inputs) {
            FuzzedWire.fuzzerTestOneInput(HexFormat.of().parseHex(input));
        }
    }

    @Test
    void everyVectorIsReadTheSameInWholeAndInPieces() throws IOException {
        List<Path> vectors = vectors();
        assertThat(vectors).hasSizeGreaterThan(50);
        for (Path vector : vectors) {
            byte[] bytes = Files.readAllBytes(vector);
            for (int how : new int[] {0, 1, 2, 7, 40, 255}) {
                byte[] input = new byte[bytes.length + 1];
                input[0] = (byte) how;
                System.arraycopy(bytes, 0, input, 1, bytes.length);
                FuzzedWire.fuzzerTestOneInput(input);
            }
        }
    }

    static List<Path> vectors() throws IOException {
        List<Path> vectors = new ArrayList<>();
        try (Stream<Path> files = Files.walk(Path.of("vectors"))) {
            files.filter(Files::isRegularFile)
                    .filter(file -> !file.toString().endsWith(".md"))
                    .sorted()
                    .forEach(vectors::add);
        }
        return vectors;
    }
}
