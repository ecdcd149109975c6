package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** No cone and no forecast is worked out of a sensor that lies without that being said. Curves drawn by hand. */
class SensorDoubtsTest {
    private static final String STILL = "The number stands still";

    @TempDir
    private Path folder;

    /** 150 °C/h to 1220 °C at 8 h, a quarter of an hour there, then down. */
    private static double firing(int atS) {
        double h = atS / 3600.0;
        return h < 8 ? 20 + 150 * h : h < 8.25 ? 1220 : 20 + 1200 * Math.exp(-(h - 8.25) / 5);
    }

    private String cone(IntToDoubleFunction celsius, double noiseK, double hours) throws IOException {
        return Line.run("cone", new ConeCommand(), log(celsius, noiseK, hours).toString(), "--json", "--language", "en")
                .out();
    }

    private String forecast(IntToDoubleFunction celsius, double noiseK, double hours) throws IOException {
        return Line.run(
                        "forecast",
                        new ForecastCommand(),
                        log(celsius, noiseK, hours).toString(),
                        "--json",
                        "--language",
                        "en")
                .out();
    }

    private Path log(IntToDoubleFunction celsius, double noiseK, double hours) throws IOException {
        Random random = new Random(8);
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        double still = Double.NaN;
        for (int s = 0; s <= hours * 3600; s += 10) {
            double truth = celsius.applyAsDouble(s);
            double shown = Double.isNaN(truth) ? still : truth + noiseK * random.nextGaussian();
            still = shown;
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", s, shown));
        }
        return Files.writeString(folder.resolve("log.csv"), text);
    }

    @Test
    void aSensorThatFrozeOnTheWayUpIsSaidBesideConeAndForecast() throws IOException {
        IntToDoubleFunction frozen = at -> at > 6 * 3600 ? Double.NaN : firing(at);
        assertThat(cone(frozen, 0.3, 6.3))
                .contains(STILL + " (after 6 h): do not trust what is worked out of this log");
        assertThat(forecast(frozen, 0.3, 6.3))
                .contains(STILL)
                .contains("\"at_s\":null")
                .doesNotContainPattern("at_s\":[0-9]");
    }

    @Test
    void theDoubtIsSaidBeforeTheConeItIsOf() throws IOException {
        String log =
                log(at -> at > 6 * 3600 ? Double.NaN : firing(at), 0.3, 6.3).toString();
        assertThat(Line.run("cone", new ConeCommand(), log, "--language", "en").out())
                .startsWith(log + ": " + STILL)
                .containsSubsequence("do not trust", "cone 09");
    }

    @Test
    void aSensorThatFrozeOverTheTopIsSaidEvenAfterItHasComeBack() throws IOException {
        assertThat(cone(at -> at > 7 * 3600 && at < 9 * 3600 ? Double.NaN : firing(at), 0.3, 12))
                .contains(STILL);
    }

    @Test
    void aHoldThatStandsStillIsNoFrozenSensor() throws IOException {
        assertThat(cone(SensorDoubtsTest::firing, 0, 12)).contains("\"notes\":[]");
        assertThat(cone(at -> Math.rint(firing(at)), 0, 12)).contains("\"notes\":[]");
        assertThat(cone(SensorDoubtsTest::firing, 0, 8.2)).doesNotContain(STILL);
    }

    @Test
    void aSoundSensorIsLeftInPeace() throws IOException {
        assertThat(cone(SensorDoubtsTest::firing, 0.5, 20)).contains("\"notes\":[]");
        assertThat(forecast(SensorDoubtsTest::firing, 0.5, 12)).doesNotContain("do not trust");
    }

    @Test
    void exchangedLeadsAreSaidWhereNoBoardIsTold() throws IOException {
        IntToDoubleFunction reversed = at -> 20 - (firing(at) - 20) / 10;
        assertThat(cone(reversed, 0.3, 8)).contains("wires are swapped");
        assertThat(forecast(reversed, 0.3, 8)).contains("wires are swapped");
    }

    @Test
    void aNumberNoKilnComesToIsSaidAndSoIsATablesEnd() throws IOException {
        assertThat(cone(at -> Math.min(1768.1, 20 + 4 * (firing(at) - 20)), 0, 12))
                .contains("The number cannot be the kiln's");
        assertThat(cone(at -> Math.min(1372, 20 + 1.4 * (firing(at) - 20)), 0, 12))
                .contains("The sensor is at its highest number");
    }

    /** What froze when all had long been down, or lay near the room, took nothing from the cone. */
    @Test
    void whatBeganInTheCoolingFarBelowTheTopIsNoDoubtOfTheCone() throws IOException {
        assertThat(cone(at -> at > 14 * 3600 ? Double.NaN : firing(at), 0.3, 16))
                .contains("\"notes\":[]");
        assertThat(forecast(at -> at > 14 * 3600 ? Double.NaN : firing(at), 0.3, 16))
                .contains(STILL);
    }

    /** A slip that costs the output its meaning, and no more: whoever wrote a share for percent has a sound sensor. */
    @Test
    void anOutputWrittenAsAShareMakesNoLiarOfTheSensor() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c,output_pct\n");
        Random random = new Random(8);
        for (int s = 0; s <= 12 * 3600; s += 10) {
            double share = s < 8 * 3600 ? 0.2 + 0.8 * s / (8 * 3600.0) : s < 8.25 * 3600 ? 0.6 : 0;
            text.append(
                    String.format(Locale.ROOT, "%d,%.2f,%.2f%n", s, firing(s) + 0.3 * random.nextGaussian(), share));
        }
        Path log = Files.writeString(folder.resolve("share.csv"), text);
        assertThat(Line.run("cone", new ConeCommand(), log.toString(), "--json").out())
                .contains("\"notes\":[]");
    }

    /** Lines as far apart as a relay's window meet it off each time; where the two drift apart they meet a little of it. */
    @Test
    void anOutputThatReadsNothingWhileTheKilnClimbsMakesNoLiarOfTheSensor() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c,output_pct,setpoint_c\n");
        Random random = new Random(8);
        for (int s = 0; s <= 12 * 3600; s += 60) {
            double share = s > 5 * 3600 && s < 8.25 * 3600 ? 100 * (s / 3600.0 - 5) / 9 : 0;
            text.append(String.format(
                    Locale.ROOT,
                    "%d,%.2f,%.1f,%.1f%n",
                    s,
                    firing(s) + 0.3 * random.nextGaussian(),
                    share,
                    s < 8.25 * 3600 ? firing(s) : 0));
        }
        Path log = Files.writeString(folder.resolve("relay.csv"), text);
        assertThat(Line.run("cone", new ConeCommand(), log.toString(), "--json", "--language", "en")
                        .out())
                .contains("\"notes\":[]");
        assertThat(Line.run("forecast", new ForecastCommand(), log.toString(), "--json", "--language", "en")
                        .out())
                .contains("the output reads nothing while the kiln climbs on")
                .doesNotContain("cannot be the kiln's");
    }
}
