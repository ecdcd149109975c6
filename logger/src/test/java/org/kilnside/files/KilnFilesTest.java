package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kilnside.alarm.AlarmLimits;
import org.kilnside.firing.AlarmThresholds;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Kiln.Thresholds.Source;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.Volume;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;

class KilnFilesTest {
    private static final Kiln TALL_DRUM = new Kiln(
            "Tall Drum",
            Optional.of(Volume.ofLitres(68)),
            Optional.of(Power.ofKilowatts(5.6)),
            Optional.of(Kiln.Wall.BRICK),
            Kiln.Opening.LID,
            Optional.of("the red switch beside the studio door"),
            Optional.of(new Kiln.Tariff(0.30, "EUR")),
            new Kiln.Limits(Optional.of(Temperature.ofCelsius(1260)), Optional.of(HeatingRate.ofKelvinPerHour(250))),
            Kiln.Thresholds.COMMON_PRACTICE,
            List.of(new Kiln.Sensor(
                    new Probe(ThermocoupleType.K, Amplifier.MAX31855),
                    Optional.of("through the wall, middle of the chamber"))),
            Optional.of(new Kiln.CutOut(true, Optional.of(Temperature.ofCelsius(1290)))),
            AlarmThresholds.USUAL,
            ConeSeries.SELF_SUPPORTING);

    @TempDir
    Path folder;

    @Test
    void readsTheKilnOfTheScenario() {
        assertThat(ProfileLibrary.starters().kiln("tall-drum")).isEqualTo(TALL_DRUM);
    }

    @Test
    void aNameIsEnoughAndTheRestIsUnknown() {
        assertThat(KilnFiles.parse("name = \"Tall Drum\"", "k")).isEqualTo(Kiln.named("Tall Drum"));
    }

    @Test
    void whoseOpinionTheThresholdsAreIsKept() {
        assertThat(thresholds("crack = \"100 °C\"").source()).isEqualTo(Source.POTTER);
        assertThat(thresholds("crack = \"120 °C\"\nunload = \"50 °C\"").source())
                .isEqualTo(Source.COMMON_PRACTICE);
        assertThat(thresholds("crack = \"120 °C\"\nunload = \"50 °C\"\nfrom_maker = true")
                        .source())
                .isEqualTo(Source.MAKER);
    }

    @Test
    void aWrittenKilnReadsBackTheSame() {
        Kiln full = new Kiln(
                "Kiln \"two\"",
                TALL_DRUM.volume(),
                Optional.of(new Power(5123.4)),
                Optional.of(Kiln.Wall.LAYERED),
                Kiln.Opening.DOOR,
                Optional.empty(),
                Optional.of(new Kiln.Tariff(0.305, "EUR")),
                TALL_DRUM.limits(),
                new Kiln.Thresholds(Temperature.ofFahrenheit(200), Temperature.ofCelsius(45), Source.MAKER),
                List.of(
                        TALL_DRUM.sensors().get(0),
                        new Kiln.Sensor(new Probe(ThermocoupleType.S, Amplifier.MAX31856), Optional.empty())));
        for (Kiln kiln : List.of(full, TALL_DRUM, Kiln.named("Plain"))) {
            Path path = folder.resolve("kiln.toml");
            KilnFiles.write(path, kiln);
            assertThat(KilnFiles.read(path)).isEqualTo(kiln);
        }
    }

    @Test
    void theKindOfConeIsSelfSupportingUnlessTheFileSaysOtherwise() {
        assertThat(Kiln.named("Plain").series()).isEqualTo(ConeSeries.SELF_SUPPORTING);
        for (ConeSeries series : ConeSeries.values()) {
            Kiln kiln = KilnFiles.parse("name = \"Tall Drum\"\nseries = \"" + series.word() + "\"", "k");
            assertThat(kiln.series()).isEqualTo(series);
            assertThat(KilnFiles.parse(KilnFiles.text(kiln), "k")).isEqualTo(kiln);
        }
        assertThatThrownBy(() -> KilnFiles.parse("name = \"Tall Drum\"\nseries = \"smal\"", "k"))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("expected self-supporting or large or small; did you mean \"small\"?");
    }

