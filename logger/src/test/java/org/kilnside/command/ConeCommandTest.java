package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ConeCommandTest {
    private static final int TOP_S = 26_400 + 6_120;

    @TempDir
    private Path folder;

    /** Published: self-supporting cone 6 falls at 1222 °C at 60 °C/h; cooling adds a little (common practice). */
    @Test
    void placesALogBetweenTwoConesAndKeepsTheCoolingApart() throws IOException {
        Path log = log("glaze.csv", 60_000, ConeCommandTest::coneSix);
        String out = cone(log.toString(), "--json").out();
        assertThat(out)
                .startsWith("{\"log\":\"" + log + "\",\"series\":\"self-supporting\",\"past\":\"6\",\"next\":\"7\",")
                .contains("\"from\":{\"past\":\"5\",\"next\":\"6\",\"fraction\":")
                .contains("\"to\":{\"past\":\"")
                .contains("\"cooling_added\":0.1")
                .contains("\"peak_c\":1222.0,\"peak_s\":32520.0,\"top_seen\":true,\"gaps_s\":0.0,\"rejected\":0");
        assertThat(out.lines()).hasSize(1);
    }

    @Test
    void saysItInWordsWithTheTemperatureBesideEveryCone() throws IOException {
        Path log = log("glaze.csv", 60_000, ConeCommandTest::coneSix);
        assertThat(cone(log.toString(), "--language", "en").out())
                .contains("between cone 6 (1222 °C) and cone 7 (1239 °C), nearer 6")
                .contains("witness cones decide");
        assertThat(cone(log.toString(), "--language", "de").out()).contains("zwischen Kegel 6 (1222 °C)");
        assertThat(cone(log.toString(), "--language", "nl").out()).contains("tussen kegel 6 (1222 °C)");
    }

    @Test
    void anOffsetKnownFromACalibrationIsAddedToTheReadings() throws IOException {
        Path log = log("glaze.csv", 60_000, ConeCommandTest::coneSix);
        assertThat(cone(log.toString(), "--offset", "25", "--json").out())
                .contains("\"past\":\"7\"", "\"peak_c\":1247.0");
    }

    /** IEC 60584-1: type K ends at 1000 °C in class 1 and at 1200 °C in class 2; 0.75 % there. */
    @Test
    void saysThatTheTopIsOutsideTheClassOfTheWire() throws IOException {
        Path log = log("glaze.csv", 60_000, ConeCommandTest::coneSix);
        assertThat(cone(log.toString(), "--language", "en").out())
                .contains("outside the class, at least 9 °C either way at 1222 °C: class 2 of type K ends at 1200 °C");
        assertThat(cone(log.toString(), "--json").out())
                .contains("\"sensor\":{\"half_width_c\":9.38,\"within_class\":false}");
        assertThat(cone("--reach", "6", "--class", "1", "--language", "en").out())
                .contains("class 1 of type K ends at 1000 °C");
        assertThat(cone("--reach", "06", "--language", "en").out()).contains("a new wire of type K, class 2");
        assertThat(cone("--reach", "06", "--sensor", "S", "--json").out()).contains("\"within_class\":true");
    }

    @Test
    void refusesAThermocoupleThatNeverGetsThere() throws IOException {
        refused(cone("--reach", "10", "--sensor", "T"), 2, "a thermocouple of type T goes to 400 °C");
        refused(cone("--plan", "bisque", "--sensor", "T"), 2, "a thermocouple of type T goes to 400 °C");
        Path hot = Files.writeString(folder.resolve("hot.toml"), """
                        name = "Hot"
                        [[segment]]
                        rate = "200 °C/h"
                        to = "1500 °C"
                        """);
        refused(
                cone("--plan", hot.toString()),
                2,
                "type K, which is taken where nobody names one, goes to 1372 °C: name the one there is with --sensor");
        assertThat(cone("--plan", hot.toString(), "--sensor", "S").exit()).isZero();
    }

    @Test
    void leavesFalseReadingsOutAndSaysHowMany() throws IOException {
        Path log = log("noisy.csv", 60_000, at -> at >= 27_000 && at < 27_200 ? 1372 : coneSix(at));
        String out = cone(log.toString(), "--json").out();
        assertThat(out).contains("\"past\":\"6\"").contains("\"peak_c\":1222.0").contains("\"rejected\":20");
    }

    @Test
    void correctsAnAmplifierThatDoesNotLineariseWhenToldOf() throws IOException {
        Path log = log("raw.csv", 60_000, ConeCommandTest::coneSix);
        assertThat(cone(log.toString(), "--json", "--uncorrected", "max31855").out())
                .contains("\"past\":\"7\",\"next\":\"8\"")
                .contains("\"peak_c\":1243");
        String reach = cone("--reach", "6", "--rate", "60 °C/h", "--uncorrected", "max31855", "--language", "en")
                .out();
        // Published: cone 6 at 60 °C/h falls at 1222 °C; computed: a MAX31855 then shows some 20 °C less.
        assertThat(reach).containsPattern("top of 122\\d °C").containsPattern("On the controller that is 120\\d °C");
    }

    @Test
    void saysWhatItCannotKnow() throws IOException {
        Path top = log("top.csv", TOP_S, ConeCommandTest::coneSix);
        assertThat(cone(top.toString(), "--json").out())
                .contains("\"to\":null", "\"top_seen\":false")
                .contains("end at the top");
        Path cooling = log("cooling.csv", 7200, at -> 900 - at / 20.0);
        assertThat(cone(cooling.toString()).out())
                .contains("at least")
                .contains("begin with the highest")
                .contains(" upwards")
                .doesNotContain("anywhere from");
        assertThat(cone(cooling.toString(), "--json").out()).contains("\"to\":null");
        Path cold = log("cold.csv", 7200, at -> 20 + at / 7200.0);
        assertThat(cone(cold.toString(), "--json").out())
                .contains("\"past\":null,\"next\":\"022\",\"fraction\":null")
                .contains("\"cooling_added\":null");
        Path jump = log("jump.csv", 7200, at -> at < 3600 ? 500 : 900);
        assertThat(cone(jump.toString()).out()).contains("jump from 500 °C to 900 °C after 1 h");
        Path two = Files.writeString(folder.resolve("two.csv"), "elapsed_s,temp_c\n0,20\n36000,1200\n");
        assertThat(cone(two.toString(), "--json").out()).contains("\"gaps_s\":36000.0");
        Path saturated = log("saturated.csv", TOP_S + 7200, at -> Math.min(1023.75, coneSix(at)));
        assertThat(cone(saturated.toString(), "--json").out())
                .contains("\"top_seen\":false")
                .contains("the sensor stood at the highest number it can give");
        assertThat(cone(saturated.toString()).out()).contains("at least");
        Path apart = Files.writeString(folder.resolve("apart.csv"), "elapsed_s,temp_c\n0,20\n3600,1000\n");
        refused(cone(apart.toString()), 3, "found 1 of its 2 readings");
        Path beyond = log("beyond.csv", TOP_S, ConeCommandTest::coneSix);
        Line chip = cone(beyond.toString(), "--uncorrected", "max6675");
        assertThat(chip.err()).contains("that this amplifier and thermocouple cannot give");
    }

    @Test
    void aLogThatBeginsHotSaysWhatItMissesAndCountsTheTopFromItsOwnFirstReading() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 18_000; s <= 25_200; s += 60) {
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", s, 1000 + (s - 18_000) / 60.0));
        }
        Path log = Files.writeString(folder.resolve("hot.csv"), text);
        assertThat(cone(log.toString(), "--language", "en").out())
                .contains("top 1120 °C, 2 h after the first reading")
                .contains("the readings begin at 1000 °C: the heat before them is not in the figure");
        assertThat(cone(log.toString(), "--json", "--language", "en").out())
                .contains("\"peak_s\":25200.0")
                .contains("the readings begin at 1000 °C");
        Path whole = log("glaze.csv", 60_000, ConeCommandTest::coneSix);
        assertThat(cone(whole.toString(), "--language", "en").out()).doesNotContain("the readings begin");
    }

    @Test
    void aSecondFiringInOneLogIsNotCountedTogetherWithTheFirstAndTheFirstIsTold() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s <= 48 * 3600; s += 60) {
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", s, s < 86_400 ? once(s, 900) : once(s - 86_400, 1040)));
        }
        Path both = Files.writeString(folder.resolve("both.csv"), text);
        StringBuilder alone = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 86_400; s <= 48 * 3600; s += 60) {
            alone.append(String.format(Locale.ROOT, "%d,%.2f%n", s, once(s - 86_400, 1040)));
        }
        Path second = Files.writeString(folder.resolve("second.csv"), alone);
        String out = cone(both.toString(), "--json", "--language", "en").out();
        assertThat(figures(out))
                .isEqualTo(figures(cone(second.toString(), "--json").out()));
        assertThat(out).contains("the log holds an earlier firing, top 900 °C, 8 h after the first reading");
        assertThat(cone(both.toString(), "--language", "en").out())
                .contains("top 1040 °C, 32 h after the first reading")
                .contains("its heat does not count here");
    }

    private static String figures(String json) {
        return json.substring(json.indexOf("\"past\""), json.indexOf("\"rejected\""));
    }

    private static double once(int atS, double topC) {
        double hours = atS / 3600.0;
        return 15 + (topC - 15) * (hours < 8 ? hours / 8 : Math.exp((8 - hours) / 3.5));
    }

    @Test
    void timesInWordsCountFromTheFirstReadingWhateverTheLogsZero() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s <= 40_000; s += 10) {
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", 1_700_000_000L + s, s < 3600 ? 500 : coneSix(s)));
        }
        Path log = Files.writeString(folder.resolve("epoch.csv"), text);
        Line said = cone(log.toString(), "--language", "en");
        assertThat(said.out())
                .contains("top 1222 °C, 9 h 2 min after the first reading")
                .contains("(after 1 h): do not trust")
                .doesNotContainPattern("\\d{4,} h");
        assertThat(cone(log.toString(), "--json").out()).contains("\"peak_s\":1700032520");
    }

    @Test
    void aLogHotterThanItsSensorOrAnyConeIsAskedAbout() throws IOException {
        StringBuilder fahrenheit = new StringBuilder("elapsed_s,temp_c\n");
        StringBuilder celsius = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s <= 36_000; s += 60) {
            celsius.append(String.format(Locale.ROOT, "%d,%.2f%n", s, once(s, 1210)));
            fahrenheit.append(String.format(Locale.ROOT, "%d,%.2f%n", s, once(s, 1210) * 1.8 + 32));
        }
        String asC = Files.writeString(folder.resolve("c.csv"), celsius).toString();
        String asF = Files.writeString(folder.resolve("f.csv"), fahrenheit).toString();
        for (String type : new String[] {"J", "T"}) {
            assertThat(cone(asC, "--sensor", type).err())
                    .contains("the log goes to 1210 °C, and a thermocouple of type " + type)
                    .contains("check --sensor")
                    .hasLineCount(1);
        }
        assertThat(cone(asC).err()).isEmpty();
        assertThat(cone(asC, "--sensor", "S").err()).isEmpty();
        assertThat(cone(asF, "--language", "en").out())
                .contains("above every cone there is")
                .contains("are these numbers °F?")
                .doesNotContain("anywhere from cone 14");
    }

    @Test
    void aKilnThatWasNeverHeatedHasNoTop() throws IOException {
        Path cold = log("cold.csv", 7200, at -> 20 + at / 7200.0);
        assertThat(cone(cold.toString(), "--language", "en").out())
                .contains("these readings show no firing: the kiln hardly warmed")
                .doesNotContain("the readings end at the top");
        Path cooling = log("cools.csv", 7200, at -> 400 - at / 40.0);
        assertThat(cone(cooling.toString(), "--language", "en").out())
                .contains("no cone can be named from these readings")
                .doesNotContain("at least softer");
        Path shortly = log("shortly.csv", 300, at -> 510 - at / 47.0);
        assertThat(cone(shortly.toString(), "--language", "en").out())
                .contains("the top was not seen: the readings begin with the highest")
                .doesNotContain("hardly warmed");
    }

    @Test
    void aFiringUnderWayIsSaidWhereItStands() throws IOException {
        Path between = log("between.csv", 16_000, ConeCommandTest::coneSix);
        assertThat(cone(between.toString(), "--language", "en").out())
                .contains("so far between cone")
                .doesNotContain("like between")
                .contains("it may really be anywhere from cone");
    }

    @Test
    void questionsThatDoNotGoTogetherAreNamed() throws IOException {
        String log = log("glaze.csv", 60_000, ConeCommandTest::coneSix).toString();
        refused(cone("--reach", "6", log), 2, "no log is looked at for that; found " + log + " beside it");
        refused(cone("--plan", "bisque", log), 2, "are two questions");
        refused(cone("--plan", "bisque", "--reach", "6"), 2, "are two questions");
    }

    @Test
    void numbersThatCanOnlyBeSlipsAreRefused() throws IOException {
        Path log = log("glaze.csv", 60_000, ConeCommandTest::coneSix);
        refused(cone(log.toString(), "--offset", "9999"), 2, "--offset: found 9999, expected -200 to 200 °C");
        refused(cone("--reach", "6", "--rate", "0.01 °C/h"), 2, "expected 1 to 2000 °C/h");
        refused(cone(""), 3, "a log's name was expected here");
        refused(cone("--plan", folder.toString()), 3, "this is a folder, expected a plan");
        refused(cone(), 2, "nothing to work a cone out from");
        assertThat(cone().err()).doesNotContain("Error:");
    }

    @Test
    void aBoardNobodyToldOfWidensTheRangeWhereTheCorrectionNeedsIt() throws IOException {
        String told = "elapsed_s,temp_c,cold_junction_c\n0,20,25\n36000,1300,25\n72000,400,25\n";
        Path with = Files.writeString(folder.resolve("told.csv"), told);
        Path without = Files.writeString(folder.resolve("untold.csv"), told.replaceAll("(?m),[^,]+$", ""));
        String wide = cone(without.toString(), "--sensor", "S", "--uncorrected", "max31855", "--json")
                .out();
        String narrow = cone(with.toString(), "--sensor", "S", "--uncorrected", "max31855", "--json")
                .out();
        assertThat(wide.substring(wide.indexOf("\"past")).split("\"from\"", 2)[0])
                .isEqualTo(narrow.substring(narrow.indexOf("\"past")).split("\"from\"", 2)[0]);
        assertThat(wide.split("\"from\"", 2)[1]).isNotEqualTo(narrow.split("\"from\"", 2)[1]);
    }

    @Test
    void refusesWhatIsNoLogAndGoesOnWithTheOthers() throws IOException {
        Path log = log("glaze.csv", 60_000, ConeCommandTest::coneSix);
        Path text = Files.writeString(folder.resolve("text.csv"), "hello\nworld\n");
        Line both = cone(text.toString(), log.toString(), "--json");
        assertThat(both.exit()).isEqualTo(3);
        assertThat(both.out().lines()).hasSize(1);
        assertThat(both.err()).contains("text.csv").doesNotContain("Exception");
        Line one = cone(text.toString());
        assertThat(one.exit()).isEqualTo(3);
        assertThat(one.err().strip().lines()).hasSize(1);
        assertThat(cone(folder.resolve("none.csv").toString()).err()).contains("there is no such file");
    }

    @Test
    void saysWhichConeAPlanComesTo() {
        String out = cone("--plan", "bisque", "--json").out();
        assertThat(out)
                .startsWith("{\"plan\":\"bisque\",\"series\":\"self-supporting\",\"past\":\"0")
                .contains("\"at_end_of_top\":{\"past\":\"0");
        assertThat(cone("--plan", "candling", "--json").out()).contains("\"past\":null");
        assertThat(cone("--plan", "candling", "--language", "en").out())
                .contains(": no cone: too cool even for cone 022 (586 °C)")
                .doesNotContain("before any cooling");
    }

    @Test
    void saysWhichTopOrWhichHoldAConeNeeds() {
        assertThat(cone("--reach", "6", "--rate", "100 °C/h", "--hold", "10 min", "--json")
                        .out())
                .startsWith("{\"cone\":\"6\",\"series\":\"self-supporting\",\"rate_c_per_h\":100.0,\"hold_s\":600.0,"
                        + "\"top_c\":122");
        assertThat(cone("--reach", "6", "--rate", "100 °C/h", "--top", "1210 °C", "--json")
                        .out())
                .contains("\"hold_s\":1")
                .containsPattern("\"hold_from_s\":\\d{2,3}\\.\\d+,\"hold_to_s\":2\\d{3}\\.")
                .contains("\"top_c\":1210.0");
        assertThat(cone("--reach", "6", "--top", "1210 °C", "--language", "en").out())
                .containsPattern("a hold of 13 min, by sensor and chart from .* to 3\\d min");
        assertThat(cone("--reach", "06").out())
                .contains("cone 06 (998 °C)".substring(1))
                .doesNotContain("0 s");
        assertThat(cone("--reach", "6", "--top", "1300 °C").out()).contains("without a hold");
        assertThat(cone("--reach", "2", "--rate", "300 °C/h", "--language", "en")
                        .out())
                .contains("Counted up to the end of the top, as the chart does")
                .contains("the curve comes to nearly cone 3 (1152 °C)");
        assertThat(cone("--reach", "6", "--json").out())
                .contains("\"with_cooling\":{\"past\":\"6\",\"next\":\"7\",\"fraction\":0.");
    }

    @Test
    void refusesWishesThatMeanNothing() {
        refused(cone("--reach", "15"), 2, "there is no cone \"15\"");
        refused(cone("--reach", "6", "--rate", "-3 °C/h"), 2, "expected a rate above 0");
        refused(cone("--reach", "6", "--rate", "100"), 2, "--rate");
        refused(cone("--reach", "6", "--hold", "-5 min"), 2, "expected a time of 0 or longer");
        refused(cone("--reach", "6", "--hold", "99999 h"), 2, "expected at most two days (48 h)");
        refused(cone("--reach", "14", "--series", "small"), 2, "from 022 to 12");
        refused(cone("--reach", "6", "--series", "huge"), 2, "self-supporting, large and small");
        refused(cone("--reach", "6", "--top", "5000 °C"), 2, "expected at most 1600 °C");
        refused(cone("--reach", "6", "--top", "900 °C"), 4, "no hold of up to two days");
        refused(cone("--reach", "6", "--top", "20 °C"), 4, "no hold of up to two days");
        refused(cone("--plan", "bisque", "--rate", "100 °C/h"), 2, "belong to --reach");
        refused(cone("--reach", "6", "--sensor", "X"), 2, "no thermocouple type");
        refused(cone("--reach", "6", "--sensor", "B", "--uncorrected", "max31855"), 2, "no MAX31855 for type B");
        refused(cone("--reach", "6", "--class", "7"), 2, "--class knows 1 and 2");
        assertThat(cone().exit()).isEqualTo(2);
    }

    private static void refused(Line line, int exit, String words) {
        assertThat(line.err()).contains(words).doesNotContain("Exception");
        assertThat(line.exit()).isEqualTo(exit);
        assertThat(line.err().strip().lines()).hasSize(1);
        assertThat(line.out()).isEmpty();
    }

    /** 150 °C/h to 1120 °C, 60 °C/h to 1222 °C, then falling at 200 °C/h. */
    private static double coneSix(int atS) {
        if (atS <= 26_400) {
            return 20 + atS / 24.0;
        }
        return atS <= TOP_S ? 1120 + (atS - 26_400) / 60.0 : 1222 - (atS - TOP_S) / 18.0;
    }

    private Path log(String name, int lengthS, IntToDoubleFunction temperatureC) throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int at = 0; at <= lengthS && (at <= TOP_S || temperatureC.applyAsDouble(at) > 100); at += 10) {
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", at, temperatureC.applyAsDouble(at)));
        }
        return Files.writeString(folder.resolve(name), text);
    }

    private static Line cone(String... arguments) {
        return Line.run("cone", new ConeCommand(), arguments);
    }
}
