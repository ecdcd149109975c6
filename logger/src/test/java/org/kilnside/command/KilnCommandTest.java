package org.kilnside.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.Book;
import org.kilnside.book.BookRecorder;
import org.kilnside.book.NotedCone;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.session.FiringBook.FiringStart;

/** The kiln's history on the command line, beside a book with one glaze firing of it. */
class KilnCommandTest {
    private static final Instant BEGAN = Instant.parse("2026-11-20T06:30:00Z");
    private static final Probe PROBE = new Probe(ThermocoupleType.K, Amplifier.MAX31856);

    @TempDir
    private Path folder;

    private Path path;

    /** 150 °C/h to 1222 °C, 15 min there, and down at 100 °C/h. */
    @BeforeEach
    void record() {
        path = folder.resolve("firing.book");
        try (BookRecorder recorder = BookRecorder.open(path)) {
            long number = recorder.begin(new FiringStart(
                    Optional.of("Tall Drum"),
                    "serial:/dev/ttyUSB0",
                    BEGAN,
                    Optional.empty(),
                    Optional.empty(),
                    ConeSeries.USUAL));
            recorder.sensors(number, 0, List.of(PROBE));
            int top = (int) Math.round((1222 - 20) / 150.0 * 360);
            for (int i = 0; i < top + 90 + 3_600; i++) {
                double celsius =
                        i < top ? 20 + i * 150 / 360.0 : i < top + 90 ? 1222 : 1222 - (i - top - 90) * 100 / 360.0;
                recorder.append(number, reading(i * 10_000L, celsius));
            }
            recorder.end(number, (top + 90 + 3_600) * 10_000L);
        }
    }

    private static Reading reading(long elapsedMs, double celsius) {
        RawSignal raw = RawSignal.of((int) Math.round(celsius * 128), 20 * 64);
        Channel channel = new Channel(
                1, raw, Optional.of(Temperature.ofCelsius(celsius)), Optional.of(Temperature.ofCelsius(20)));
        return Reading.of(elapsedMs, List.of(channel), ControllerReport.NONE, Origin.LIVE);
    }

    private Line kiln(String... words) {
        return Line.run("kiln", new KilnCommand(), withBook(words));
    }

    private Line book(String... words) {
        return Line.run("book", new BookCommand(), withBook(words));
    }

    private String[] withBook(String... words) {
        return Stream.concat(Arrays.stream(words), Stream.of("--book", path.toString()))
                .toArray(String[]::new);
    }

    @Test
    void aKilnIsShownWithItsSettingsAndSensors() {
        assertThat(kiln(
                                "fit",
                                "Tall Drum",
                                "--type",
                                "K",
                                "--amplifier",
                                "MAX31856",
                                "--class",
                                "1",
                                "--sensor",
                                "fitted in spring",
                                "--place",
                                "left wall",
                                "--since",
                                "2026-03-20")
                        .exit())
                .isZero();
        kiln("compare", "Tall Drum", "--reads", "0 °C", "--true", "1 °C", "--within", "0.5", "--with", "fixed_point");
        kiln("compare", "tall-drum", "--reads", "1000 °C", "--true", "1011 °C", "--within", "3");
        String shown = kiln("show", "tall-drum", "--language", "en").out();
        assertThat(shown)
                .contains("5.6 kW", "120 °C (common practice", "fitted in spring, left wall; type K, MAX31856, class 1")
                .contains(
                        "Comparison 1: at 0 °C add +1 °C, give or take 0.5 °C",
                        "Comparison 2: at 1000 °C add +11 °C, give or take 3 °C (against a thermometer)");
        assertThat(kiln("show", "tall-drum", "--json").out())
                .contains("\"corrections\":[{\"reads_c\":0.0,\"add_c\":1.0,\"within_c\":0.5},{\"reads_c\":1000.0")
                .contains("\"thresholds_from\":\"common_practice\"");
        assertThat(kiln("strike", "Tall Drum", "2").exit()).isZero();
        assertThat(kiln("show", "tall-drum", "--language", "en").out()).doesNotContain("Comparison 2");
        assertThat(kiln("move", "Tall Drum", "lid").exit()).isZero();
        assertThat(kiln("show", "tall-drum", "--json").out()).contains("\"place\":\"lid\"", "\"corrections\":[]");
    }