    @Test
    void alarmsAreAsUsualWhereTheFileDoesNotSayOtherwise() {
        String text = """
                name = "Tall Drum"
                [alarms]
                over_plan = "27 °F"
                over_top = "20 °C"
                steam_rate = "60 °C/h"
                silence = "3 min"
                """;
        Kiln kiln = KilnFiles.parse(text, "k");
        AlarmLimits limits = AlarmLimits.USUAL.with(kiln.alarms());
        assertThat(limits.overPlan().kelvin()).isCloseTo(15, within(1e-9));
        assertThat(limits.overTop().kelvin()).isEqualTo(20);
        assertThat(limits.steamRate().kelvinPerHour()).isEqualTo(60);
        assertThat(limits.silence()).isEqualTo(Duration.ofMinutes(3));
        assertThat(limits.boxMaximum()).isEqualTo(AlarmLimits.USUAL.boxMaximum());
        assertThat(KilnFiles.parse(KilnFiles.text(kiln), "k")).isEqualTo(kiln);
        assertThat(AlarmLimits.USUAL.with(Kiln.named("Plain").alarms())).isEqualTo(AlarmLimits.USUAL);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "alarms = { over_plan = \"500 °C\" } | \"over_plan\" is 500 °C, expected 5 to 100 °C",
                "alarms = { steam = \"60 °C/h\" } | did you mean \"steam_rate\"?",
                "volume = \"68\" | k:2:10: \"volume\": found \"68\" without a unit",
                "volume = \"-1 l\" | k:2:10: \"volume\": found \"-1 l\", expected a volume",
                "power = 5.6 | k:2:9: \"power\": found 5.6, expected it in quotes with its unit such as \"5.6 kW\"",
                "wall = \"brik\" | k:2:8: \"wall\": found \"brik\", expected brick or fibre or layered; did you mean \"brick\"?",
                "opening = \"hatch\" | k:2:11: \"opening\": found \"hatch\", expected lid or door",
                "tariff = \"0.30\" | k:2:10: \"tariff\": found \"0.30\" without a unit",
                "door = \"yes\" | did you mean \"opening\"?",
                "limits = 5 | k:2:1: \"limits\" is not a table",
                "thresholds = { crack = \"900 °C\" } | expected 20 to 400 °C",
                "thresholds = { crack = \"60 °C\", unload = \"80 °C\" } | ware is unloaded at 80 °C, expected below the 60 °C",
                "thresholds = { from_maker = true } | the maker's \"crack\" or \"unload\" is not given",
                "thresholds = { from_maker = \"yes\" } | expected true or false",
                "limits = { rate = \"0 °C/h\" } | \"rate\" is not above 0",
                "sensor = [ { type = \"Q\", amplifier = \"CELSIUS\" } ] | \"type\": found \"Q\", expected K or N",
                "sensor = [ { type = \"K\" } ] | the sensor has no \"amplifier\"",
            })
    void refusesWithOneSentenceAndItsPlace(String line, String expected) {
        assertThatThrownBy(() -> KilnFiles.parse("name = \"Tall Drum\"\n" + line, "k"))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining(expected);
    }

    private static Kiln.Thresholds thresholds(String lines) {
        return KilnFiles.parse("name = \"Tall Drum\"\n[thresholds]\n" + lines, "k")
                .thresholds();
    }

    @Test
    void whetherThereIsACutOutMayBeKnownWithoutItsTemperature() {
        assertThat(KilnFiles.parse("name = \"a\"\ncut_out = \"fitted\"", "k").cutOut())
                .hasValue(new Kiln.CutOut(true, Optional.empty()));
        assertThat(KilnFiles.parse("name = \"a\"\ncut_out = \"none\"", "k").cutOut())
                .hasValue(Kiln.CutOut.NONE);
        assertThat(KilnFiles.parse("name = \"a\"", "k").cutOut()).isEmpty();
        for (String word : List.of("fitted", "none", "1290 °C")) {
            Kiln kiln = KilnFiles.parse("name = \"a\"\ncut_out = \"" + word + "\"", "k");
            assertThat(KilnFiles.parse(KilnFiles.text(kiln), "k")).isEqualTo(kiln);
        }
        assertThatThrownBy(() -> KilnFiles.parse("name = \"a\"\ncut_out = \"yes\"", "k"))
                .hasMessageContaining("cut_out");
    }
}
