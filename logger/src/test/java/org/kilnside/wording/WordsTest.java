package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

class WordsTest {
    private static final Preferences METRIC = new Preferences(
            TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), Opening.LID);
    private static final Preferences AMERICAN =
            METRIC.withUnit(TemperatureUnit.FAHRENHEIT).withClock(ClockStyle.TWELVE_HOURS);

    private final Words english = Words.of(Language.ENGLISH, METRIC);
    private final Words dutch = Words.of(Language.DUTCH, METRIC);
    private final Words german = Words.of(Language.GERMAN, METRIC);
    private final Words american = Words.of(Locale.US, AMERICAN);

    @Test
    void aTemperatureAlwaysCarriesItsUnit() {
        // 998 °C = 1828 °F: ASTM-style cone tables print the pair for cone 06 (self-supporting, 60 °C/h).
        assertThat(english.temperature(Temperature.ofCelsius(998.2))).isEqualTo("998 °C");
        assertThat(american.temperature(Temperature.ofCelsius(998))).isEqualTo("1828 °F");
    }

    @Test
    void aThousandDegreesHasNoMarkThatCouldBeReadAsADecimal() {
        assertThat(dutch.temperature(Temperature.ofCelsius(1001))).isEqualTo("1001 °C");
        assertThat(german.temperature(Temperature.ofCelsius(1222.6))).isEqualTo("1223 °C");
    }

    @Test
    void aSpanIsNotShiftedByThirtyTwo() {
        assertThat(american.difference(TemperatureDifference.ofKelvin(10))).isEqualTo("+18 °F");
        assertThat(english.difference(TemperatureDifference.ofKelvin(-4))).isEqualTo("\u22124 °C");
        assertThat(english.difference(TemperatureDifference.ofKelvin(-0.3))).isEqualTo("0 °C");
    }

    @Test
    void aRateSaysItsHour() {
        assertThat(english.rate(HeatingRate.ofKelvinPerHour(98.4))).isEqualTo("+98 °C/h");
        assertThat(dutch.rate(HeatingRate.ofKelvinPerHour(-85))).isEqualTo("\u221285 °C/u");
        assertThat(american.speed(HeatingRate.ofKelvinPerHour(-100))).isEqualTo("180 °F/h");
    }

    @Test
    void durationsAreAsShortAsTheirMeaning() {
        assertThat(english.duration(Duration.ofSeconds(45))).isEqualTo("45 s");
        assertThat(english.duration(Duration.ofMinutes(4))).isEqualTo("4 min");
        assertThat(english.duration(Duration.ofMinutes(80))).isEqualTo("1 h 20 min");
        assertThat(dutch.duration(Duration.ofMinutes(80))).isEqualTo("1 u 20 min");
        assertThat(english.duration(Duration.ofHours(26))).isEqualTo("26 h");
        assertThat(english.duration(Duration.ofSeconds(3599))).isEqualTo("1 h");
    }

    @Test
    void inASentenceDurationsAreWords() {
        assertThat(english.durationInWords(Duration.ofMinutes(6))).isEqualTo("6 minutes");
        assertThat(english.durationInWords(Duration.ofMinutes(-1))).isEqualTo("1 minute");
        assertThat(english.durationInWords(Duration.ofMinutes(121))).isEqualTo("2 hours 1 minute");
        assertThat(german.durationInWords(Duration.ofMinutes(60))).isEqualTo("1 Stunde");
    }

    @Test
    void clocksHaveTwentyFourOrTwelveHours() {
        Instant afternoon = Instant.parse("2026-11-25T13:05:09Z");
        assertThat(english.time(afternoon)).isEqualTo("14:05");
        assertThat(american.time(afternoon)).isEqualTo("2:05 PM");
        assertThat(english.dayAndTime(afternoon)).isEqualTo("Wed 14:05");
        assertThat(dutch.timeWithSeconds(afternoon)).isEqualTo("14:05:09");
    }

    @Test
    void theDecimalMarkIsTheLanguages() {
        assertThat(english.number(-0.25, 2)).isEqualTo("\u22120.25");
        assertThat(dutch.number(1234.5, 1)).isEqualTo("1234,5");
        assertThat(german.percent(Share.ofPercent(62))).isEqualTo("62 %");
    }

    @Test
    void anUnknownLanguageFallsBackToEnglish() {
        assertThat(Words.of(Locale.JAPANESE, METRIC).language()).isEqualTo(Language.ENGLISH);
    }
}
