package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.IntToDoubleFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ReviewCommandTest {
    private static final int TOP_S = 26_400 + 6_120;

    @TempDir
    private Path folder;

    @Test
    void saysTheVerdictWithTheContractsKeysInTheirOrder() throws IOException {
        Path log = log("glaze.csv", at -> glaze(at, 1208, 600));
        String out = review(log.toString(), "--plan", plan(), "--wanted", "6", "--json")
                .out();
        assertThat(out)
                .startsWith("{\"log\":\"" + log + "\",\"plan_reaches\":{\"past\":\"6\",\"next\":\"7\",\"fraction\":")
                .containsPattern(
                        "\"reached\":\\{\"past\":\"5\",\"next\":\"6\",\"fraction\":[0-9.]+},\"short_of_plan\":[0-9.]+,"
                                + "\"from\":[-0-9.]+,\"to\":[0-9.]+,\"wanted\":\"6\",\"short_of_wanted\":0.02,\"shares\":\\[\\{")
                .containsPattern("\"shares\":\\[\\{\"code\":\"top_low\",\"cones\":[0-9.]+,\"detail\":\"top 14 °C lower")
                .contains("\"causes\":[{\"code\":\"top_low\",\"sure\":\"")
                .contains("\"evidence\":[\"")
                .contains("\"advice\":[\"");
        assertThat(out.lines()).hasSize(1);
    }

    @Test
    void thePartsAddUp() throws IOException {
        Path log = log("short.csv", at -> glaze(at, 1208, 60));
        String out = review(log.toString(), "--plan", plan(), "--json").out();
        double sum = 0;
        Matcher cones = Pattern.compile("\"cones\":([-0-9.]+)").matcher(out);
        while (cones.find()) {
            sum += Double.parseDouble(cones.group(1));
        }
        Matcher whole = Pattern.compile("\"short_of_plan\":([-0-9.]+)").matcher(out);
        assertThat(whole.find()).isTrue();
        assertThat(sum).isCloseTo(Double.parseDouble(whole.group(1)), org.assertj.core.api.Assertions.within(0.03));
    }

    @Test
    void saysItInThreeLanguages() throws IOException {
        Path log = log("glaze.csv", at -> glaze(at, 1208, 600));
        assertThat(review(log.toString(), "--plan", plan(), "--language", "en").out())
                .startsWith("About ")
                .contains("short of its plan")
                .contains("The top was lower than planned")
                .contains("absorption test");
        assertThat(review(log.toString(), "--plan", plan(), "--language", "nl").out())
                .contains("onder het plan");
        assertThat(review(log.toString(), "--plan", plan(), "--language", "de").out())
                .contains("unter dem Plan");
    }

    @Test
    void callsAFiringThatFollowedItsPlanAsPlanned() throws IOException {
        Path log = log("clean.csv", at -> glaze(at, 1222, 600));
        assertThat(review(log.toString(), "--plan", plan(), "--json").out())
                .contains("\"causes\":[{\"code\":\"as_planned\"");
    }

    @Test
    void ofTwoFiringsInALogTheLastIsReviewedAndThatIsSaid() throws IOException {
        int secondS = 150_000;
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        StringBuilder alone = new StringBuilder("elapsed_s,temp_c\n");
        for (int at = 0; at <= secondS + TOP_S + 15_000; at += 60) {
            double celsius = at < secondS ? glaze(at, 1250, 1200) : glaze(at - secondS, 1208, 600);
            String row = String.format(Locale.ROOT, "%d,%.2f%n", at, celsius);
            text.append(row);
            alone.append(at < secondS ? "" : row);
        }
        Path both = Files.writeString(folder.resolve("both.csv"), text);
        Path second = Files.writeString(folder.resolve("second.csv"), alone);
        Line said = review(both.toString(), "--plan", plan(), "--language", "en");
        assertThat(said.out())
                .isEqualTo(review(second.toString(), "--plan", plan(), "--language", "en")
                        .out());
        assertThat(said.err()).contains("it holds 2 firings; the last is reviewed");
    }

    @Test
    void saysWhereThereIsNoFiringOrNoConeToReview() throws IOException {
        Path cold = log("cold.csv", at -> 15.25);
        assertThat(review(cold.toString(), "--plan", plan(), "--language", "en").out())
                .isEqualToIgnoringNewLines("These readings show no firing: the kiln hardly warmed.");
        assertThat(review(cold.toString(), "--plan", plan(), "--language", "nl").out())
                .startsWith("In deze metingen is niet gestookt");
        Line json = review(cold.toString(), "--plan", plan(), "--wanted", "6", "--json", "--language", "en");
        assertThat(json.exit()).isZero();
        assertThat(json.err()).contains("show no firing: the kiln hardly warmed");
        assertThat(json.out())
                .contains("\"reached\":null,\"short_of_plan\":null,\"from\":null,\"to\":null,\"wanted\":\"6\","
                        + "\"short_of_wanted\":null,\"shares\":[],\"causes\":[],\"advice\":[]");
        Path drying = log("drying.csv", at -> Math.min(90, 15 + at / 60.0));
        assertThat(review(drying.toString(), "--plan", plan(), "--language", "en")
                        .out())
                .startsWith("No cone is down yet where the log ends: there is no finished firing to review.")
                .doesNotContain("Next time");
        Path down = log("down.csv", at -> 20 + 490 * Math.exp(-at / 24_000.0));
        assertThat(review(down.toString(), "--plan", plan(), "--language", "en").out())
                .startsWith("The top was not seen, and no cone can be named from these readings. The plan comes to ")
                .doesNotContain("cones short");
    }

    @Test
    void saysThatNoThermocoupleOfTheTypeNamedCameSoFar() throws IOException {
        Path log = log("glaze.csv", at -> glaze(at, 1222, 600));
        assertThat(review(log.toString(), "--plan", plan(), "--sensor", "T").err())
                .contains("the log goes to 1222 °C, and a thermocouple of type T to 400 °C");
        assertThat(review(log.toString(), "--plan", plan()).err()).isEmpty();
    }

    @Test
    void refusesWhatItCannotRead() throws IOException {
        Path log = log("glaze.csv", at -> glaze(at, 1222, 600));
        refused(review(log.toString()), 2, "--plan");
        refused(review(log.toString(), "--plan", plan(), "--wanted", "15"), 2, "there is no cone \"15\"");
        refused(review(log.toString(), "--plan", plan(), "--witness", "middle"), 2, "there is no cone");
        refused(review(log.toString(), "--plan", plan(), "--witness", "middle 6:200"), 2, "0 (upright) to 180");
        refused(review(log.toString(), "--plan", plan(), "--witness", "middle 6:30 6:40"), 2, "stands twice");
        refused(review(log.toString(), "--plan", plan(), "--witness", "6@21:10"), 2, "does not tell the time of day");
        refused(
                review(log.toString(), "--plan", plan(), "--witness", "top 6:90", "--witness", "top 6:10"),
                2,
                "cone 6 of the shelf \"top\" is given twice");
        refused(review(log.toString(), "--plan", plan(), "--witness", "top 6:-5"), 2, "found \"6:-5\"");
        refused(review(log.toString(), "--plan", plan(), "--witness", "top 6"), 2, "found \"6\"");
        refused(review(folder.resolve("none.csv").toString(), "--plan", plan()), 3, "there is no such file");
    }

    private static void refused(Line line, int exit, String words) {
        assertThat(line.err()).contains(words).doesNotContain("Exception");
        assertThat(line.exit()).isEqualTo(exit);
        assertThat(line.err().strip().lines()).hasSize(1);
        assertThat(line.out()).isEmpty();
    }

    /** 150 °C/h to 1120 °C, 60 °C/h to the top, so long there, then falling as a kiln of usual size does. */
    private static double glaze(int atS, double topC, int holdS) {
        if (atS <= 26_400) {
            return 20 + atS / 24.0;
        }
        int topS = 26_400 + (int) ((topC - 1120) * 60);
        if (atS <= topS) {
            return 1120 + (atS - 26_400) / 60.0;
        }
        return atS <= topS + holdS ? topC : 20 + (topC - 20) * Math.exp(-(atS - topS - holdS) / 21_600.0);
    }

    private String plan() throws IOException {
        return Files.writeString(folder.resolve("plan.toml"), """
                        name = "Glaze"
                        [[segment]]
                        rate = "150 °C/h"
                        to = "1120 °C"
                        [[segment]]
                        rate = "60 °C/h"
                        to = "1222 °C"
                        hold = "10 min"
                        [[segment]]
                        cool = "free"
                        """).toString();
    }

    private Path log(String name, IntToDoubleFunction temperatureC) throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int at = 0; at <= TOP_S + 15_000; at += 10) {
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", at, temperatureC.applyAsDouble(at)));
        }
        return Files.writeString(folder.resolve(name), text);
    }

    private static Line review(String... arguments) {
        return Line.run("review", new ReviewCommand(), arguments);
    }
}
