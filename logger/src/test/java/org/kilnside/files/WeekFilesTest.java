package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.outlook.Ware;
import org.kilnside.week.Attendance;
import org.kilnside.week.Load;
import org.kilnside.week.Span;
import org.kilnside.week.Week;

class WeekFilesTest {
    private static final ZoneId ZONE = ZoneId.of("Europe/Amsterdam");
    private static final Path DOCS = Path.of("..", "docs", "week.md");
    private static final Path EXAMPLE = Path.of("..", "profiles", "weeks", "cafe-friday.toml");

    @TempDir
    private Path folder;

    private static Instant at(String local) {
        return LocalDateTime.parse(local).atZone(ZONE).toInstant();
    }

    private static Week parse(String text) {
        return WeekFiles.parse(
                text, "my-week.toml", new WeekFiles.Setting(ProfileLibrary.starters(), at("2026-11-28T12:00"), ZONE));
    }

    private static final String LEAST =
            "name = \"W\"\nkiln = \"tall-drum\"\n[[load]]\nname = \"Bowls\"\nplan = \"bisque\"\n";

    @Test
    void theExampleIsAWeekWithEveryThingInItRead() throws IOException {
        Week week = parse(Files.readString(EXAMPLE));
        assertThat(week.name()).isEqualTo("For the café");
        assertThat(week.kiln()).isEqualTo("tall-drum");
        assertThat(week.room().orElseThrow().celsius()).isEqualTo(2);
        assertThat(week.packing()).isEqualTo(Duration.ofMinutes(90));
        assertThat(week.there().hours()).hasSize(1);
        assertThat(week.loads())
                .extracting(Load::name)
                .containsExactly("Soup bowls, raw", "Soup bowls, glazed", "Planters, raw");
        Load glazed = week.loads().get(1);
        assertThat(glazed.after()).contains(new Load.After("Soup bowls, raw", Duration.ofHours(24)));
        assertThat(glazed.due()).contains(at("2026-12-04T09:00"));
        assertThat(glazed.kg()).hasValue(38);
        assertThat(glazed.ware().state()).contains(Ware.State.GLAZED);
        assertThat(week.loads().get(2).ware().thicknessMm()).hasValue(14);
    }

    @Test
    void theLeastAWeekNeedsIsANameAKilnAndALoadWithItsPlan() {
        Week week = parse(LEAST);
        assertThat(week.there()).isEqualTo(Attendance.ALWAYS);
        assertThat(week.packing()).isEqualTo(Week.USUAL_PACKING);
        assertThat(week.topAlone()).isFalse();
        assertThat(week.due()).isEmpty();
    }

    @Test
    void aWeekIsReadBackAsItIsWritten() {
        Week week = parse("""
                name = "With \\"quotes\\" and a \\\\"
                kiln = "tall-drum"
                room = "40 °F"
                due = "2026-12-06 20:00"
                kiln_free = "Sat 18:30"
                top_alone = true
                packing = "45 min"
                [[there]]
                days = "Mon-Fri"
                from = "17:30"
                to = "24:00"
                [[there]]
                days = "Sat, Sun"
                from = "8:00"
                to = "23:15"
                [[away]]
                from = "Wed 08:00"
                to = "Thu 20:00"
                [[load]]
                name = "Bowls"
                plan = "bisque"
                weight = "80 lb"
                ware = "raw"
                thickness = "0.3 in"
                limit = "1060 °C"
                ready = "Sun 09:00"
                packed = true
                [[load]]
                name = "Bowls again"
                plan = "mid-range-glaze"
                after = "Bowls"
                drying = "1 h 30 min"
                due = "Fri 09:00"
                """);
        assertThat(week.loads().get(0).kg().orElseThrow()).isCloseTo(36.287, within(0.001));
        assertThat(week.loads().get(0).ware().thicknessMm().orElseThrow()).isCloseTo(7.62, within(1e-9));
        assertThat(week.there().hours().get(0).to()).isEqualTo("00:00");
        assertThat(parse(WeekFiles.text(week))).isEqualTo(week);
        assertThat(parse(WeekFiles.text(parse(LEAST)))).isEqualTo(parse(LEAST));
    }

    @Test
    void theWeekInTheDocsIsAWeekAndEveryKeyIsNamed() throws IOException {
        String docs = Files.readString(DOCS);
        Matcher block = Pattern.compile("<!-- test: week -->\\n```toml\\n(.*?)```", Pattern.DOTALL)
                .matcher(docs);
        assertThat(block.find()).isTrue();
        assertThat(parse(block.group(1)).loads()).hasSizeGreaterThan(1);
        for (String key : new String[] {
            "name",
            "kiln",
            "room",
            "due",
            "kiln_free",
            "top_alone",
            "packing",
            "[[there]]",
            "[[away]]",
            "[[load]]",
            "days",
            "from",
            "to",
            "plan",
            "weight",
            "ware",
            "thickness",
            "limit",
            "ready",
            "after",
            "drying",
            "packed"
        }) {
            assertThat(docs).contains("`" + key + "`");
        }
    }

