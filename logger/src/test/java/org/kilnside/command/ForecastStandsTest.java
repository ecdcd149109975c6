package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
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

    private String said(String log, String... more) {
        String[] arguments = Stream.concat(Stream.of(log, "--language", "en"), Stream.of(more))
                .toArray(String[]::new);
        return Line.run("forecast", new ForecastCommand(), arguments).out();
    }

    private String course(String name, int minutes, DoubleUnaryOperator celsius) throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int minute = 0; minute <= minutes; minute++) {
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", 60 * minute, celsius.applyAsDouble(minute / 60.0)));
        }
        return Files.writeString(folder.resolve(name), text.toString()).toString();
    }

    /** Candled to 150 °C in three hours and let go. */
    @Test
    void whatTheKilnNeverWasAboveItDidNotComeBelow() throws IOException {
        String log = course("candled.csv", 420, h -> h < 3 ? 15 + 45 * h : 15 + 135 * Math.exp(-(h - 3) / 4));
        assertThat(said(log)).contains("Never above 200 °C.").doesNotContain("ame below 200 °C");
        assertThat(said(log, "--json"))
                .contains("{\"temp_c\":200.0,\"at_s\":null,\"from_s\":null,\"to_s\":null}", "\"never above 200 °C\"");
    }

    @Test
    void whatItWasBelowWhenTheLogBeganItDidNotComeBelowInIt() throws IOException {
        String log = course("late.csv", 90, h -> 15 + 160 * Math.exp(-h / 4));
        assertThat(said(log))
                .contains("Below 200 °C from the first reading on.")
                .doesNotContain("ame below 200 °C");
        assertThat(said(log, "--json")).contains("{\"temp_c\":200.0,\"at_s\":0.0,");
    }

    @Test
    void aChoiceSaysOnlyWhatItWouldChange() throws IOException {
        String lid = said(ForecastCommandTest.log(folder, "a.csv", 11).toString())
                .lines()
                .filter(line -> line.contains("With the lid propped"))
                .findFirst()
                .orElseThrow();
        assertThat(lid).contains("from 120 °C down: below 60 °C").doesNotContain("below 200 °C", "below 120 °C");
    }

    @Test
    void aTopOutThatCouldBeAnythingIsNotTold() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c,output_pct\n");
        for (int s = 0; s <= 3 * 3600; s += 60) {
            text.append(String.format(Locale.ROOT, "%d,%.2f,%.1f%n", s, 15 + s / 36.0, 10 + s / 450.0));
        }
        String log =
                Files.writeString(folder.resolve("early.csv"), text.toString()).toString();
        assertThat(said(log, "--target", "1222"))
                .contains("Whether it reaches 1222 °C cannot be said yet")
                .doesNotContain("tops out");
        assertThat(said(log, "--target", "1222", "--json")).containsPattern("\"tops_out_c\":\\d");
    }

    /** A climb no kiln makes on a steady output. */
    @Test
    void ofANumberThatIsNotBelievedNothingIsTakenForGranted() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c,output_pct\n");
        for (int s = 0; s <= 3 * 3600; s += 60) {
            text.append(String.format(Locale.ROOT, "%d,%.2f,60%n", s, 15 + s / 36.0));
        }
        String log =
                Files.writeString(folder.resolve("odd.csv"), text.toString()).toString();
        assertThat(said(log, "--target", "1222"))
                .contains("do not trust what is worked out of this log")
                .doesNotContain("is taken to climb");
    }

    @Test
    void whenAKilnTooWeakForItsTopWillBeCoolHangsOnWhenItIsSwitchedOff() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c,output_pct\n");
        for (int s = 0; s <= 20 * 3600; s += 60) {
            text.append(String.format(Locale.ROOT, "%d,%.2f,100%n", s, 15 + 1135 * (1 - Math.exp(-s / 3600.0 / 3.3))));
        }
        String log =
                Files.writeString(folder.resolve("weak.csv"), text.toString()).toString();
        assertThat(said(log, "--target", "1222"))
                .containsOnlyOnce("Below 200 °C, 120 °C, 60 °C: hangs on when it is switched off");
    }
}
