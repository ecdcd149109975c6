package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.testing.Tools;

/** The unit file in docs/service, as systemd's own checker reads it. */
class ServiceUnitIT {
    private static final Path UNIT = Path.of("..", "docs", "service", "kilnside.service");

    @TempDir
    private Path folder;

    private String analyze(String... words) throws IOException, InterruptedException {
        String[] command = new String[words.length + 1];
        command[0] = Tools.require("systemd-analyze").toString();
        System.arraycopy(words, 0, command, 1, words.length);
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(said).isZero();
        return said;
    }

    /** The program is not installed here: a program that is there stands in its place. */
    private Path unit() throws IOException {
        String text = Files.readString(UNIT).replace("/opt/kilnside/logger/bin/kilnside", "/bin/true");
        return Files.writeString(folder.resolve("kilnside.service"), text);
    }

    @Test
    void systemdFindsNothingWrongWithTheUnit() throws Exception {
        assertThat(analyze("verify", "--man=no", unit().toString()))
                .doesNotContain("kilnside.service:")
                .doesNotContain("Unknown");
    }

    @Test
    void theUnitIsAsShutAsALineReaderCanBe() throws Exception {
        // systemd's own scale: 0 is shut, 10 is open, and below 4 it says "OK".
        analyze("security", "--offline=true", "--threshold=30", unit().toString());
    }
}
