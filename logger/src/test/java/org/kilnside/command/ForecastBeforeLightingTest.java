package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What {@code forecast} says of a plan that is not lit yet. */
class ForecastBeforeLightingTest {
    @TempDir
    private Path folder;

    @Test
    void beforeLightingItIsTheOutlooksAnswer() throws IOException {
        String earlier = ForecastCommandTest.log(folder, "earlier.csv", 24).toString();
        Line forecast = Line.run(
                "forecast",
                new ForecastCommand(),
                "--plan",
                "bisque",
                "--kiln",
                "tall-drum",
                "--earlier",
                earlier,
                "--load-kg",
                "30",
                "--below",
                "120,50",
                "--json");
        assertThat(forecast.err()).isEmpty();
        assertThat(forecast.exit()).isZero();
        Line outlook = Line.run(
                "plan",
                new PlanCommand(),
                "outlook",
                "bisque",
                "--kiln",
                "tall-drum",
                "--earlier",
                earlier,
                "--load-kg",
                "30",
                "--json");
        assertThat(forecast.out()).contains("\"stage\":\"waiting\"").contains("\"log\":null,\"asked_s\":0.0");
        for (String when : List.of("crack_s", "unload_s", "top_s")) {
            for (String edge : List.of("at", "from", "to")) {
                String said = number(outlook.out(), "\"" + when + "\":\\{[^}]*\"" + edge + "\":");
                String field =
                        when.equals("top_s") ? "\"target_c\":[^}]*" : when.equals("crack_s") ? "120.0," : "50.0,";
                assertThat(Double.parseDouble(number(forecast.out(), field + "[^}]*?\"" + edge + "_s\":")))
                        .isCloseTo(Double.parseDouble(said), within(0.6));
            }
        }
        Map.of("at", "energy_kwh", "from", "energy_from_kwh", "to", "energy_to_kwh")
                .forEach((edge, key) -> assertThat(number(forecast.out(), "\"" + key + "\":"))
                        .isEqualTo(number(outlook.out(), "\"energy_kwh\":\\{[^}]*\"" + edge + "\":")));
    }

    @Test
    void aLoadIsTakenBeforeLightingEvenWhereItCannotCountYetAndThatIsSaid() throws IOException {
        Line said = Line.run(
                "forecast",
                new ForecastCommand(),
                "--plan",
                "bisque",
                "--earlier",
                ForecastCommandTest.log(folder, "earlier.csv", 24).toString(),
                "--load-kg",
                "30",
                "--language",
                "en");
        assertThat(said.exit()).isZero();
        assertThat(said.out())
                .contains("Not lit yet.")
                .contains("nine in ten")
                .contains("the load's weight does not count")
                .contains("One sensor; the ware inside is hotter; the kiln maker decides.");
    }

    @Test
    void whatItWillTakeIsSaidWithItsRange() throws IOException {
        Line said = Line.run(
                "forecast",
                new ForecastCommand(),
                "--plan",
                "bisque",
                "--kiln",
                "tall-drum",
                "--load-kg",
                "30",
                "--language",
                "en");
        assertThat(said.out()).containsPattern("Takes \\d+ kWh \\(\\d+ to \\d+\\)\\.");
    }

    @Test
    void aTopOutElementsDoNotBearIsLeftOutAndThatIsSaid() throws IOException {
        String earlier = ForecastCommandTest.log(folder, "earlier.csv", 24).toString();
        assertThat(tallDrumOf("8", earlier))
                .containsPattern("\"tops_out_c\":\\d")
                .doesNotContain("elements melt");
        assertThat(tallDrumOf("60", earlier))
                .contains("\"tops_out_c\":null,\"tops_out_from_c\":null,\"tops_out_to_c\":null")
                .contains("above 1500 °C, and elements melt before that");
    }

    private static String tallDrumOf(String kilowatts, String earlier) {
        return Line.run(
                        "forecast",
                        new ForecastCommand(),
                        "--plan",
                        "bisque",
                        "--kiln",
                        "tall-drum",
                        "--earlier",
                        earlier,
                        "--power-kw",
                        kilowatts,
                        "--json",
                        "--language",
                        "en")
                .out();
    }

    private static String number(String json, String before) {
        Matcher found = Pattern.compile(before + "([0-9.]+)").matcher(json);
        assertThat(found.find()).as(before + " in " + json).isTrue();
        return found.group(1);
    }
}
