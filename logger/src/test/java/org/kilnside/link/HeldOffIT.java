package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.command.Program;
import org.kilnside.testing.Tools;

/**
 * What the program asks of the system when it opens a port, seen from outside. A pseudo-terminal has no DTR and RTS,
 * so the lines themselves cannot be looked at; but whether the program asks for them, and whether it takes hang-up off
 * the port, can.
 */
@EnabledOnOs(OS.LINUX)
class HeldOffIT {
    @TempDir
    private Path folder;

    @Test
    void openingAsksForNeitherDtrNorRtsAndTakesHangUpOffThePort() throws Exception {
        Path calls = folder.resolve("calls");
        try (PtyPair cable = new PtyPair(folder.resolve("port"))) {
            terminal("hupcl", cable.port);
            assertThat(terminal("-a", cable.port)).contains(" hupcl");
            Program.run(
                    Map.of(),
                    List.of(
                            Tools.require("strace").toString(),
                            "-f",
                            "-e",
                            "trace=openat,ioctl",
                            "-o",
                            calls.toString()),
                    "ports",
                    cable.port.toString(),
                    "--seconds",
                    "5");
            String asked = Files.readString(calls, StandardCharsets.ISO_8859_1);
            assertThat(asked).contains(cable.port.toRealPath() + "\"");
            // TIOCMBIS and TIOCMSET are the calls that raise a modem line (Linux, ioctl_tty(2)).
            assertThat(asked).doesNotContain("TIOCMBIS").doesNotContain("TIOCMSET");
            assertThat(terminal("-a", cable.port)).as("no hang-up on close").contains("-hupcl");
        }
    }

    private static String terminal(String word, Path port) throws IOException, InterruptedException {
        Process stty = new ProcessBuilder(Tools.require("stty").toString(), "-F", port.toString(), word)
                .redirectErrorStream(true)
                .start();
        String said = new String(stty.getInputStream().readAllBytes(), StandardCharsets.US_ASCII);
        assertThat(stty.waitFor()).as(said).isZero();
        return said;
    }
}