    @Test
    void wrongWordsGetASentence() {
        assertThat(kiln("compare", "Tall Drum", "--reads", "1000 °C").err()).contains("say what it read and what was");
        assertThat(kiln("compare", "Tall Drum", "--offset", "8").err()).contains("was told of no sensor on channel 1");
        assertThat(kiln("fit", "Tall Drum", "--type", "K", "--amplifier", "MAX31856", "--since", "spring")
                        .err())
                .contains("expected a day such as 2026-03-20");
        assertThat(kiln("fit", "Tall Drum", "--type", "K", "--amplifier", "CELSIUS", "--shows", "AD8495")
                        .err())
                .contains("--shows knows MAX31855");
        assertThat(kiln("fit", "Tall Drum", "--type", "B", "--amplifier", "MAX31855")
                        .err())
                .contains("there is no MAX31855 for type B");
        assertThat(kiln("fit", "Tall Drum", "--type", "S", "--amplifier", "CELSIUS", "--shows", "MAX6675")
                        .err())
                .contains("there is no MAX6675 for type S");
        assertThat(kiln("fit", "Tall Drum", "--type", "K", "--amplifier", "MAX31856", "--shows", "MAX6675")
                        .err())
                .contains("shows its number or the temperature");
        kiln("fit", "Tall Drum", "--type", "K", "--amplifier", "MAX31856");
        assertThat(kiln("compare", "Tall Drum", "--reads", "100 °C", "--true", "1000 °C")
                        .err())
                .contains("is none a sensor needs");
        assertThat(kiln("strike", "Tall Drum", "9").err()).contains("no comparison 9");
        assertThat(kiln("show", "No Such").exit()).isNotZero();
        assertThat(Line.run("kiln", new KilnCommand(), "set", "Tall Drum", "colour=red")
                        .err())
                .contains("expected a setting and its value");
    }

    @Test
    void aFiringIsShownAndReviewedByTheConesItWasJudgedBy() {
        assertThat(book("show", "1", "--language", "en").out())
                .containsPattern("\\bcone 6 \\(1222 °C\\)")
                .doesNotContain("large cone");
        String noted = book("witness", "1", "top 6:90", "--series", "large", "--language", "en")
                .out();
        assertThat(noted).contains("large cone 6 (1220 °C)");
        assertThat(book("witness", "1", "low 5:150", "--language", "en").exit()).isZero();
        try (Book book = Book.open(path)) {
            assertThat(book.witnessCones(1)).extracting(NotedCone::series).containsOnly(ConeSeries.LARGE);
        }
        assertThat(book("show", "1", "--language", "en").out())
                .contains("large cone")
                .doesNotContainPattern("(?<!large )cone \\d");
        String[] review = withBook("1", "--plan", "mid-range-glaze", "--language", "en");
        assertThat(Line.run("review", new ReviewCommand(), review).out()).contains("large cone");
        String[] json = withBook("1", "--plan", "mid-range-glaze", "--language", "en", "--json");
        assertThat(Line.run("review", new ReviewCommand(), json).err()).contains("kilnside: 1: judged by large cones");
    }

    @Test
    void aKindOfConeThatIsNoneIsRefusedInASentence() {
        Line wrong = Line.run("kiln", new KilnCommand(), "set", "Tall Drum", "series=tiny");
        assertThat(wrong.exit()).isNotZero();
        assertThat(wrong.err()).contains("found \"tiny\", expected self-supporting or large or small");
    }

    /** How the offset follows from the cones is tested where it is worked out; here, that it reaches the person. */
    @Test
    void witnessConesAreNotedShelfByShelfAndTheBookGoesByThem() {
        String before = book("show", "1", "--language", "en").out();
        Line noted = book("witness", "1", "middle 6:170 7:150 8:60", "--language", "en");
        assertThat(noted.out())
                .contains("middle", "cone 8", "bent 60°")
                .containsPattern("They say: add [+−]\\d+ °C to what the sensor reads at 1222 °C");
        assertThat(noted.exit()).isZero();
        String after = book("show", "1", "--language", "en").out();
        assertThat(before).doesNotContain("Corrected by");
        assertThat(after).contains("Corrected by what is known of the sensor");
        assertThat(before).contains("reached 1222 °C");
        assertThat(after).doesNotContain("reached 1222 °C").containsPattern("reached 12\\d\\d °C");
        assertThat(book("witness", "1", "--strike", "2", "--language", "en").out())
                .doesNotContain("cone 7")
                .contains("cone 8");
        assertThat(book("witness", "1", "middle 6:200").err()).contains("expected 0 (upright) to 180");
        assertThat(book("witness", "1", "--strike", "77").err()).contains("has no cone of the number 77");
        assertThat(book("witness", "5", "6:90").err()).contains("no firing 5");
    }
}
