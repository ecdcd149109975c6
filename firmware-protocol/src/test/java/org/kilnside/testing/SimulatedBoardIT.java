package org.kilnside.testing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import org.junit.jupiter.api.Test;

class SimulatedBoardIT {
    @Test
    void sendsAHelloAndReadingsThroughItsPort() throws Exception {
        try (SimulatedBoard board = SimulatedBoard.with().speed(20).start();
                InputStream port = Files.newInputStream(board.pty())) {
            board.temperature(1000, 25);
            String text = "";
            while (text.lines().count() < 5) {
                text += new String(port.readNBytes(20), StandardCharsets.US_ASCII);
            }
            assertThat(text).contains("t1=4000 j1=400");
        }
    }
}
