package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Kiln;
import org.kilnside.schedule.Schedule;

/** What docs/plans.md and docs/logs.md show is read here as it stands there. */
class FileFormatDocsTest {
    private static final Path DOCS = Path.of("..", "docs");

    @Test
    void thePlansInTheDocsArePlans() throws IOException {
        List<String> plans = blocks("plans.md", "plan");
        assertThat(plans).hasSize(2);
        Schedule bisque = PlanFiles.parse(plans.get(0), "docs/plans.md");
        assertThat(bisque.segments()).hasSize(4);
        assertThat(bisque.aimsFor()).contains("cone 06");
        assertThat(PlanFiles.parse(plans.get(1), "docs/plans.md").isControlledCooling(2))
                .isTrue();
    }

    @Test
    void theRefusalsInTheDocsAreTheOnesGiven() throws IOException {
        String text = Files.readString(DOCS.resolve("plans.md"));
        String table = text.substring(text.indexOf("<!-- test: refusals -->"));
        Matcher rows =
                Pattern.compile("^\\| `(.+)` \\| (.+) \\|$", Pattern.MULTILINE).matcher(table);
        int count = 0;
        while (rows.find()) {
            String line = rows.group(1);
            String key = line.substring(0, line.indexOf(' '));
            StringBuilder plan = new StringBuilder("name = \"x\"\n[[segment]]\n" + line + "\n");
            plan.append(key.equals("rate") ? "" : "rate = \"80 °C/h\"\n");
            plan.append(key.equals("to") ? "" : "to = \"600 °C\"\n");
            assertThatThrownBy(() -> PlanFiles.parse(plan.toString(), "plan"))
                    .isInstanceOf(FileRefusedException.class)
                    .hasMessageContaining(rows.group(2));
            count++;
        }
        assertThat(count).isEqualTo(7);
    }

    @Test
    void theKilnInTheDocsIsAKiln() throws IOException {
        Kiln kiln = KilnFiles.parse(blocks("plans.md", "kiln").get(0), "docs/plans.md");
        assertThat(kiln.thresholds().source()).isEqualTo(Kiln.Thresholds.Source.MAKER);
        assertThat(kiln.sensors()).hasSize(1);
    }

    @Test
    void theLogsInTheDocsAreLogs() throws IOException {
        List<String> logs = blocks("logs.md", "log");
        assertThat(logs).hasSize(2);
        for (String text : logs) {
            Log log = CsvLogs.read(new StringReader(text), "docs/logs.md", ZoneOffset.UTC);
            assertThat(log.report().sentence()).isEmpty();
            assertThat(log.trace().temperatureC(0)).isEqualTo(8.25);
            assertThat(log.trace().output(1)).hasValue(0.355);
        }
    }

    @Test
    void theLinePatternsInTheDocsReadTheLinesBelowThem() throws IOException {
        String text = Files.readString(DOCS.resolve("line-patterns.md"));
        Matcher samples = Pattern.compile(
                        "<!-- test: pattern -->\\n```toml\\n(.*?)```\\n\\n<!-- test: line (\\S+) (\\S+) (\\S+) -->\\n"
                                + "```text\\n(.*?)\\n```",
                        Pattern.DOTALL)
                .matcher(text);
        int count = 0;
        while (samples.find()) {
            LinePattern pattern = LinePatternFiles.parse(samples.group(1), "docs/line-patterns.md");
            LinePatternReader.Said said =
                    new LinePatternReader(pattern).read(samples.group(5)).orElseThrow();
            assertSays(said.temperatureC(), samples.group(2));
            assertSays(said.setpointC(), samples.group(3));
            assertSays(said.output(), samples.group(4));
            count++;
        }
        assertThat(count).isEqualTo(4);
        for (LinePattern.Quantity quantity : LinePattern.Quantity.values()) {
            assertThat(text).contains("`[" + quantity.title() + "]`");
            if (quantity != LinePattern.Quantity.SEGMENT) {
                quantity.units().forEach(unit -> assertThat(text).contains("`" + unit + "`"));
            }
        }
        StarterProfiles.LINE_PATTERNS.forEach(name -> assertThat(text).contains("`" + name + "`"));
    }

    private static void assertSays(OptionalDouble said, String expected) {
        if (expected.equals("-")) {
            assertThat(said).isEmpty();
        } else {
            assertThat(said.orElseThrow()).isCloseTo(Double.parseDouble(expected), within(0.005));
        }
    }

    @Test
    void theDocsNameEveryKeyAndEveryColumn() throws IOException {
        String plans = Files.readString(DOCS.resolve("plans.md"));
        for (String key : List.of("name", "aims_for", "clay", "notes", "rate", "to", "hold", "cool")) {
            assertThat(plans).contains("`" + key + "`");
        }
        String logs = Files.readString(DOCS.resolve("logs.md"));
        for (String column : CsvHeader.KNOWN) {
            assertThat(logs).contains("`" + column + "`");
        }
    }

    private static List<String> blocks(String file, String kind) throws IOException {
        String text = Files.readString(DOCS.resolve(file));
        Matcher matcher = Pattern.compile("<!-- test: " + kind + " -->\\n```[a-z]+\\n(.*?)```", Pattern.DOTALL)
                .matcher(text);
        List<String> blocks = new ArrayList<>();
        while (matcher.find()) {
            blocks.add(matcher.group(1));
        }
        return blocks;
    }
}