    @Test
    void theRefusalsInTheDocsAreTheOnesGiven() throws IOException {
        String docs = Files.readString(DOCS);
        String table = docs.substring(docs.indexOf("<!-- test: refusals -->"));
        Matcher rows = Pattern.compile("^\\| `(.+)` \\| (.+) \\|$", Pattern.MULTILINE)
                .matcher(table.substring(0, table.indexOf("\n## ")));
        int count = 0;
        while (rows.find()) {
            String line = rows.group(1);
            boolean ofLoad = !line.startsWith("kiln") && !line.startsWith("room");
            String without = LEAST.replaceFirst("(?m)^" + line.split(" ", 2)[0] + " = .*\n", "");
            String text = ofLoad ? LEAST + line + "\n" : line + "\n" + without;
            String expected = rows.group(2);
            assertThatThrownBy(() -> parse(text))
                    .as(line)
                    .isInstanceOf(FileRefusedException.class)
                    .hasMessageContaining(expected);
            count++;
        }
        assertThat(count).isEqualTo(6);
    }

    @Test
    void everyProblemIsNamedWithItsLine() {
        assertThatThrownBy(
                        () -> parse("name = \"W\"\ndeadline = \"Fri 09:00\"\n[[load]]\nname = \"A\"\nplan = \"bisqe\"\n"
                                + "[[load]]\nname = \"A\"\nplan = \"bisque\"\nkg = \"38\"\n"))
                .isInstanceOfSatisfying(FileRefusedException.class, refused -> {
                    assertThat(refused.problems())
                            .extracting(FileRefusedException.Problem::line)
                            .containsExactly(1, 2, 5, 9);
                    assertThat(refused.problems())
                            .extracting(FileRefusedException.Problem::sentence)
                            .satisfiesExactly(
                                    noKiln -> assertThat(noKiln).contains("has no kiln"),
                                    due -> assertThat(due).contains("did you mean \"due\""),
                                    plan -> assertThat(plan).contains("did you mean \"bisque\""),
                                    kg -> assertThat(kg).contains("did you mean \"weight\""));
                });
    }

    @Test
    void loadsThatWaitForEachOtherOrForNothingThereAreRefused() {
        String two = "name = \"W\"\nkiln = \"tall-drum\"\n[[load]]\nname = \"A\"\nplan = \"bisque\"\nafter = \"%s\"\n"
                + "drying = \"1 h\"\n[[load]]\nname = \"B\"\nplan = \"bisque\"\nafter = \"%s\"\ndrying = \"1 h\"\n";
        assertThatThrownBy(() -> parse(String.format(two, "B", "A"))).hasMessageContaining("waits for itself");
        assertThatThrownBy(() -> parse(String.format(two, "A", "A"))).hasMessageContaining("waits for itself");
        assertThatThrownBy(() -> parse(String.format(two, "Bols", "A")))
                .hasMessageContaining("no load is called \"Bols\"; there are B");
    }

    @Test
    void whoeverIsAwayNowMaySoSayByTheNameOfTheDay() {
        // At noon on Saturday the 28th.
        Week week = parse(LEAST + "[[away]]\nfrom = \"Sat 08:00\"\nto = \"Sun 20:00\"\n");
        assertThat(week.there().away()).containsExactly(new Span(at("2026-11-28T08:00"), at("2026-11-29T20:00")));
        assertThatThrownBy(() -> parse(LEAST + "[[away]]\nfrom = \"2026-12-02 08:00\"\nto = \"2026-12-01 08:00\"\n"))
                .hasMessageContaining("\"to\" is not after \"from\"");
    }

    @Test
    void namesTwicePackedTwiceAndTooManyAreRefused() {
        String load = "[[load]]\nname = \"A%d\"\nplan = \"bisque\"\n";
        assertThatThrownBy(() -> parse(LEAST + "[[load]]\nname = \"Bowls\"\nplan = \"bisque\"\n"))
                .hasMessageContaining("two loads are called \"Bowls\"");
        assertThatThrownBy(() -> parse(LEAST + "packed = true\n" + String.format(load, 1) + "packed = true\n"))
                .hasMessageContaining("two loads are packed");
        StringBuilder many = new StringBuilder(LEAST);
        for (int i = 0; i < 8; i++) {
            many.append(String.format(load, i));
        }
        assertThatThrownBy(() -> parse(many.toString())).hasMessageContaining("9 loads, expected at most 8");
    }

    @Test
    void theLibraryFindsAPersonsOwnWeekAndTheExample() throws IOException {
        Files.createDirectories(folder.resolve("weeks"));
        Files.writeString(folder.resolve("weeks/my-week.toml"), LEAST);
        ProfileLibrary library = ProfileLibrary.of(folder);
        assertThat(library.weekNames()).containsExactly("cafe-friday", "my-week");
        assertThat(library.week("my-week", at("2026-11-28T12:00"), ZONE).name()).isEqualTo("W");
        assertThat(library.week("cafe-friday", at("2026-11-28T12:00"), ZONE).name())
                .isEqualTo("For the café");
        assertThatThrownBy(() -> library.week("my-weak", at("2026-11-28T12:00"), ZONE))
                .hasMessageContaining("did you mean \"my-week\"");
    }
}
