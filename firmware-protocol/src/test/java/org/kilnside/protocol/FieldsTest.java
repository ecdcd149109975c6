package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

/** Holds the codec's tables to the data files, which bind every codec. */
class FieldsTest {
    @Test
    void theFieldsAreThoseOfTheTable() throws IOException {
        List<String> table = new ArrayList<>();
        for (String[] row : rows("fields.csv")) {
            boolean text = row[4].equals("text");
            table.add(String.join(",", row[0], row[1], row[2], row[4], text ? "" : row[7], text ? "" : row[8], row[9]));
        }
        List<String> codec = new ArrayList<>();
        for (Field field : Field.values()) {
            codec.add(String.join(
                    ",",
                    String.valueOf(field.key),
                    field.kinds,
                    field.perChannel ? "yes" : "no",
                    field.text ? "text" : "integer",
                    field.text ? "" : String.valueOf(field.minimum),
                    field.text ? "" : String.valueOf(field.maximum),
                    field.unknown.isPresent() ? String.valueOf(field.unknown.getAsInt()) : ""));
        }
        assertThat(codec).containsExactlyInAnyOrderElementsOf(table);
    }

    @Test
    void whatStandsForUnknownLiesOutsideTheRange() {
        for (Field field : Field.values()) {
            assertThat(field.unknown.stream().filter(value -> value >= field.minimum && value <= field.maximum))
                    .isEmpty();
        }
    }

    @Test
    void theAmplifiersGiveTheCodesOfTheTable() throws IOException {
        List<String[]> rows = rows("amplifiers.csv");
        assertThat(rows.stream().map(row -> row[0]))
                .containsExactly(java.util.Arrays.stream(AmplifierCodes.values())
                        .map(Enum::name)
                        .toArray(String[]::new));
        for (String[] row : rows) {
            AmplifierCodes amplifier = AmplifierCodes.named(row[0]).orElseThrow();
            int low = Integer.parseInt(row[2]);
            int high = Integer.parseInt(row[3]);
            assertThat(amplifier.givesThermocouple(low)).isTrue();
            assertThat(amplifier.givesThermocouple(high)).isTrue();
            assertThat(amplifier.thermocouple(OptionalInt.of(low - 1))).isEmpty();
            assertThat(amplifier.thermocouple(OptionalInt.of(high + 1))).isEmpty();
            if (row[5].isEmpty()) {
                assertThat(amplifier.coldJunction(OptionalInt.of(0))).isEmpty();
            } else {
                assertThat(amplifier.givesColdJunction(Integer.parseInt(row[5])))
                        .isTrue();
                assertThat(amplifier.givesColdJunction(Integer.parseInt(row[6])))
                        .isTrue();
                assertThat(amplifier.coldJunction(OptionalInt.of(Integer.parseInt(row[5]) - 1)))
                        .isEmpty();
                assertThat(amplifier.coldJunction(OptionalInt.of(Integer.parseInt(row[6]) + 1)))
                        .isEmpty();
            }
        }
    }

    @Test
    void anAmplifierOfALaterVersionIsNotKnown() {
        assertThat(AmplifierCodes.named("MAX99999")).isEmpty();
    }

    private static List<String[]> rows(String file) throws IOException {
        return Files.readAllLines(Path.of(file)).stream()
                .skip(1)
                .map(line -> line.split(",", -1))
                .toList();
    }
}
