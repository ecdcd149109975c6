package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PortsCommandTest {
    @TempDir
    private Path folder;

    private String replay(String stream) throws IOException {
        Path file = Files.writeString(folder.resolve("stream.txt"), stream, StandardCharsets.ISO_8859_1);
        return "replay:" + file + "?speed=max";
    }

    private Line ports(String... words) {
        return Line.run("ports", new PortsCommand(), words);
    }

    @Test
    void badLinesAreCountedWhileWatchingEvenWhereNoGoodOnesCome() throws IOException {
        String spoilt = "R 1 1000 t1=80 ~0000\n".repeat(7) + "no line at all\n".repeat(3) + "x".repeat(1_000_000);
        Line run = ports(replay(spoilt), "--watch", "--language", "en");
        assertThat(run.out()).contains("0 good lines", "with a wrong checksum", "that are no lines");
        assertThat(run.exit()).isEqualTo(Complaint.ExitCode.INPUT.code());
    }

    @Test
    void goodLinesAreShownAsTheyComeWithTheCounts() throws IOException {
        Line run = ports("virtual:tall-drum?speed=max", "--watch", "--language", "en");
        assertThat(run.out()).contains("°C", "good lines", "The controller is");
        assertThat(run.exit()).isZero();
    }

    @Test
    void linesOfAnotherKindGetAProposal() throws IOException {
        StringBuilder lines = new StringBuilder();
        for (int i = 0; i < 20; i++) {
            lines.append("T=").append(20 + i / 10.0).append(" SP=600\n");
        }
        Line run = ports(replay(lines.toString()), "--language", "en");
        assertThat(run.out()).contains("\"T\" looks like the kiln's temperature in °C", "form = \"keys\"");
    }

    @Test
    void theTrialNeedsAPortThatAControllerCanStandBehind() {
        assertThat(ports("--try-opening").err()).contains("needs the port to try");
        assertThat(ports("virtual:tall-drum", "--try-opening").err()).contains("nothing else can restart a controller");
        assertThat(ports("/dev/ttyNOWHERE", "--try-opening", "--language", "en").err())
                .contains("There is no port /dev/ttyNOWHERE");
    }
}
