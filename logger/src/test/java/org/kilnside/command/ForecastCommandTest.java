package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ForecastCommandTest {
    @TempDir
    private Path folder;

    private Path log(String name, double hours) throws IOException {
        return log(folder, name, hours);
    }

    /** A climb to 1015 °C in eight hours and what is left to cool after it, a reading a minute. */
    static Path log(Path folder, String name, double hours) throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s <= hours * 3600; s += 60) {
            double h = s / 3600.0;
            double celsius = h < 8 ? 15 + 1000 * h / 8 : 15 + 1000 * Math.exp(-(h - 8) / 3.5);
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", s, celsius));
        }
        return Files.writeString(folder.resolve(name), text);
    }

    @Test
    void writesOneJsonObjectALog() throws IOException {
        Path first = log("first.csv", 10);
        Path second = log("second.csv", 12);
        Line said = Line.run(
                "forecast",
                new ForecastCommand(),
                first.toString(),
                second.toString(),
                "--target",
                "1000",
                "--ambient",
                "15",
                "--json");
        assertThat(said.exit()).isZero();
        assertThat(said.out().lines()).hasSize(2);
        String json = said.out().lines().findFirst().orElseThrow();
        assertThat(json)
                .startsWith("{\"log\":\"" + first + "\",\"asked_s\":36000.0,\"stage\":\"cooling\",\"ambient_c\":")
                .contains("\"below\":[{\"temp_c\":200.0,\"at_s\":")
                .contains("\"arrival\":{\"target_c\":1000.0,\"reaches\":true,\"at_s\":")
                .contains("\"tops_out_c\":null,\"tops_out_from_c\":null,\"tops_out_to_c\":null}")
                .contains("\"energy_kwh\":null");
    }

    @Test
    void nowIsTheLogsLastLineHoweverCloseTheReadings() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s <= 12_005; s += 5) {
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", s, 20 + s / 30.0));
        }
        Path log = Files.writeString(folder.resolve("close.csv"), text);
        assertThat(Line.run("forecast", new ForecastCommand(), log.toString(), "--json")
                        .out())
                .contains("\"asked_s\":12005.0,");
    }

    @Test
    void saysItInWordsWithItsCaution() throws IOException {
        Line said = Line.run("forecast", new ForecastCommand(), log("a.csv", 11).toString(), "--language", "en");
        assertThat(said.out())
                .contains("Cooling.")
                .contains("nine in ten")
                .contains("One sensor; the ware inside is hotter; the kiln maker decides.");
    }

    @Test
    void hoursGoneByAreNeverSaidAsATimeOfDay() throws IOException {
        String log = log("a.csv", 8.5).toString();
        for (String[] said : new String[][] {
            {"en", "1000 °C was reached after 7 h 5", "Below 200 °C after ", "(after ", "at "},
            {"nl", "1000 °C werd na 7 u 5", "Onder 200 °C na ", "(na ", "om "},
            {"de", "1000 °C wurde nach 7 h 5", "Unter 200 °C nach ", "(nach ", "um "}
        }) {
            String out = Line.run("forecast", new ForecastCommand(), log, "--target", "1000", "--language", said[0])
                    .out();
            assertThat(out).contains(said[1], said[2], said[3]);
            assertThat(out).doesNotContainPattern("\\b" + said[4] + "[0-9]+ [uh]\\b");
        }
        String cold = Line.run(
                        "forecast", new ForecastCommand(), log("b.csv", 24).toString(), "--language", "en")
                .out();
        assertThat(cold).contains("Came below 200 °C after ").doesNotContain("since");
    }

    @Test
    void onTheClockATimeIsThatOfTheDay() throws IOException {
        StringBuilder text = new StringBuilder("time,temp_c\n");
        for (int minute = 0; minute <= 510; minute++) {
            double celsius = minute < 480 ? 15 + 1000 * minute / 480.0 : 15 + 1000 * Math.exp(-(minute - 480) / 210.0);
            text.append(String.format(
                    Locale.ROOT, "2026-11-26T%02d:%02d:00Z,%.2f%n", 8 + minute / 60, minute % 60, celsius));
        }
        Path log = Files.writeString(folder.resolve("clock.csv"), text);
        assertThat(Line.run("forecast", new ForecastCommand(), log.toString(), "--target", "1000", "--language", "nl")
                        .out())
                .containsPattern("1000 °C werd om \\S+ [0-9]{2}:[0-9]{2} bereikt")
                .containsPattern("Onder 200 °C om \\S+ [0-9]{2}:[0-9]{2} \\(\\S+ [0-9]{2}:[0-9]{2} tot ");
    }

    @Test
    void whatALogDoesNotShowOfTheTopIsNotDenied() throws IOException {
        StringBuilder falls = new StringBuilder("elapsed_s,temp_c\n");
        StringBuilder saturated = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s <= 12 * 3600; s += 60) {
            double h = s / 3600.0;
            double celsius = h < 8 ? 20 + 1180 * h / 8 : 20 + 1180 * Math.exp(-(h - 8) / 3.5);
            saturated.append(String.format(Locale.ROOT, "%d,%.2f%n", s, Math.min(1023.75, celsius)));
            if (h > 8.1) {
                falls.append(String.format(Locale.ROOT, "%d,%.2f%n", s, celsius));
            }
        }
        for (StringBuilder each : List.of(falls, saturated)) {
            String log = Files.writeString(folder.resolve("unseen.csv"), each).toString();
            assertThat(Line.run("forecast", new ForecastCommand(), log, "--target", "1190", "--language", "en")
                            .out())
                    .contains("Whether 1190 °C was reached cannot be known: the top was not seen.");
            assertThat(Line.run("forecast", new ForecastCommand(), log, "--target", "1190", "--json")
                            .out())
                    .contains("\"reaches\":null,\"at_s\":null");
        }
    }

    @Test
    void aPieceOfAFiringTooShortToForecastIsNotSaidToBeUnlit() throws IOException {
        Path hot = Files.writeString(folder.resolve("hot.csv"), "elapsed_s,temp_c\n18000,770\n18060,775\n18120,783\n");
        Path held =
                Files.writeString(folder.resolve("held.csv"), "elapsed_s,temp_c\n18000,770\n18060,771\n18120,770\n");
        Path falls =
                Files.writeString(folder.resolve("falls.csv"), "elapsed_s,temp_c\n18000,770\n18060,763\n18120,757\n");
        Path cold = Files.writeString(folder.resolve("cold.csv"), "elapsed_s,temp_c\n0,20\n60,20.5\n120,21\n");
        Line said = Line.run(
                "forecast",
                new ForecastCommand(),
                hot.toString(),
                held.toString(),
                falls.toString(),
                cold.toString(),
                "--json");
        assertThat(said.out().lines())
                .satisfiesExactly(
                        line -> assertThat(line)
                                .contains("\"stage\":\"heating\"")
                                .contains("too few readings"),
                        line -> assertThat(line).contains("\"stage\":\"holding\""),
                        line -> assertThat(line).contains("\"stage\":\"cooling\""),
                        line -> assertThat(line).contains("\"stage\":\"waiting\""));
    }

    @Test
    void saysOnceWhatHoldsForSeveralTemperatures() throws IOException {
        Line said = Line.run(
                "forecast",
                new ForecastCommand(),
                log("a.csv", 11).toString(),
                "--below",
                "2,4,6",
                "--ambient",
                "15",
                "--language",
                "en");
        assertThat(said.out())
                .containsOnlyOnce("A temperature close to the room's, or below it, is not reached by waiting");
    }

    @Test
    void answersALogOfTwoRowsWithWhatItCannotKnow() throws IOException {
        Path two = Files.writeString(folder.resolve("two.csv"), "elapsed_s,temp_c\n0,20\n60,21\n");
        Line said = Line.run("forecast", new ForecastCommand(), two.toString(), "--json", "--language", "en");
        assertThat(said.exit()).isZero();
        assertThat(said.out()).contains("\"at_s\":null").contains("too few readings");
    }

    @Test
    void aTimeBesideADoubtIsSaidAsWhenIfItGetsThere() throws IOException {
        String log = log("heating.csv", 5).toString();
        assertThat(said(log, "--target", "1240").out())
                .contains("Whether it reaches 1240 °C cannot be said yet; if it does, then after ")
                .doesNotContainPattern("(?m)^  1240 °C at ");
        assertThat(said(log, "--target", "1240", "--json").out())
                .containsPattern("\"reaches\":null,\"at_s\":\\d+\\.\\d,\"from_s\":\\d+\\.\\d,\"to_s\":\\d");
    }

    @Test
    void timesWithoutAClockSayOnceFromWhenTheyCount() throws IOException {
        String own = said(log("a.csv", 11).toString()).out();
        assertThat(own)
                .containsOnlyOnce("Cooling. Times count from the log's first reading; its last came after 11 h.");
        Path epoch = Files.writeString(
                folder.resolve("epoch.csv"), shifted(Files.readString(folder.resolve("a.csv")), 1_700_000_000L));
        Line shifted = said(epoch.toString());
        assertThat(shifted.out().lines().skip(1))
                .containsExactlyElementsOf(own.lines().skip(1).toList());
        assertThat(said(epoch.toString(), "--json").out()).contains("\"asked_s\":1700039600");
        Path cold = Files.writeString(folder.resolve("cold.csv"), "elapsed_s,temp_c\n0,20\n6000,20.5\n12000,21\n");
        assertThat(said(cold.toString()).out()).as("no times").doesNotContain("Times count");
        assertThat(said("--plan", "bisque").out()).contains("Not lit yet. Times count from the lighting.");
    }

    private static String shifted(String log, long seconds) {
        return Pattern.compile("(?m)^(\\d+),")
                .matcher(log)
                .replaceAll(row -> Long.parseLong(row.group(1)) + seconds + ",");
    }

    @Test
    void anIntervalOfLessThanAMinuteIsNotSaidAsFromATimeToTheSame() throws IOException {
        StringBuilder near = new StringBuilder("elapsed_s,temp_c\n");
        Files.readString(log("a.csv", 24))
                .lines()
                .skip(1)
                .takeWhile(row -> Double.parseDouble(row.split(",")[0]) < 9 * 3600
                        || Double.parseDouble(row.split(",")[1]) > 200.5)
                .forEach(row -> near.append(row).append('\n'));
        Path log = Files.writeString(folder.resolve("near.csv"), near);
        assertThat(said(log.toString(), "--below", "200").out())
                .contains("(within a minute, nine in ten)")
                .doesNotContainPattern("\\((.+) to \\1,");
    }

    @Test
    void ofTwoFiringsInALogTheLastIsForecastAndThatIsSaid() throws IOException {
        String first = Files.readString(log("first.csv", 32));
        String second = Files.readString(log("second.csv", 5));
        Path alone =
                Files.writeString(folder.resolve("alone.csv"), "elapsed_s,temp_c\n" + rows(shifted(second, 116_000)));
        Path both = Files.writeString(folder.resolve("both.csv"), first + rows(shifted(second, 116_000)));
        String json = said(both.toString(), "--target", "1000", "--json").out();
        assertThat(json)
                .contains("\"notes\":[\"the log holds an earlier firing as well; this is about the one lit last");
        assertThat(object(json))
                .as("as if the second stood alone")
                .isEqualTo(object(
                        said(alone.toString(), "--target", "1000", "--json").out()));
        assertThat(said(both.toString(), "--opened", "lid@90000").out())
                .as("opened in the firing before")
                .doesNotContain("the sensor reads air");
    }

    private static String object(String json) {
        return json.substring(json.indexOf("\"asked_s\""), json.indexOf("\"notes\""));
    }

    private static String rows(String log) {
        return log.substring(log.indexOf('\n') + 1);
    }

    @Test
    void aTimeThatIsNotGivenHasItsReasonAmongTheNotesAndInTheText() throws IOException {
        Path log = log("up.csv", 6);
        String reason = "elow 200 °C, 120 °C: cannot be known, as nobody said how hot it is to get";
        assertThat(said(log.toString(), "--below", "200,120", "--json").out())
                .contains("\"at_s\":null,\"from_s\":null")
                .containsPattern("\"notes\":\\[.*\"b" + reason + "\"");
        assertThat(said(log.toString(), "--below", "200,120").out()).contains("B" + reason + ".");
    }

    @Test
    void aTemperatureOfTheSurroundingsIsNotWaitedFor() throws IOException {
        Path log = log("down.csv", 20);
        assertThat(said(log.toString(), "--below", "10", "--json").out())
                .contains("below 10 °C: not reached, as its surroundings are about as warm");
    }

    @Test
    void aTimeThatHasGoneByHasTheIntervalTheNoiseLeaves() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        Random random = new Random(4);
        for (int s = 0; s <= 26 * 3600; s += 60) {
            double h = s / 3600.0;
            double celsius = h < 8 ? 15 + 1000 * h / 8 : 15 + 1000 * Math.exp(-(h - 8) / 3.5);
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", s, celsius + 4 * random.nextGaussian()));
        }
        Path log = Files.writeString(folder.resolve("noisy.csv"), text);
        // The curve itself passes 60 °C after 8 + 3.5 ln(1000 / 45) = 18.85 h.
        assertThat(said(log.toString(), "--below", "60").out())
                .containsPattern(
                        "Came below 60 °C after 18 h (4[5-9]|5\\d) min \\(after 18 h \\d+ min to \\d+ h \\d+ min, nine in ten\\)");
    }

    @Test
    void aTemperatureTheElementsHoldOffIsNotSaidToBeTheRooms() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int m = 0; m < 900; m++) {
            double celsius = m < 240 ? 20 + 4 * m : 420 + 560 * Math.exp((240 - m) / 60.0);
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", m * 60, celsius));
        }
        Path log = Files.writeString(folder.resolve("held.csv"), text);
        assertThat(said(log.toString(), "--below", "200,60").out())
                .contains("Below 60 °C: as it goes now, not within five days.")
                .doesNotContain("the room");
    }

    @Test
    void powerThatIsGivenIsNotSaidToBeUnknown() {
        assertThat(said("--plan", "bisque", "--power-kw", "7").out())
                .contains("whether the elements' power is much or little for this kiln, whose size is not known")
                .doesNotContain("the elements' power: it is taken");
        assertThat(said("--plan", "bisque").out()).contains("the elements' power: it is taken to follow any ramp");
    }

    private static Line said(String... arguments) {
        String[] all = Arrays.copyOf(arguments, arguments.length + 2);
        all[arguments.length] = "--language";
        all[arguments.length + 1] = "en";
        return Line.run("forecast", new ForecastCommand(), all);
    }
}
