package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WeekCommandTest {
    @TempDir
    private Path folder;

    private static Line week(String... arguments) {
        String[] all = new String[arguments.length + 2];
        System.arraycopy(arguments, 0, all, 0, arguments.length);
        all[all.length - 2] = "--language";
        all[all.length - 1] = "en";
        return Line.run("week", new WeekCommand(), all);
    }

    private Path file(String text) throws IOException {
        return Files.writeString(folder.resolve("w.toml"), text);
    }

    @Test
    void saysWhetherAllAreInTimeThenEachFiringThenTheCautions() {
        Line said = week("cafe-friday", "--from", "2026-11-27 18:00");
        assertThat(said.err()).isEmpty();
        assertThat(said.exit()).isZero();
        List<String> lines = said.out().replace('\u00a0', ' ').lines().toList();
        assertThat(lines.get(0)).isEqualTo("For the café, in Tall Drum");
        assertThat(lines.get(1)).startsWith("  All in time: the last load is out Sun 6 Dec ");
        assertThat(lines.get(2))
                .startsWith("  Least to spare has Soup bowls, glazed: ")
                .endsWith(" before Fri 4 Dec 09:00.");
        assertThat(lines.get(3)).isEqualTo("  Look at the warnings about the plan first: Soup bowls, glazed.");
        assertThat(lines).anyMatch(line -> line.startsWith("1  Soup bowls, raw: Bisque, comes to cone 06"));
        assertThat(lines).anyMatch(line -> line.startsWith("2  Soup bowls, glazed: Mid-range glaze, comes to"));
        assertThat(lines).anyMatch(line -> line.startsWith("3  Planters, raw: Slow bisque"));
        assertThat(lines.get(lines.size() - 1)).contains("the kiln maker decides");
    }

    @Test
    void theSamePlansAndLoadsHaveTheSameTimesAsTheirOutlook() throws IOException {
        Path file = file("name = \"W\"\nkiln = \"tall-drum\"\nroom = \"2 °C\"\n[[load]]\nname = \"Bowls\"\n"
                + "plan = \"bisque\"\nweight = \"36 kg\"\nware = \"raw\"\nthickness = \"6 mm\"\npacked = true\n");
        String week =
                week(file.toString(), "--from", "2026-11-28 12:00", "--json").out();
        String outlook = Line.run(
                        "plan",
                        new PlanCommand(),
                        "outlook",
                        "bisque",
                        "--kiln",
                        "tall-drum",
                        "--ambient",
                        "2",
                        "--load-kg",
                        "36",
                        "--ware",
                        "raw",
                        "--thickness-mm",
                        "6",
                        "--json")
                .out();
        for (String key : List.of("top", "top_over", "crack", "unload")) {
            for (String end : List.of("at", "from", "to")) {
                double s = number(outlook, "\"" + key + "_s\":\\{[^}]*\"" + end + "\":([0-9.]+)");
                String moment = text(week, "\"" + key + "\":\\{[^}]*\"" + end + "\":\"([^\"]+)\"");
                long lit = OffsetDateTime.parse(text(week, "\"light\":\"([^\"]+)\""))
                        .toEpochSecond();
                assertThat(OffsetDateTime.parse(moment).toEpochSecond() - lit)
                        .as(key + " " + end)
                        .isBetween((long) s - 1, (long) s + 1);
            }
        }
        assertThat(text(week, "(\"energy_kwh\":\\{[^}]*})")).isEqualTo(text(outlook, "(\"energy_kwh\":\\{[^}]*})"));
    }

    @Test
    void writesOneJsonObjectWithWhatIsLateAndWhatElseWouldGive() {
        Line said = week("cafe-friday", "--from", "2026-11-30 08:00", "--json");
        assertThat(said.out().lines()).hasSize(1);
        assertThat(said.out())
                .startsWith("{\"week\":\"For the café\",\"kiln\":\"Tall Drum\",\"in_time\":false,\"out\":\"2026-12-")
                .contains("\"spare_s\":-")
                .contains("\"if_cool_at_probable\":{\"out\":\"2026-12-")
                .contains("\"if_top_alone\":{\"out\":\"2026-12-")
                .contains("\"firings\":[{\"load\":\"Soup bowls, raw\",\"plan\":\"bisque\",\"light\":\"2026-11-30T")
                .contains("\"light_by\":null")
                .contains("\"due\":\"2026-12-04T09:00:00")
                .endsWith("\"no_room\":[],\"cannot_know\":[]}\n");
    }

    @Test
    void earlierFiringsMakeTheRangesNarrower() throws IOException {
        Path file = file("name = \"W\"\nkiln = \"tall-drum\"\n[[load]]\nname = \"Bowls\"\nplan = \"bisque\"\n");
        String earlier = ForecastCommandTest.log(folder, "earlier.csv", 24).toString();
        String without =
                week(file.toString(), "--from", "2026-11-28 12:00", "--json").out();
        String with = week(file.toString(), "--from", "2026-11-28 12:00", "--json", "--earlier", earlier)
                .out();
        assertThat(unloadRangeS(with)).isLessThan(unloadRangeS(without));
        Line refused =
                week(file.toString(), "--earlier", folder.resolve("none.csv").toString());
        assertThat(refused.exit()).isEqualTo(3);
        assertThat(refused.err()).contains("none.csv");
    }

    private static long unloadRangeS(String json) {
        String unload = "\"unload\":\\{\"at\":\"[^\"]+\",\"from\":\"";
        return OffsetDateTime.parse(text(json, unload + "[^\"]+\",\"to\":\"([^\"]+)\""))
                        .toEpochSecond()
                - OffsetDateTime.parse(text(json, unload + "([^\"]+)\"")).toEpochSecond();
    }

    @Test
    void aWeekThatIsNoneIsRefusedWithItsLineAndWhatToDo() throws IOException {
        Line said = week(file("name = \"W\"\nkiln = \"tall-drum\"\ndue = \"soon\"\n[[load]]\nname = \"A\"\n"
                        + "plan = \"bisque\"\n")
                .toString());
        assertThat(said.exit()).isNotZero();
        assertThat(said.out()).isEmpty();
        assertThat(said.err())
                .contains("w.toml:3:")
                .contains("found \"soon\", expected a day and a time such as \"2026-12-04 09:00\"");
        assertThat(week("no-such-week").err()).contains("no-such-week").contains("cafe-friday");
        assertThat(week("cafe-friday", "--from", "noon").err())
                .contains("--from: found \"noon\", expected a day and a time");
        assertThat(week(file("name = \"W\"\nkiln = \"no-such\"\n[[load]]\nname = \"A\"\nplan = \"bisque\"\n")
                                .toString())
                        .err())
                .contains("w.toml: \"kiln\": no-such")
                .contains("tall-drum");
    }

    private static String text(String json, String pattern) {
        Matcher matcher = Pattern.compile(pattern).matcher(json);
        assertThat(matcher.find()).as(pattern + " in " + json).isTrue();
        return matcher.group(1);
    }

    private static double number(String json, String pattern) {
        return Double.parseDouble(text(json, pattern));
    }
}
