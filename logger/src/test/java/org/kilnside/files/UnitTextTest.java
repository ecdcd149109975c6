package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.files.UnitText.NotAQuantityException;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Volume;

class UnitTextTest {
    @ParameterizedTest
    @ValueSource(
            strings = {
                "600 °C",
                "600°C",
                "600 C",
                "600 c",
                "600 ºC",
                "600 ˚C",
                "600 ℃",
                "600\u00a0°C",
                "600.0 °C",
                "600,0 °C",
                " 600  deg C ",
                "600 degrees C",
                "600 celsius",
                "1112 °F",
                "1112F"
            })
    void readsATemperatureInEverySensibleSpelling(String text) {
        assertThat(UnitText.temperature(text).celsius()).isCloseTo(600, within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "80 °C/h",
                "80 C/h",
                "80C/h",
                "80 °C / h",
                "80 °c per hour",
                "80,0 °C/hr",
                "144 °F/h",
                "2.4 °F/min"
            })
    void readsARateInEverySensibleSpelling(String text) {
        assertThat(UnitText.rate(text).kelvinPerHour()).isCloseTo(80, within(1e-9));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "15 min | 15",
                "15min | 15",
                "1 h 30 min | 90",
                "1h30m | 90",
                "1.5 h | 90",
                "1,5 hours | 90",
                "0 min | 0",
                "-5 min | -5",
                "2 hrs | 120",
                "90 minutes | 90",
                "-1 h 30 min | -90"
            })
    void readsATimeInEverySensibleSpelling(String text, long minutes) {
        assertThat(UnitText.duration(text)).isEqualTo(Duration.ofMinutes(minutes));
    }

    @Test
    void readsVolumePowerAndTariff() {
        assertThat(UnitText.volume("68 l")).isEqualTo(Volume.ofLitres(68));
        assertThat(UnitText.power("5.6 kW")).isEqualTo(Power.ofKilowatts(5.6));
        assertThat(UnitText.power("5600 W")).isEqualTo(Power.ofKilowatts(5.6));
        assertThat(UnitText.tariff("0,305 EUR/kWh").pricePerKwh()).isEqualTo(0.305);
    }

    @ParameterizedTest
    @ValueSource(strings = {"600", "600 ", "-600"})
    void sayThatTheUnitIsMissing(String text) {
        assertThatThrownBy(() -> UnitText.temperature(text))
                .isInstanceOf(NotAQuantityException.class)
                .hasMessageContaining("without a unit")
                .hasMessageContaining("such as \"600 °C\"");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1,200 °C", "1.200 °C"})
    void aThousandOrOneAndABitIsAsked(String text) {
        assertThatThrownBy(() -> UnitText.temperature(text)).hasMessageContaining("write 1200 or 1.2 to have");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "hot",
                "NaN °C",
                "Infinity °C",
                "1e3 °C",
                "600 K",
                "600 kelvin",
                "6 00 °C",
                "--5 °C",
                "600 °C/h",
                "0x10 °C",
                "99999999999 °C",
                "-300 °C",
                "600 °C extra",
                "°C",
                "600\u0000°C",
                "٣ °C"
            })
    void refusesWhatIsNoTemperature(String text) {
        assertThatThrownBy(() -> UnitText.temperature(text))
                .isInstanceOf(NotAQuantityException.class)
                .hasMessageContaining("found")
                .hasMessageContaining("expected");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "15", "1:30", "1h30", "30 s", "1 h -30 min", "min", "1 day", "1 h 30 min 5", "NaN min"})
    void refusesWhatIsNoTime(String text) {
        assertThatThrownBy(() -> UnitText.duration(text))
                .isInstanceOf(NotAQuantityException.class)
                .hasMessageContaining("found")
                .hasMessageContaining("expected a time");
    }

    @ParameterizedTest
    @ValueSource(strings = {"80", "80 °C", "80 °C/s", "80 °C/", "80 /h", "80 K/h", "80 °C/h/h", "full"})
    void refusesWhatIsNoRate(String text) {
        assertThatThrownBy(() -> UnitText.rate(text))
                .isInstanceOf(NotAQuantityException.class)
                .hasMessageContaining("expected a rate");
    }

    @Test
    void aVeryLongTextIsAnsweredShortly() {
        assertThatThrownBy(() -> UnitText.temperature("9".repeat(1_000_000)))
                .isInstanceOf(NotAQuantityException.class)
                .satisfies(refusal -> assertThat(refusal.getMessage()).hasSizeLessThan(200));
    }
}
