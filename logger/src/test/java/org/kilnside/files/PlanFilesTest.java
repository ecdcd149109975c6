package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

class PlanFilesTest {
    private static final String GOOD = """
            name = "Bisque"
            aims_for = "cone 06"
            clay = "Saltmarsh"

            [[segment]]          # slowly through the damp
            rate = "80 °C/h"
            to   = "600 °C"
            hold = "15 min"

            [[segment]]
            rate = "216 °F/h"
            to   = "1834 °F"

            [[segment]]
            cool = "free"
            """;

    @TempDir
    Path folder;

    @Test
    void readsAPlanAsItStands() {
        assertThat(PlanFiles.parse(GOOD, "bisque.toml"))
                .isEqualTo(new Schedule(
                        "Bisque",
                        Optional.of("cone 06"),
                        Optional.of("Saltmarsh"),
                        Optional.empty(),
                        List.of(
                                ramp(80, 600, 15),
                                new Segment.Ramp(
                                        HeatingRate.ofFahrenheitPerHour(216),
                                        Temperature.ofFahrenheit(1834),
                                        Duration.ZERO),
                                new Segment.FreeCooling())));
    }

    static List<Arguments> refusals() {
        String head = "name = \"x\"\n[[segment]]\n";
        String rest = "\nto = \"600 °C\"\n";
        return List.of(
                refusal(head + "rate = \"80\"" + rest, "p:3:8: \"rate\": found \"80\" without a unit"),
                refusal(head + "rate = 80" + rest, "p:3:8: \"rate\": found 80, expected it in quotes with its unit"),
                refusal(
                        head + "rate = 80 °C/h" + rest,
                        "the value of \"rate\" is not in quotes; write rate = \"80 °C/h\""),
                refusal(head + "rate = \"0 °C/h\"" + rest, "p:3:8: \"rate\" is 0"),
                refusal(head + "rate = \"-80 °C/h\"" + rest, "p:3:8: \"rate\" is below 0"),
                refusal(head + "rate = \"NaN °C/h\"" + rest, "p:3:8: \"rate\": found \"NaN °C/h\""),
                refusal(head + "rate = nan" + rest, "p:3:8: \"rate\": found NaN"),
                refusal(head + "rate = \"9999 °C/h\"" + rest, "p:3:8: \"rate\" is 9999 °C/h, expected 0.1 to 5000"),
                refusal(head + "to = \"600 °C\"\n", "p:2:1: segment 1 has no \"rate\""),
                refusal(head + "rate = \"80 °C/h\"\n", "p:2:1: segment 1 has no \"to\""),
                refusal(
                        head + "rate = \"80 °C/h\"\nto = \"2200 °C\"",
                        "p:4:6: \"to\" is 2200 °C, expected 0 to 1500 °C"),
                refusal(head + "rate = \"80 °C/h\"\nto = \"-5 °C\"", "p:4:6: \"to\" is -5 °C"),
                refusal(head + "rate = \"80 °C/h\"" + rest + "hold = \"-15 min\"", "p:5:8: \"hold\" is below 0"),
                refusal(head + "rate = \"80 °C/h\"" + rest + "hold = \"900 h\"", "p:5:8: \"hold\" is 900 h"),
                refusal(head + "rate = \"80 °C/h\"" + rest + "hold = 01:30:00", "p:5:8: \"hold\": found 01:30"),
                refusal(
                        head + "rate = \"80 °C/h\"" + rest + "hodl = \"1 h\"",
                        "p:5:1: unknown key \"hodl\"",
                        "did you mean \"hold\"?"),
                refusal(head + "rate = \"80 °C/h\"" + rest + "soak = \"1 h\"", "did you mean \"hold\"?"),
                refusal(
                        head + "rate = \"80 °C/h\"" + rest + "colour = \"red\"",
                        "p:5:1: unknown key \"colour\"",
                        "remove it"),
                refusal(
                        head + "cool = \"free\"\n[[segment]]\nrate = \"80 °C/h\"" + rest,
                        "p:3:8: free cooling is segment 1 of 2, expected it as the last"),
                refusal(head + "cool = \"free\"\n", "p:3:8: the plan has free cooling alone"),
                refusal(GOOD + "rate = \"1 °C/h\"\n", "p:16:8: \"rate\" and cool = \"free\" in one segment"),
                refusal(GOOD.replace("\"free\"", "\"fast\""), "p:15:8: \"cool\": found \"fast\", expected free"),
                refusal("[[segment]]\nrate = \"80 °C/h\"" + rest, "p:1:1: the plan has no name"),
                refusal("name = \" \"\n[[segment]]\nrate = \"80 °C/h\"" + rest, "p:1:8: \"name\" is empty"),
                refusal("name = 5\n[[segment]]\nrate = \"80 °C/h\"" + rest, "p:1:8: \"name\": found 5"),
                refusal("name = \"x\"\n", "p:1:1: the plan has no segments"),
                refusal("name = \"x\"\nsegment = []\n", "p:2:1: \"segment\" is not a list of tables"),
                refusal(
                        "name = \"x\"\n[segment]\nrate = \"80 °C/h\"" + rest,
                        "p:2:1: \"segment\" is not a list of tables; write a line [[segment]], with two brackets"),
                refusal(
                        "nam = \"x\"\n[[segment]]\nrate = \"80 °C/h\"" + rest,
                        "p:1:1: unknown key \"nam\"",
                        "did you mean \"name\"?"),
                refusal(
                        "aims_for = \"06\"\n" + head + "rate = \"80 °C/h\"" + rest,
                        "p:1:12: \"aims_for\": found \"06\", expected a cone"),
                refusal("aims_for = 6\n" + head + "rate = \"80 °C/h\"" + rest, "p:1:12: \"aims_for\": found 6"),
                refusal(
                        "name = \"x\"\nname = \"y\"\n",
                        "p:2:1: name previously defined at line 1, column 1; remove one of the two"),
                refusal("name = \"x\n", "p:1:10: a closing quote is missing"),
                refusal("elapsed_s,temp_c\n0,20\n", "p:1:10: this cannot be read as a plan"),
                refusal("a = " + "[".repeat(50_000), "brackets within brackets"),
                refusal("\u0001\u0002", "p:1:1: this cannot be read as a plan"));
    }

