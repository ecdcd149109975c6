package org.kilnside.desktop;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.host.Notices;

/** The notice of an alarm on a desktop: its notice program is played by a script, the screen is a virtual one. */
class NoticeIT {
    @TempDir
    private Path folder;

    /** Shows one notice and ends, as the test of the alarm in a terminal does. */
    static final class ShowsOne {
        private ShowsOne() {}

        public static void main(String[] notice) {
            try (Notices notices = new Notices()) {
                notices.show(notice[0], notice[1], true);
            }
        }
    }

    private String shows(String script) throws Exception {
        Path program = folder.resolve("notify-send");
        Files.writeString(program, "#!/bin/sh\n" + script + "\n");
        assertThat(program.toFile().setExecutable(true)).isTrue();
        try (VirtualScreen screen = VirtualScreen.start(800, 600)) {
            Process process = screen.java(
                    Map.of("PATH", folder + ":" + System.getenv("PATH")),
                    List.of(),
                    ShowsOne.class,
                    List.of("Heating when it should not", "Tall Drum: switch off. -- Go there."));
            assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(process.exitValue())
                    .as(new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8))
                    .isZero();
        }
        Path said = folder.resolve("said");
        return Files.exists(said) ? Files.readString(said) : "";
    }

    @Test
    void anAlarmToComeNowStaysUntilItIsClickedAwayAndIsShownThoughTheProgramEnds() throws Exception {
        assertThat(shows("printf '%s|' \"$@\" > " + folder.resolve("said")))
                .isEqualTo(
                        "-a|Kilnside|-u|critical|--|Heating when it should not|Tall Drum: switch off. -- Go there.|");
    }

    @Test
    void aNoticeProgramThatFailsOnADesktopWithoutATrayHoldsUpNobody() throws Exception {
        assertThat(shows("exit 1")).isEmpty();
    }
}
