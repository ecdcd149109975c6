package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Where a kiln stands, as {@code forecast} says it: what is, and what has been, told as that. */
class ForecastStandsTest {
    @TempDir
    private Path folder;

    /** At 13 h 54 min it reads 200.3 °C and falls by 53 °C an hour. */
    @Test
    void aThresholdTheLogEndsAtIsNeitherToldAsAheadNorOfferedAgain() throws IOException {
        String log = ForecastCommandTest.log(folder, "a.csv", 13.9).toString();
        for (String[] said : new String[][] {
            {"en", "Just going below 200 °C.", "From now on with the bung out: below 120 °C after ", "elow 200 °C after"
            },
            {"nl", "Gaat net onder 200 °C.", "Vanaf nu met de prop eruit: onder 120 °C na ", "nder 200 °C na"},
            {"de", "Geht gerade unter 200 °C.", "Ab jetzt mit gezogenem Stopfen: unter 120 °C nach ", "nter 200 °C nach"
            }
        }) {
            String out = Line.run("forecast", new ForecastCommand(), log, "--language", said[0])
                    .out();
            assertThat(out).contains(said[1], said[2]).doesNotContain(said[3], "200 °C:");
        }
    }

    @Test
    void aKilnWithNoMoreToGiveIsNotSaidToHold() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c,setpoint_c,output_pct\n");
        for (int s = 0; s <= 20 * 3600; s += 60) {
            double celsius = 15 + 1135 * (1 - Math.exp(-s / 3600.0 / 3.3));
            text.append(String.format(Locale.ROOT, "%d,%.2f,1222,100%n", s, celsius));
        }
        String log =
                Files.writeString(folder.resolve("weak.csv"), text.toString()).toString();
        for (String[] said : new String[][] {
            {"en", "At full output, and hardly getting any hotter.", "Holding"},
            {"nl", "Op vol vermogen, en hij wordt nauwelijks nog heter.", "Houdt aan"},
            {"de", "Bei voller Leistung, und er wird kaum noch heißer.", "Hält"}
        }) {
            String out = Line.run("forecast", new ForecastCommand(), log, "--target", "1222", "--language", said[0])
                    .out();
            assertThat(out).containsOnlyOnce(said[1]).doesNotContain(said[2]);
        }
        assertThat(Line.run("forecast", new ForecastCommand(), log, "--target", "1222", "--json")
                        .out())
                .contains("\"stage\":\"heating\"");
    }
}
