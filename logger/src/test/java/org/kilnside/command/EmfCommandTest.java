package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

class EmfCommandTest {
    /** Published: 41.276 mV at 1000 °C (NIST Monograph 175). */
    @Test
    void givesTheVoltageOfATemperature() {
        assertThat(emf("", "K", "--temp", "1000").out()).isEqualToIgnoringNewLines("type K  1000.000 °C  41.2756 mV");
    }

    @Test
    void givesOneJsonObjectAValue() {
        assertThat(emf("", "k", "--temp", "-50", "--temp", "0", "--json").out().lines())
                .hasSize(2)
                .first()
                .asString()
                .startsWith("{\"type\":\"K\",\"mv\":-1.889")
                .endsWith(",\"temp_c\":-50.0}");
    }

    /** Published: 1.000 mV at 25 °C, 42.276 mV at 1025.8 °C (NIST Monograph 175). */
    @Test
    void addsTheColdEndsVoltageAndNotItsTemperature() {
        assertThat(emf("", "K", "--mv", "41.276", "--cold", "25", "--json").out())
                .startsWith("{\"type\":\"K\",\"mv\":41.276,\"temp_c\":1025.7")
                .contains("\"cold_c\":25.0");
    }

    @Test
    void answersEveryLineOfStandardInputAndSaysWhyWhereItCannot() {
        List<String> answers = emf("\uFEFF1000\nabc\n\n1400\n\u221250\n", "K", "--temp", "-", "--json")
                .out()
                .lines()
                .toList();
        assertThat(answers).hasSize(5);
        assertThat(answers.get(0)).contains("\"temp_c\":1000.0");
        assertThat(answers.get(1))
                .isEqualTo(
                        "{\"type\":\"K\",\"mv\":null,\"temp_c\":null,\"reason\":\"found \\\"abc\\\", expected a number"
                                + " with a decimal point, such as 1000\"}");
        assertThat(answers.get(3))
                .isEqualTo(
                        "{\"type\":\"K\",\"mv\":null,\"temp_c\":1400.0,\"reason\":\"type K is defined from -270 to 1372"
                                + " °C, found 1400 °C\"}");
        assertThat(answers.get(4)).contains("\"temp_c\":-50.0");
        assertThat(emf("60\n41.276\n", "K", "--mv", "-").out().lines().toList())
                .satisfiesExactly(
                        first -> assertThat(first).startsWith("null  type K gives"),
                        second -> assertThat(second).startsWith("type K  1000.0"));
    }

    @Test
    void aStreamThatHoldsNothingToAnswerIsRefused() {
        refused(emf("", "K", "--temp", "-"), 3, "standard input: found no line at all, expected numbers, one a line");
        refused(emf("", "K", "--mv", "-"), 3, "found no line at all");
        Line none = emf("abc\n2000\n", "K", "--temp", "-", "--json");
        assertThat(none.exit()).isEqualTo(3);
        assertThat(none.err())
                .contains("found nothing to answer in what was read (lines: 2)")
                .hasLineCount(1);
        assertThat(none.out().lines()).hasSize(2);
        assertThat(emf("abc\n20\n", "K", "--temp", "-").exit()).isZero();
    }

    @Test
    void refusesWhatItCannotAnswerInOneSentence() {
        refused(emf("", "K", "--mv", "60"), 3, "--mv: type K gives -6.458 to 54.886 mV");
        refused(emf("", "B", "--mv", "-0.002"), 3, "50 to 1820 °C");
        refused(emf("", "K", "--mv", "54", "--cold", "100"), 3, "the cold end's 4.096 mV included");
        refused(emf("", "K", "--mv", "1", "--cold", "2000"), 3, "--cold: type K is defined from");
        refused(emf("", "Q", "--temp", "20"), 2, "there is no thermocouple type \"Q\"");
        refused(emf("", "K", "--temp", "NaN"), 2, "found \"NaN\", expected a number");
        refused(emf("", "K", "--temp", "1e999"), 2, "expected a number");
        assertThat(emf("", "K").exit()).isEqualTo(2);
        assertThat(emf("", "K", "--temp", "1", "--mv", "1").exit()).isEqualTo(2);
    }

    private static void refused(Line line, int exit, String words) {
        assertThat(line.exit()).isEqualTo(exit);
        assertThat(line.err()).contains(words).doesNotContain("Exception");
        assertThat(line.err().strip().lines()).hasSize(1);
        assertThat(line.out()).isEmpty();
    }

    private static Line emf(String input, String... arguments) {
        return Line.run(
                "emf", new EmfCommand(new ByteArrayInputStream(input.getBytes(StandardCharsets.UTF_8))), arguments);
    }

    @Test
    void standardInputThatCannotBeReadIsSaidInOneSentence() {
        Line said = Line.run(
                "emf",
                new EmfCommand(new InputStream() {
                    @Override
                    public int read() throws IOException {
                        throw new IOException("Is a directory");
                    }
                }),
                "K",
                "--temp",
                "-");
        assertThat(said.exit()).isEqualTo(3);
        assertThat(said.err())
                .contains("standard input could not be read (Is a directory), expected numbers, one a line")
                .doesNotContain("unforeseen");
    }
}
