package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class JsonLinesTest {
    @Test
    void anObjectIsOneLineInTheOrderItWasFilled() {
        StringBuilder out = new StringBuilder();
        JsonLines lines = new JsonLines(out);
        lines.write(new JsonObject()
                .with("type", "K")
                .with("mv", 41.276)
                .with("temp_c", 1000.0049, 2)
                .with("count", 3)
                .with("reaches", true)
                .withNull("energy_kwh")
                .with("ambient_c", OptionalDouble.empty())
                .with("past", Optional.of(5), cone -> "cone " + cone)
                .with("from", new JsonObject().with("next", "6"))
                .with("below", List.of(new JsonObject().with("temp_c", 200), new JsonObject().with("temp_c", 120))));
        lines.write(new JsonObject().with("text", "a \"quoted\"\nline é"));
        assertThat(out).hasToString("""
                        {"type":"K","mv":41.276,"temp_c":1000.0,"count":3,"reaches":true,"energy_kwh":null,"ambient_c":null,"past":"cone 5","from":{"next":"6"},"below":[{"temp_c":200},{"temp_c":120}]}
                        {"text":"a \\"quoted\\"\\nline é"}
                        """);
    }

    @Test
    void secondsSince1970AreWrittenInDigits() {
        assertThat(new JsonObject()
                        .with("asked_s", 1_700_039_600.25, 1)
                        .with("at_s", Optional.of(1.7e9), at -> at)
                        .with("temp_c", 1222.0))
                .hasToString("{\"asked_s\":1700039600.2,\"at_s\":1700000000,\"temp_c\":1222.0}");
    }

    @Test
    void refusesWhatJsonCannotSay() {
        assertThatThrownBy(() -> new JsonObject().with("temp_c", Double.NaN)).hasMessageContaining("JSON has no NaN");
        assertThatThrownBy(() -> new JsonObject().with("tempC", 1)).hasMessageContaining("snake_case");
        assertThatThrownBy(() -> new JsonObject().with("a", 1).with("a", 2)).hasMessageContaining("there already");
    }
}