    @ParameterizedTest
    @MethodSource("refusals")
    void refusesWithOneSentenceAndItsPlace(String text, List<String> expected) {
        assertThatThrownBy(() -> PlanFiles.parse(text, "p"))
                .isInstanceOf(FileRefusedException.class)
                .satisfies(refusal -> assertThat(refusal.getMessage())
                        .contains(expected)
                        .doesNotContain("\n")
                        .doesNotContain("Exception"));
    }

    @Test
    void everyProblemIsFoundInOnePass() {
        String text =
                "name = \"x\"\n[[segment]]\nrate = \"0 °C/h\"\nto = \"600\"\n[[segment]]\nrate = \"5 °C/h\"\nheight = 3\n";
        assertThatThrownBy(() -> PlanFiles.parse(text, "p"))
                .isInstanceOfSatisfying(
                        FileRefusedException.class,
                        refusal -> assertThat(refusal.problems())
                                .extracting(FileRefusedException.Problem::line)
                                .containsExactly(3, 4, 5, 7))
                .hasMessageEndingWith("(and 3 more problems in this file)");
    }

    @Test
    void refusesFilesThatAreNoText() throws IOException {
        assertRefused(folder.resolve("gone.toml"), "there is no such file");
        assertRefused(folder, "this is a folder");
        assertRefused(file("empty.toml", new byte[0]), "this file is empty");
        assertRefused(file("blank.toml", " \n\n".getBytes(StandardCharsets.UTF_8)), "this file is empty");
        assertRefused(file("binary.toml", new byte[] {127, 69, 76, 70, 0, 1}), "this is a binary file");
        assertRefused(file("huge.toml", new byte[TextFile.LARGEST_BYTES + 1]), "larger than 256 kB");
        assertRefused(file("wide.toml", GOOD.getBytes(StandardCharsets.UTF_16)), "UTF-16 text, expected UTF-8");
        assertRefused(
                file("latin.toml", GOOD.getBytes(StandardCharsets.ISO_8859_1)),
                "latin.toml:6:12: the byte B0 is no UTF-8");
    }

