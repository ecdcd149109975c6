package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Millions of bytes made of the vectors, spoilt at random and often given a good checksum again, so that the grammar
 * behind the checksum is reached. Nothing may be thrown, and whatever is read must be something that can be written.
 */
class SpoiltStreamTest {
    private static final int BYTES = 5_000_000;
    private static final int LONGEST_SEED = 200;
    private static final String LIKELY = " =~0123456789-tjfusgoxnvdwpaikrRKHEZ\n";

    private final Random random = new Random(99);

    @Test
    void nothingThatComesInIsEverAnError() throws IOException {
        List<byte[]> seeds = seeds();
        WireReader reader = new WireReader(
                message -> assertThat(LineEncoder.encode(message).length).isLessThanOrEqualTo(LineFramer.LONGEST));
        while (reader.bytes() < BYTES) {
            byte[] line = seeds.get(random.nextInt(seeds.size())).clone();
            for (int spoilt = random.nextInt(4); spoilt > 0; spoilt--) {
                line[random.nextInt(line.length)] = random.nextInt(3) == 0
                        ? (byte) random.nextInt(256)
                        : (byte) LIKELY.charAt(random.nextInt(LIKELY.length()));
            }
            if (random.nextBoolean()) {
                close(line);
            }
            reader.take(line, 0, random.nextInt(20) == 0 ? random.nextInt(line.length) : line.length);
        }
        assertThat(reader.good()).isGreaterThan(1_000);
        assertThat(reader.malformed()).isGreaterThan(1_000);
        assertThat(reader.badChecksum()).isGreaterThan(1_000);
    }

    /** Puts the right checksum where one stands. */
    private static void close(byte[] line) {
        int tilde = new String(line, StandardCharsets.ISO_8859_1).lastIndexOf('~');
        if (tilde > 0 && tilde + 5 <= line.length) {
            byte[] digits = String.format("%04X", Crc16.of(line, 0, tilde - 1)).getBytes(StandardCharsets.US_ASCII);
            System.arraycopy(digits, 0, line, tilde + 1, digits.length);
        }
    }

    private static List<byte[]> seeds() throws IOException {
        List<byte[]> seeds = new ArrayList<>();
        try (Stream<Path> files = Files.walk(Path.of("vectors"))) {
            for (Path file : files.filter(path -> path.toString().endsWith(".line"))
                    .sorted()
                    .toList()) {
                byte[] bytes = Files.readAllBytes(file);
                if (bytes.length < LONGEST_SEED) {
                    seeds.add(bytes);
                }
            }
        }
        return seeds;
    }
}
