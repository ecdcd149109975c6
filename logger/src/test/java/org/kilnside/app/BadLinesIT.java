package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.command.Program;

/** Everything that can be wrong with a line, through the whole program: counted, shown, never fatal, in 256 MB. */
class BadLinesIT {
    /** 2 Mbaud are 200 kB a second with start and stop bits; this is twenty seconds of it, as fast as it goes. */
    private static final int FLOOD_BYTES = 4_000_000;

    private static final String HELLO = "H 0 10 v=1 d=tall-drum n=1 p1=K a1=MAX31855 i=1000";

    @TempDir
    private Path folder;

    private int sequence = 1;

    @Test
    void everyKindOfBadLineIsCountedWhileWatchingAndTheGoodOnesAreRead() throws Exception {
        Path out = folder.resolve("out");
        try (ServerSocket adapter = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            // A program that does not start is a test that fails, not one that waits for ever.
            adapter.setSoTimeout(60_000);
            Process watching = Program.start(
                    Map.of("XDG_CONFIG_HOME", folder.toString()),
                    List.of(),
                    out,
                    folder.resolve("err"),
                    "ports",
                    "tcp:127.0.0.1:" + adapter.getLocalPort(),
                    "--watch",
                    "--language",
                    "en");
            try (Socket wire = adapter.accept()) {
                OutputStream to = wire.getOutputStream();
                to.write(line(HELLO));
                to.write(reading());
                byte[] half = reading();
                to.write(half, 0, half.length / 2);
                to.write('\n');
                byte[] doubled = reading();
                to.write(doubled);
                to.write(doubled);
                to.write(new byte[] {0, 0, 0, 0, '\n'});
                byte[] bit = reading();
                bit[6] ^= 1;
                to.write(bit);
                to.write(line("R " + sequence++ + " 9000 t1=99999999"));
                to.write("x".repeat(1_000_000).getBytes(StandardCharsets.US_ASCII));
                to.write('\n');
                to.write(reading());
                // Good: hello and three readings. Not lines: the half one, the doubled one, NULs, the number out of
                // range, the endless one; one bit wrong is a wrong checksum.
                await(out, "4 good lines, 1 with a wrong checksum, 5 that are no lines");
                int good = flood(to);
                to.write(reading());
                await(out, (4 + good + 1) + " good lines");
                assertThat(watching.isAlive()).isTrue();
            } finally {
                watching.destroy();
                assertThat(watching.waitFor(20, TimeUnit.SECONDS)).isTrue();
            }
        }
        assertThat(Files.readString(folder.resolve("err")))
                .doesNotContain("Exception")
                .doesNotContain("OutOfMemory");
    }

    /** Noise, with a good line after every 4 kB of it; how many good lines. */
    private int flood(OutputStream to) throws IOException {
        Random random = new Random(8);
        byte[] noise = new byte[4_096];
        int good = 0;
        for (int sent = 0; sent < FLOOD_BYTES; sent += noise.length) {
            random.nextBytes(noise);
            ByteArrayOutputStream block = new ByteArrayOutputStream();
            block.write(noise);
            block.write('\n');
            block.write(reading());
            to.write(block.toByteArray());
            good++;
        }
        return good;
    }

    private byte[] reading() {
        int number = sequence++;
        return line("R " + number + " " + (1_000L * number) + " t1=84 j1=336");
    }

    /** A line with its checksum, worked out here bit by bit as PROTOCOL.md, section 3, says it. */
    private static byte[] line(String body) {
        int crc = 0xFFFF;
        for (byte each : body.getBytes(StandardCharsets.US_ASCII)) {
            crc ^= each << 8;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 0x8000) != 0 ? crc << 1 ^ 0x1021 : crc << 1;
            }
        }
        return String.format("%s ~%04X%n", body, crc & 0xFFFF).getBytes(StandardCharsets.US_ASCII);
    }

    private static void await(Path out, String text) throws Exception {
        for (int i = 0; i < 600; i++) {
            if (Files.readString(out).contains(text)) {
                return;
            }
            Thread.sleep(100);
        }
        List<String> said = Files.readAllLines(out);
        assertThat(said.subList(Math.max(0, said.size() - 5), said.size()))
                .asString()
                .contains(text);
    }
}