    @Test
    void aByteOrderMarkAndWindowsLineEndsDoNotMatter() throws IOException {
        Path path = file("windows.toml", ("\ufeff" + GOOD.replace("\n", "\r\n")).getBytes(StandardCharsets.UTF_8));
        assertThat(PlanFiles.read(path)).isEqualTo(PlanFiles.parse(GOOD, "p"));
    }

    @Test
    void aWrittenPlanReadsBackTheSame() {
        Random random = new Random(7);
        for (int round = 0; round < 500; round++) {
            Schedule plan = anyPlan(random);
            Path path = folder.resolve("written.toml");
            PlanFiles.write(path, plan);
            assertThat(PlanFiles.read(path)).isEqualTo(plan);
        }
    }

    @Test
    void aPlanIsWrittenInTheUnitItIsRoundIn() {
        String text = PlanFiles.text(PlanFiles.parse(GOOD, "p"));
        assertThat(text).contains("rate = \"80 °C/h\"", "hold = \"15 min\"", "rate = \"120 °C/h\"", "to = \"1834 °F\"");
    }

    @Test
    void aPlanThatCannotBeWrittenIsSaidAndTheOldOneStays() throws IOException {
        Schedule plan = PlanFiles.parse(GOOD, "p");
        assertThatThrownBy(() -> PlanFiles.write(folder.resolve("nowhere/plan.toml"), plan))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("there is no folder");
        Path path = file("plan.toml", "old".getBytes(StandardCharsets.UTF_8));
        PlanFiles.write(path, plan);
        try (var left = Files.list(folder)) {
            assertThat(left).as("no half-written file stays behind").containsExactly(path);
        }
    }

    @Test
    void noTextWhateverItIsEscapesAsAnythingButARefusal() {
        Random random = new Random(11);
        String letters = "name = \"x\"\n[]{}'#.,°C/h min 0123456789\\\u0000é€😀\t\r";
        for (int round = 0; round < 3000; round++) {
            StringBuilder text = new StringBuilder(GOOD);
            for (int edit = 0; edit < 1 + random.nextInt(6); edit++) {
                int at = random.nextInt(text.length());
                char c = letters.charAt(random.nextInt(letters.length()));
                if (random.nextBoolean()) {
                    text.insert(at, c);
                } else {
                    text.deleteCharAt(at);
                }
            }
            try {
                assertThat(PlanFiles.parse(text.toString(), "p").segments()).isNotEmpty();
            } catch (FileRefusedException refusal) {
                assertThat(refusal.getMessage()).startsWith("p:").doesNotContain("\n");
            }
        }
    }

    private static Schedule anyPlan(Random random) {
        List<Segment> segments = new ArrayList<>();
        int count = 1 + random.nextInt(6);
        for (int i = 0; i < count; i++) {
            boolean fahrenheit = random.nextBoolean();
            double number = random.nextBoolean() ? 1 + random.nextInt(400) : 1 + 400 * random.nextDouble();
            segments.add(new Segment.Ramp(
                    fahrenheit ? HeatingRate.ofFahrenheitPerHour(number) : HeatingRate.ofKelvinPerHour(number),
                    fahrenheit ? Temperature.ofFahrenheit(32 + 5 * number) : Temperature.ofCelsius(3 * number),
                    Duration.ofMillis(
                            random.nextBoolean() ? random.nextInt(600) * 60_000L : random.nextInt(90_000_000))));
        }
        if (random.nextBoolean()) {
            segments.add(new Segment.FreeCooling());
        }
        return new Schedule(
                "\"Quoted\" \\ name " + random.nextInt(),
                random.nextBoolean() ? Optional.of("cone 5.5") : Optional.empty(),
                random.nextBoolean() ? Optional.of("Grey Ash") : Optional.empty(),
                random.nextBoolean() ? Optional.of("Two lines,\n\"quoted\"\n\nand a last one") : Optional.empty(),
                segments);
    }

    private static Segment ramp(double kelvinPerHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(toC),
                Duration.ofMinutes(holdMinutes));
    }

    private static Arguments refusal(String text, String... expected) {
        return Arguments.of(text, List.of(expected));
    }

    private Path file(String name, byte[] content) throws IOException {
        return Files.write(folder.resolve(name), content);
    }

    private static void assertRefused(Path path, String expected) {
        assertThatThrownBy(() -> PlanFiles.read(path))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageStartingWith(path.toString())
                .hasMessageContaining(expected);
    }
}
