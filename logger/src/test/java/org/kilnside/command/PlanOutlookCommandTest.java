package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PlanOutlookCommandTest {
    @TempDir
    private Path folder;

    private static Line outlook(String... arguments) {
        String[] all = new String[arguments.length + 3];
        all[0] = "outlook";
        System.arraycopy(arguments, 0, all, 1, arguments.length);
        all[all.length - 2] = "--language";
        all[all.length - 1] = "en";
        return Line.run("plan", new PlanCommand(), all);
    }

    @Test
    void saysConeTimesEnergyAndCostWithTheirIntervalsAndTheCaution() {
        Line said = outlook("mid-range-glaze", "--kiln", "tall-drum", "--load-kg", "35");
        assertThat(said.err()).isEmpty();
        assertThat(said.exit()).isZero();
        assertThat(said.out())
                .contains("cone 6 (1222 °C)")
                .contains("nine in ten")
                .contains("to crack the lid")
                .contains("kWh")
                .contains("EUR")
                .contains("One sensor; the ware inside is hotter; the kiln maker decides.");
    }

    @Test
    void writesOneJsonObjectWithUnitsInItsKeys() {
        Line said = outlook("bisque", "--kiln", "tall-drum", "--wanted", "04", "--json");
        assertThat(said.out().lines()).hasSize(1);
        assertThat(said.out())
                .startsWith(
                        "{\"plan\":\"bisque\",\"series\":\"self-supporting\",\"cone\":{\"past\":\"06\",\"next\":\"05\",\"fraction\":")
                .contains("\"top_s\":{\"at\":")
                .contains("\"unload_s\":{\"at\":")
                .contains("\"energy_kwh\":{\"at\":")
                .contains("\"currency\":\"EUR\"")
                .contains("\"wanted\":{\"cone\":\"04\",\"top_c\":{\"at\":105")
                .contains("\"not_known\":[\"kiln_never_seen\",\"load\",\"ware\"]");
    }

    /** A plan's cone with no kiln named, and what its kiln's outlook says of it when nothing is known of the kiln. */
    @ParameterizedTest
    @CsvSource({
        "100, 1000, 0, free",
        "60, 1222, 10, free",
        "300, 1222, 0, free",
        "150, 1222, 5, 80",
        "150, 1222, 5, 500"
    })
    void ofAKilnNobodyKnowsItSaysTheConeAndTheCoolingThatThePlanAloneIsTold(
            String rate, String top, String hold, String cooling) throws IOException {
        String down = cooling.equals("free")
                ? ""
                : "[[segment]]\nrate = \"" + cooling + " °C/h\"\nto = \"1000 °C\"\nhold = \"20 min\"\n";
        Path plan = Files.writeString(
                folder.resolve("plan.toml"),
                "name = \"P\"\n[[segment]]\nrate = \"" + rate + " °C/h\"\nto = \"" + top + " °C\"\nhold = \"" + hold
                        + " min\"\n" + down + "[[segment]]\ncool = \"free\"\n");
        String outlook = outlook(plan.toString(), "--json").out();
        String alone = Line.run("cone", new ConeCommand(), "--json", "--plan", plan.toString())
                .out();
        for (String number : List.of("fraction", "cooling_added", "cooling_added_from", "cooling_added_to")) {
            assertThat(number(outlook, number)).as(number).isCloseTo(number(alone, number), within(0.03));
        }
        assertThat(text(outlook, "past")).isEqualTo(text(alone, "past"));
        if (!cooling.equals("free")) {
            double rest = number(alone, "cooling_added");
            boolean planned = cooling.equals("80");
            assertThat(number(alone, "cooling_added_to") - number(alone, "cooling_added_from"))
                    .as("a cooling the plan drives is no kiln's own")
                    .isBetween(planned ? -0.001 : 0.02, planned ? 0.02 * rest : 0.3);
        }
    }

    @Test
    void aKilnThatWasNeverSeenToCoolCoolsAsOneNobodyKnows() throws IOException {
        String unknown = outlook("mid-range-glaze", "--json").out();
        String heatedOnly = outlook(
                        "mid-range-glaze", "--earlier", earlier("hot.csv", 10).toString(), "--json")
                .out();
        String cooled = outlook(
                        "mid-range-glaze", "--earlier", earlier("all.csv", 36).toString(), "--json")
                .out();
        assertThat(number(heatedOnly, "fraction")).isCloseTo(number(unknown, "fraction"), within(0.03));
        assertThat(heatedOnly).doesNotContain("kiln_never_seen").contains("\"cooling_added_from\":0.");
        assertThat(cooled).contains("\"cooling_added_from\":null");
    }

    /** Heated for ten hours, then cooling with a time constant of five. */
    private Path earlier(String name, int hours) throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c,output_pct\n");
        for (int s = 0; s <= hours * 3600; s += 60) {
            double h = s / 3600.0;
            double celsius = h < 10 ? 15 + 1000 * h / 10 : 15 + 1000 * Math.exp(-(h - 10) / 5.0);
            text.append(String.format(Locale.ROOT, "%d,%.2f,%.0f%n", s, celsius, h < 10 ? 20 + 6 * h : 0));
        }
        return Files.writeString(folder.resolve(name), text);
    }

    /** The first number of a name in a JSON object. */
    private static double number(String json, String name) {
        return Double.parseDouble(found(json, "\"" + name + "\":([-\\d.E]+)"));
    }

    private static String text(String json, String name) {
        return found(json, "\"" + name + "\":\"([^\"]*)\"");
    }

    private static String found(String json, String pattern) {
        Matcher matcher = Pattern.compile(pattern).matcher(json);
        assertThat(matcher.find()).as(pattern + " in " + json).isTrue();
        return matcher.group(1);
    }

    @Test
    void aRashPlanIsWarnedOfWithItsSegmentAndReason() throws IOException {
        Path rash = Files.writeString(
                folder.resolve("rash.toml"),
                "name = \"Rash\"\n[[segment]]\nrate = \"300 °C/h\"\nto = \"1290 °C\"\n[[segment]]\ncool = \"free\"\n");
        Line said = outlook(rash.toString(), "--kiln", "tall-drum", "--ware", "raw", "--thickness-mm", "20");
        assertThat(said.out())
                .contains(
                        "! Segment 1: 300 °C/h is faster than the kiln may heat: at most 250 °C/h (kiln maker's sheet).")
                .contains("! Segment 1: 1290 °C is above the kiln's limit, 1260 °C (kiln maker's sheet).")
                .contains("where water boils; at most")
                .contains("raw ware is not held below 100 °C at all");
    }

    @Test
    void whatCommonPracticeAsksForIsSaidNoFinerThanCommonPracticeIs() {
        Line said = outlook("bisque", "--ware", "raw", "--thickness-mm", "15");
        // Common practice: half-way from thin to thick, 2 to 12 h of candling and 100 to 50 °C/h through steam.
        assertThat(said.out())
                .contains("raw ware is held 2 h below 100 °C; for its thickness 7 h (common practice)")
                .doesNotContainPattern("at most \\d*[1-9] °C/h");
        assertThat(outlook("bisque", "--ware", "raw", "--thickness-mm", "20").out())
                .contains("80 °C/h through 100 °C, where water boils; at most 60 °C/h");
    }

    @Test
    void warningsHaveTheirNumbersInJson() throws IOException {
        Path rash = Files.writeString(
                folder.resolve("rash.toml"),
                "name = \"Rash\"\naims_for = \"cone 6\"\n[[segment]]\nrate = \"300 °C/h\"\nto = \"1290 °C\"\n");
        Line said = outlook(rash.toString(), "--kiln", "tall-drum", "--json");
        assertThat(said.out())
                .contains("{\"kind\":\"above_limit\",\"segment\":1,\"basis\":\"kiln_maker\",\"found_c\":1290.0,"
                        + "\"limit_c\":1260.0,\"text\":")
                .contains("\"kind\":\"too_fast\",\"segment\":1,\"basis\":\"kiln_maker\",\"passage\":\"whole_segment\","
                        + "\"rate_c_per_h\":300.0,\"limit_c_per_h\":250.0");
    }

    @Test
    void earlierFiringsOfTheKilnSharpenTheAnswer() throws IOException {
        Path log = earlier("log.csv", 36);
        Line said = outlook("bisque", "--earlier", log.toString(), "--json");
        assertThat(said.exit()).isZero();
        assertThat(said.out()).doesNotContain("kiln_never_seen");
    }

    @Test
    void anEarlierLogWithoutAFiringDoesNotCountAndThatIsSaid() throws IOException {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int s = 0; s <= 6 * 3600; s += 60) {
            text.append(String.format(Locale.ROOT, "%d,%.2f%n", s, 15 + s / 86_400.0));
        }
        Path log = Files.writeString(folder.resolve("never.csv"), text);
        Line said = outlook("bisque", "--earlier", log.toString(), "--json");
        assertThat(said.exit()).isZero();
        assertThat(said.err())
                .contains("the earlier logs hold no heating or cooling to know the kiln by, and do not count");
        assertThat(said.out()).contains("kiln_never_seen");
    }

    @Test
    void refusesAWantedConeThatDoesNotExist() {
        Line said = outlook("bisque", "--wanted", "66");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains("--wanted: there is no cone \"66\"");
    }

    @Test
    void refusesAThermocoupleThatNeverGetsThere() {
        Line said = outlook("bisque", "--sensor", "T");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err())
                .contains("a thermocouple of type T goes to 400 °C")
                .hasLineCount(1);
        assertThat(said.out()).isEmpty();
    }

    @Test
    void refusesALoadThatCanOnlyBeASlip() {
        Line said = outlook("bisque", "--load-kg", "-3");
        assertThat(said.exit()).isEqualTo(2);
        assertThat(said.err()).contains("--load-kg: found -3, expected 0.1 to 5000 kg");
    }
}
