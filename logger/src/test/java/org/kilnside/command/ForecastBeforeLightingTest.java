package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ForecastBeforeLightingTest {
    private static Line forecast(String plan, String... arguments) {
        List<String> all = new ArrayList<>(List.of("--plan", plan));
        all.addAll(List.of(arguments));
        return Line.run("forecast", new ForecastCommand(), all.toArray(String[]::new));
    }

    @Test
    void aTemperatureThePlanNeverPassesIsSaidToBeNeverPassed() {
        Line said = forecast("candling", "--below", "120", "--language", "en");
        assertThat(said.out()).contains("Never above 120 °C.").doesNotContain("Below 120 °C");
        assertThat(forecast("candling", "--below", "120", "--json").out())
                .contains("{\"temp_c\":120.0,\"at_s\":null,\"from_s\":null,\"to_s\":null}")
                .contains("never above 120 °C");
    }

    @Test
    void whatEveryKilnReachesIsNotInDoubt() {
        assertThat(forecast("candling", "--language", "en").out()).doesNotContain("cannot be said");
        assertThat(forecast("candling", "--json").out()).contains("\"target_c\":80.0,\"reaches\":true");
    }

    @ParameterizedTest
    @CsvSource({"candling,", "bisque,", "bisque, tall-drum", "mid-range-glaze, tall-drum"})
    void whetherTheTopIsReachedTheOutlookJudgesAlike(String plan, String kiln) {
        List<String> named = kiln == null ? List.of() : List.of("--kiln", kiln);
        List<String> asked = new ArrayList<>(List.of("outlook", plan, "--json"));
        asked.addAll(named);
        String outlook = Line.run("plan", new PlanCommand(), asked.toArray(String[]::new))
                .out();
        List<String> more = new ArrayList<>(named);
        more.add("--json");
        assertThat(reaches(forecast(plan, more.toArray(String[]::new)).out())).isEqualTo(reaches(outlook));
    }

    private static String reaches(String json) {
        Matcher found = Pattern.compile("\"reaches\":(\\w+)").matcher(json);
        assertThat(found.find()).as(json).isTrue();
        return found.group(1);
    }
}
