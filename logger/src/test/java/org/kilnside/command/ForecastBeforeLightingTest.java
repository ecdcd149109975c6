package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

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
}
