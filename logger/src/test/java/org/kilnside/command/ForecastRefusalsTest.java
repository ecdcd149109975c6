package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a forecast refuses, or does not count, in one sentence. */
class ForecastRefusalsTest {
    @TempDir
    private Path folder;

    @Test
    void refusesReadingsThatContradictOneAnotherAndSaysWhichEarlierLogsTeachNothing() throws IOException {
        Path apart = Files.writeString(folder.resolve("apart.csv"), "elapsed_s,temp_c\n0,20\n3600,1000\n");
        Line refused = Line.run("forecast", new ForecastCommand(), apart.toString());
        assertThat(refused.exit()).isEqualTo(3);
        assertThat(refused.err()).contains("found 1 of its 2 readings that can be a kiln's");
        Path cold = Files.writeString(folder.resolve("cold.csv"), "elapsed_s,temp_c\n0,20\n6000,20.5\n12000,21\n");
        Line said = Line.run(
                "forecast",
                new ForecastCommand(),
                ForecastCommandTest.log(folder, "a.csv", 11).toString(),
                "--earlier",
                cold.toString());
        assertThat(said.exit()).isZero();
        assertThat(said.err()).contains("the earlier logs hold no heating or cooling");
        Path whole = ForecastCommandTest.log(folder, "whole.csv", 40);
        Line oneOfTwo = Line.run(
                "forecast",
                new ForecastCommand(),
                ForecastCommandTest.log(folder, "b.csv", 11).toString(),
                "--earlier",
                cold.toString(),
                "--earlier",
                whole.toString());
        assertThat(oneOfTwo.err()).contains("of 2 earlier logs 1 tell how the kiln cools");
        assertThat(Line.run("forecast", new ForecastCommand(), whole.toString(), "--earlier", whole.toString())
                        .err())
                .isEmpty();
    }

    @Test
    void asksForALog() {
        Line said = Line.run("forecast", new ForecastCommand());
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains("no log to forecast from");
    }

    @Test
    void refusesAnAmbientThatIsNone() throws IOException {
        Line said = Line.run(
                "forecast",
                new ForecastCommand(),
                ForecastCommandTest.log(folder, "a.csv", 11).toString(),
                "--ambient",
                "500");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains("--ambient: found 500, expected -40 to 60 °C");
    }

    @Test
    void asksForANumberInAPersonsWordsWhereTextStands() throws IOException {
        Path log = ForecastCommandTest.log(folder, "a.csv", 11);
        Line comma = Line.run("forecast", new ForecastCommand(), log.toString(), "--ambient", "4,5");
        assertThat(comma.exit()).isEqualTo(2);
        assertThat(comma.err())
                .contains("--ambient: found \"4,5\", expected a number with a decimal point such as 4.5");
        Line hole = Line.run("forecast", new ForecastCommand(), log.toString(), "--below", "60,,120");
        assertThat(hole.err()).contains("--below: found \"\", expected a number");
        Line half = Line.run("forecast", new ForecastCommand(), log.toString(), "--class", "1.5");
        assertThat(half.err()).contains("--class: found \"1.5\", expected a whole number");
    }

    @Test
    void aWordThatIsNoneOfTheChoicesIsSaidWithThemAsTheyAreTyped() throws IOException {
        Line said = Line.run(
                "forecast",
                new ForecastCommand(),
                ForecastCommandTest.log(folder, "a.csv", 11).toString(),
                "--wall",
                "stone");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains("--wall: found \"stone\", expected one of brick, fibre, layered");
    }

    @Test
    void saysThatAnOpeningAfterTheLogsEndDoesNotCount() throws IOException {
        Path log = ForecastCommandTest.log(folder, "a.csv", 11);
        Line later = Line.run("forecast", new ForecastCommand(), log.toString(), "--opened", "lid@612000");
        assertThat(later.exit()).isZero();
        assertThat(later.err())
                .contains("--opened lid@612000 lies after the log's last reading, at 39600 s, and does not count");
        Line within = Line.run("forecast", new ForecastCommand(), log.toString(), "--opened", "bung@39600");
        assertThat(within.err()).doesNotContain("does not count");
        Line never = Line.run("forecast", new ForecastCommand(), log.toString(), "--opened", "lid@Infinity");
        assertThat(never.exit()).isEqualTo(2);
    }

    @Test
    void saysWhatAnAmplifierCannotHaveGiven() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int minute = 0; minute < 600; minute++) {
            text.append(minute * 60).append(',').append(20 + 2 * minute).append('\n');
        }
        Path log = Files.writeString(folder.resolve("beyond.csv"), text);
        assertThat(Line.run("forecast", new ForecastCommand(), log.toString(), "--uncorrected", "max6675")
                        .err())
                .contains(
                        " numbers that this amplifier and thermocouple cannot give; check --uncorrected and --sensor");
    }
}
