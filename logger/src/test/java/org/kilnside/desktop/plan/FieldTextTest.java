package org.kilnside.desktop.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.Language;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

class FieldTextTest {
    private static FieldText fields(Language language, TemperatureUnit unit) {
        return new FieldText(Words.of(language, Preferences.of(Locale.UK).withUnit(unit)));
    }

    private final FieldText english = fields(Language.ENGLISH, TemperatureUnit.CELSIUS);

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"15|15", "15 min|15", "1:30|90", "1 h 30 min|90", "1.5 h|90", "1,5 h|90", "2 h|120", "0|0"})
    void holdsAreMinutesOrWhatTheyAreWrittenIn(String text, long minutes) {
        assertThat(english.hold(text).value()).contains(Duration.ofMinutes(minutes));
    }

    @Test
    void holdsReadInEachLanguageTheWayTheyStandThere() {
        for (Language language : Language.values()) {
            FieldText fields = fields(language, TemperatureUnit.CELSIUS);
            for (long minutes : new long[] {0, 5, 60, 90, 615}) {
                Duration hold = Duration.ofMinutes(minutes);
                assertThat(fields.hold(fields.of(hold)).value())
                        .as(language + " " + fields.of(hold))
                        .contains(hold);
            }
        }
    }

    @Test
    void ratesAndTargetsReadBackTheWayTheyStand() {
        for (Language language : Language.values()) {
            for (TemperatureUnit unit : TemperatureUnit.values()) {
                FieldText fields = fields(language, unit);
                for (double value : new double[] {37.5, 80, 150, 992, 1222.5}) {
                    HeatingRate rate = HeatingRate.ofKelvinPerHour(value);
                    Temperature to = Temperature.ofCelsius(value);
                    assertThat(fields.rate(fields.of(rate))
                                    .value()
                                    .orElseThrow()
                                    .kelvinPerHour())
                            .isCloseTo(value, org.assertj.core.api.Assertions.within(0.01));
                    assertThat(fields.target(fields.of(to))
                                    .value()
                                    .orElseThrow()
                                    .celsius())
                            .isCloseTo(value, org.assertj.core.api.Assertions.within(0.01));
                }
            }
        }
    }

    @Test
    void aUnitBehindANumberCounts() {
        FieldText fahrenheit = fields(Language.ENGLISH, TemperatureUnit.FAHRENHEIT);
        assertThat(fahrenheit.target("1000 °C").value()).contains(Temperature.ofCelsius(1000));
        assertThat(fahrenheit.rate("100 °C/h").value()).contains(HeatingRate.ofKelvinPerHour(100));
        assertThat(english.rate("2 °C/min").value()).contains(HeatingRate.ofKelvinPerHour(120));
    }

    @Test
    void anyTextIsAValueOrOneSentence() {
        Random random = new Random(20261125);
        String letters = "0123456789.,:-+ °CFh/minkgx\"\\\n\t\u0000😀αß";
        for (int i = 0; i < 3000; i++) {
            StringBuilder text = new StringBuilder();
            int length = random.nextInt(14);
            for (int k = 0; k < length; k++) {
                text.append(letters.charAt(random.nextInt(letters.length())));
            }
            String typed = text.toString();
            for (FieldText.Typed<?> found : new FieldText.Typed<?>[] {
                english.rate(typed),
                english.target(typed),
                english.hold(typed),
                english.cone(typed),
                english.name(typed),
                english.kilograms(typed),
                english.millimetres(typed)
            }) {
                assertThat(found.value().isPresent())
                        .as(typed)
                        .isNotEqualTo(found.problem().isPresent());
            }
        }
    }

    @Test
    void aLoadIsAboveNothingOrNotWeighed() {
        assertThat(english.kilograms("34,5 kg").value()).contains(Optional.of(34.5));
        assertThat(english.kilograms("").value()).contains(Optional.empty());
        assertThat(english.kilograms("0").problem()).isPresent();
        assertThat(english.kilograms("900000").problem()).isPresent();
    }
}
