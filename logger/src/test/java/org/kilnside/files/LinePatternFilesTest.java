package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;

class LinePatternFilesTest {
    private static final Path FOLDER = Path.of("..", "profiles", "line-patterns");

    @Test
    void everyPatternOfTheFolderIsRead() throws IOException {
        try (Stream<Path> files = Files.list(FOLDER)) {
            assertThat(files.map(LinePatternFiles::read)).hasSize(4);
        }
    }

    @Test
    void aPatternIsFoundByItsNameInTheOwnFolderAndAmongTheStarters(@TempDir Path own) throws IOException {
        Files.createDirectories(own.resolve("line-patterns"));
        Files.copy(FOLDER.resolve("keys.toml"), own.resolve("line-patterns").resolve("studio.toml"));
        ProfileLibrary library = ProfileLibrary.of(own);
        assertThat(library.linePatternNames()).containsExactly("columns", "expression", "json", "keys", "studio");
        assertThat(library.linePattern("studio")).isEqualTo(library.linePattern("keys"));
        assertThat(library.linePattern(FOLDER.resolve("json.toml").toString())).isEqualTo(library.linePattern("json"));
        assertThatThrownBy(() -> library.linePattern("colums"))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("did you mean \"columns\"");
    }

    /** The lines are those in the comments of the files. */
    @Test
    void aPatternThatIsSavedIsFoundByItsNameAndNeverWritesOverAnother(@TempDir Path own) {
        ProfileLibrary library = ProfileLibrary.of(own);
        LinePattern pattern = library.linePattern("columns")
                .named("my controller")
                .from(new Probe(ThermocoupleType.K, Amplifier.MAX31855));

        assertThat(library.saveLinePattern(pattern)).isEqualTo("my-controller");
        assertThat(library.saveLinePattern(pattern)).isEqualTo("my-controller");
        assertThat(library.linePattern("my-controller")).isEqualTo(pattern);
        LinePattern other = pattern.in("°F");
        assertThat(library.saveLinePattern(other)).isEqualTo("my-controller-2");
        assertThat(library.linePattern("my-controller")).isEqualTo(pattern);
        assertThat(library.saveLinePattern(pattern.named("columns"))).isEqualTo("columns-2");
        assertThat(library.saveLinePattern(pattern.named("../../☕"))).isEqualTo("my-controller-3");
    }

    @Test
    void theExamplesInTheFilesAreReadAsTheyClaim() {
        LinePatternReader.Said columns = read("columns", "5234,1043.2,1050,87");
        assertThat(columns.temperatureC()).isEqualTo(OptionalDouble.of(1043.2));
        assertThat(columns.setpointC()).isEqualTo(OptionalDouble.of(1050));
        assertThat(columns.output()).isEqualTo(OptionalDouble.of(0.87));
        assertThat(columns.uptimeMs()).isEqualTo(OptionalLong.of(5_234_000));

        assertThat(read("keys", "T=1043.2 SP=1050").setpointC()).isEqualTo(OptionalDouble.of(1050));

        LinePatternReader.Said json = read("json", "{\"temp\":{\"kiln\":10432,\"board\":241},\"out\":0.87}");
        assertThat(json.temperatureC().orElseThrow()).isBetween(1043.199, 1043.201);
        assertThat(json.coldJunctionC().orElseThrow()).isBetween(24.099, 24.101);
        assertThat(json.output()).isEqualTo(OptionalDouble.of(0.87));

        LinePatternReader.Said sentence = read("expression", "kiln is at 1910 F, relay ON");
        assertThat(sentence.temperatureC().orElseThrow()).isBetween(1043.3, 1043.4);
        assertThat(sentence.output()).isEqualTo(OptionalDouble.of(1));
    }

    @Test
    void aLineOfAnotherKindIsNotRead() {
        LinePatternReader reader = new LinePatternReader(LinePatternFiles.read(FOLDER.resolve("keys.toml")));
        assertThat(reader.read("ready")).isEmpty();
        assertThat(reader.read("")).isEmpty();
        assertThat(reader.read("T=hot")).isEmpty();
    }

    @Test
    void aTornThermocoupleIsALineWithoutATemperature() {
        LinePatternReader reader = new LinePatternReader(LinePatternFiles.read(FOLDER.resolve("columns.toml")));
        assertThat(reader.read("5234,nan,1050,87")).hasValueSatisfying(said -> {
            assertThat(said.temperatureC()).isEmpty();
            assertThat(said.setpointC()).isEqualTo(OptionalDouble.of(1050));
        });
    }

    @Test
    void numbersOutOfRangeAreNotSaid() {
        assertThat(read("columns", "5234,1043.2,1050,870").output()).isEmpty();
        LinePatternReader reader = new LinePatternReader(LinePatternFiles.read(FOLDER.resolve("columns.toml")));
        assertThat(reader.read("5234,99999,1050,87")).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "form = \"keys\"                               | \"name\" is missing",
                "name = \"x\"                                  | \"form\" is missing",
                "name = \"x\"\\nform = \"colums\"              | did you mean \"columns\"?",
                "name = \"x\"\\nform = \"columns\"             | \"separator\" is missing",
                "name = \"x\"\\nform = \"keys\"                | \"temperature\" is missing",
                "name = \"x\"\\nform = \"keys\"\\n[temperature]\\nat = \"T\" | \"unit\" is missing, expected °C or °F",
                "name = \"x\"\\nform = \"keys\"\\n[temperature]\\nunit = \"°C\" | \"at\" is missing",
                "name = \"x\"\\nform = \"keys\"\\n[temperature]\\nat = \"T\"\\nunit = \"K\" | expected °C or °F",
                "name = \"x\"\\nform = \"keys\"\\n[temperature]\\nat = \"T\"\\nunit = \"°C\"\\nscale = \"ten\" | such as \"0.1\"",
                "name = \"x\"\\nform = \"columns\"\\nseparator = \",\"\\n[temperature]\\nat = \"T\"\\nunit = \"°C\" | a column counted from 1",
                "name = \"x\"\\nform = \"expression\"\\nexpression = 'T=([0-9'\\n[temperature]\\nat = \"1\"\\nunit = \"°C\" | is no regular expression",
                "name = \"x\"\\nform = \"expression\"\\nexpression = 'T='\\n[temperature]\\nat = \"1\"\\nunit = \"°C\" | has no group in brackets",
                "nmae = \"x\"                                  | did you mean \"name\"?",
            })
    void aBadPatternIsRefusedWithItsPlaceAndASentence(String text, String sentence) {
        assertThatThrownBy(() -> LinePatternFiles.parse(text.replace("\\n", "\n"), "own.toml"))
                .isInstanceOfSatisfying(
                        FileRefusedException.class,
                        refused -> assertThat(refused.problems())
                                .anySatisfy(problem -> assertThat(problem.toString())
                                        .startsWith("own.toml:")
                                        .contains(sentence)));
    }

    /** An engine that backtracks needs 2³⁰ steps for this; RE2 reads each character once. */
    @Test
    void anExpressionThatHangsOtherEnginesDoesNotHangThisOne() {
        LinePattern pattern = LinePatternFiles.parse(
                "name = \"x\"\nform = \"expression\"\nexpression = '^(a+)+$'\n[temperature]\nat = \"1\"\nunit = \"°C\"\n",
                "own.toml");
        assertThat(new LinePatternReader(pattern).read("a".repeat(60) + "b")).isEmpty();
    }

    private static LinePatternReader.Said read(String file, String line) {
        return new LinePatternReader(LinePatternFiles.read(FOLDER.resolve(file + ".toml")))
                .read(line)
                .orElseThrow();
    }
}
