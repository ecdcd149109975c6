package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

/** When the plan's cone is down, on the command line. */
class ForecastConeTest {
    @TempDir
    private Path folder;

    /** The virtual kiln's own bisque, a reading a minute with its output, up to a temperature on its way up or past its top. */
    private Line asked(double celsius, boolean cooling, String... more) throws IOException {
        VirtualFiring kiln = VirtualFiring.of(VirtualKilns.TALL_DRUM, VirtualKilns.bisque())
                .interval(60)
                .start();
        StringBuilder text = new StringBuilder("elapsed_s,temp_c,output_pct\n");
        double highestC = 0;
        for (int minute = 0; minute < 40 * 60; minute++) {
            VirtualFiring.Moment now = kiln.next();
            double tipC = now.truth().tipC();
            highestC = Math.max(highestC, tipC);
            double output = now.controller().output().orElseThrow().percent();
            text.append(String.format(Locale.ROOT, "%d,%.2f,%.1f%n", minute * 60, tipC, output));
            if (cooling ? highestC > 950 && tipC < celsius : tipC > celsius) {
                break;
            }
        }
        String[] args = new String[more.length + 1];
        args[0] = Files.writeString(folder.resolve("log.csv"), text).toString();
        System.arraycopy(more, 0, args, 1, more.length);
        return Line.run("forecast", new ForecastCommand(), args);
    }

    @Test
    void ofAFiringByAPlanItIsToldWithItsInterval() throws IOException {
        assertThat(asked(850, false, "--plan", "bisque", "--json").out())
                .containsPattern("\"cone\":\\{\"aims_for\":\"06\",\"at_s\":\\d+\\.\\d,\"from_s\":\\d+\\.\\d,\"to_s\":");
        assertThat(asked(850, false, "--plan", "bisque").out())
                .containsPattern("Cone 06 \\(998 °C\\) is expected after \\d+ h.*nine in ten\\)\\.");
    }

    /** A climb at 125 °C an hour of which nothing tells the output: whether it gets there nobody can say. */
    @Test
    void whereItCannotBeToldTheNotesSaySo() throws IOException {
        String log = ForecastCommandTest.log(folder, "climb.csv", 7).toString();
        assertThat(Line.run("forecast", new ForecastCommand(), log, "--plan", "bisque", "--json")
                        .out())
                .contains("\"cone\":null", "when cone 06 (998 °C) is down cannot be said yet");
    }

    @Test
    void withoutAPlanAndOnceItCoolsThereIsNone() throws IOException {
        assertThat(asked(850, false, "--target", "1000", "--json").out()).contains("\"cone\":null");
        assertThat(asked(800, true, "--plan", "bisque", "--json").out()).contains("\"cone\":null");
        assertThat(asked(800, true, "--plan", "bisque").out()).doesNotContain("is expected");
    }
}
