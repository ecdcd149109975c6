package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class AlarmsCommandTest {
    @TempDir
    private Path folder;

    /** A kiln that climbs by 100 °C/h, a row each 5 s; from the second hour on for a while the cell is something else. */
    private String rung(int blindForS, String cell) throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s <= 9_000; s += 5) {
            String celsius = String.format(Locale.ROOT, "%.2f", 15 + s / 36.0 + 0.2 * (s / 5 % 3));
            text.append(s)
                    .append(',')
                    .append(s >= 7_200 && s < 7_200 + blindForS ? cell : celsius)
                    .append('\n');
        }
        Path log = Files.writeString(folder.resolve("log.csv"), text);
        Line said = Line.run("alarms", new AlarmsCommand(), log.toString(), "--no-forecast", "--json");
        assertThat(said.exit()).isZero();
        return said.out();
    }

    @Test
    void rowsWithoutATemperatureAreASensorThatIsGoneAndNoSilence() throws IOException {
        for (String cell : new String[] {"", "NaN", "open"}) {
            assertThat(rung(600, cell))
                    .as("cell: " + cell)
                    .contains("{\"code\":\"sensor-gone\",\"grade\":\"come-now\",\"what\":\"raised\",\"at_s\":7260.0,"
                            + "\"since_s\":7200.0")
                    .contains("\"what\":\"cleared\"")
                    .doesNotContain("no-readings");
        }
    }

    @Test
    void aLogWithARowEachTwoOrTenMinutesIsNotSilent() throws IOException {
        for (int step : new int[] {120, 600}) {
            StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
            for (int s = 0; s <= 9 * 3600; s += step) {
                text.append(String.format(Locale.ROOT, "%d,%.2f%n", s, 15 + s / 36.0 + 0.2 * (s / step % 3)));
            }
            Path log = Files.writeString(folder.resolve("seldom.csv"), text);
            assertThat(Line.run("alarms", new AlarmsCommand(), log.toString(), "--no-forecast", "--json")
                            .out())
                    .contains("\"alarms\":[]");
        }
    }

    @Test
    void timesWithoutAClockCountFromTheFirstRowInWordsAndAsTheLogHasThemInJson() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s <= 9000; s += 5) {
            String celsius = String.format(Locale.ROOT, "%.2f", 15 + s / 36.0 + 0.2 * (s / 5 % 3));
            text.append(1_700_000_000L + s)
                    .append(',')
                    .append(s >= 7_200 && s < 7_800 ? "" : celsius)
                    .append('\n');
        }
        String log = Files.writeString(folder.resolve("epoch.csv"), text).toString();
        assertThat(Line.run("alarms", new AlarmsCommand(), log, "--no-forecast", "--language", "en")
                        .out())
                .containsPattern("(?m)^  2:01 h  +raised +sensor-gone");
        assertThat(Line.run("alarms", new AlarmsCommand(), log, "--no-forecast", "--json")
                        .out())
                .contains("\"since_s\":1700007200");
    }

    @Test
    void aSpoiltRowNowAndThenIsNoSensorThatIsGone() throws IOException {
        assertThat(rung(20, "")).contains("\"alarms\":[]");
    }
}
