package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.report.CardPage;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;

class ProgramCardTest {
    private static final Schedule PLAN = new Schedule(
            "Rainwater <slow>",
            Optional.of("cone 6"),
            Optional.empty(),
            Optional.empty(),
            List.of(ramp(80, 120, 30), ramp(150, 1222, 10), ramp(12.5, 1100, 0), new Segment.FreeCooling()));

    private static Segment ramp(double kelvinPerHour, double celsius, int minutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(celsius),
                Duration.ofMinutes(minutes));
    }

    private static Words words(TemperatureUnit unit) {
        return Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH).withUnit(unit));
    }

    @Test
    void aCardIsKeyedInStepByStep() {
        ProgramCard card =
                ProgramCard.of(PLAN, Optional.of("Tall Drum"), ControllerNumbers.SAME, words(TemperatureUnit.CELSIUS));
        assertThat(card.steps())
                .containsExactly(
                        new ProgramCard.Step(1, "80 °C/h", "120 °C", "0:30", false),
                        new ProgramCard.Step(2, "150 °C/h", "1222 °C", "0:10", false),
                        new ProgramCard.Step(3, "12.5 °C/h", "1100 °C", "none", true));
        assertThat(card.remarks()).anyMatch(remark -> remark.contains("elements off"));
        assertThat(card.remarks()).anyMatch(remark -> remark.contains("cone 6"));
    }

    @Test
    void inFahrenheitRatesAreSpansAndTargetsArePoints() {
        // Independent: °F = °C × 9/5 + 32; a rate has no zero to shift.
        assertThat(ProgramCard.of(PLAN, Optional.empty(), ControllerNumbers.SAME, words(TemperatureUnit.FAHRENHEIT))
                        .steps())
                .containsExactly(
                        new ProgramCard.Step(1, "144 °F/h", "248 °F", "0:30", false),
                        new ProgramCard.Step(2, "270 °F/h", "2232 °F", "0:10", false),
                        new ProgramCard.Step(3, "22 °F/h", "2012 °F", "none", true));
    }

    @Test
    void aHoldOfSecondsIsNotLost() {
        Schedule plan = new Schedule(
                "Short",
                List.of(new Segment.Ramp(
                        HeatingRate.ofKelvinPerHour(100), Temperature.ofCelsius(600), Duration.ofSeconds(20))));
        assertThat(ProgramCard.of(plan, Optional.empty(), ControllerNumbers.SAME, words(TemperatureUnit.CELSIUS))
                        .steps()
                        .get(0)
                        .hold())
                .isEqualTo("0:01");
    }

    @Test
    void thePageStandsAloneAndBreaksOnNoName() {
        String page = CardPage.html(
                ProgramCard.of(
                        PLAN, Optional.of("Tall & Drum"), ControllerNumbers.SAME, words(TemperatureUnit.CELSIUS)),
                "en");
        assertThat(page)
                .contains("Rainwater &lt;slow&gt;", "Tall &amp; Drum", "<td>1222 °C</td>", "↓ 12.5 °C/h")
                .doesNotContain("http", "src=");
        assertThat(page.split("☐ ☐", -1)).hasSize(4);
    }

    @Test
    void anUncorrectedChipsOwnNumbersAreWhatHasToBeKeyedIn() {
        ControllerNumbers chip =
                ControllerNumbers.of(SensorInPlace.asSaid(new Probe(ThermocoupleType.K, Amplifier.MAX31855)));
        Schedule plan = new Schedule(
                "Glaze",
                List.of(
                        new Segment.Ramp(HeatingRate.ofKelvinPerHour(150), Temperature.ofCelsius(1100), Duration.ZERO),
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(60),
                                Temperature.ofCelsius(1243.4),
                                Duration.ofMinutes(15))));
        ProgramCard card = ProgramCard.of(plan, Optional.empty(), chip, words(TemperatureUnit.CELSIUS));
        // Computed, trade facts: a true 1243 °C is shown as 1222; near there a shown degree is 1.13 to 1.18 true ones.
        assertThat(card.steps().get(1).target()).isEqualTo("1222 °C");
        assertThat(card.steps().get(1).rate()).startsWith("5").contains("°C/h");
        assertThat(card.remarks().get(0)).contains("1222 °C").contains("1243 °C");
    }

    @Test
    void aTopBeyondWhatTheChipCanShowIsNotPrinted() {
        ControllerNumbers chip =
                ControllerNumbers.of(SensorInPlace.asSaid(new Probe(ThermocoupleType.K, Amplifier.MAX6675)));
        ProgramCard card = ProgramCard.of(PLAN, Optional.empty(), chip, words(TemperatureUnit.CELSIUS));
        assertThat(card.steps().get(1).target()).isEqualTo("—");
        assertThat(card.remarks().get(0)).contains("cannot show 1222 °C").contains("Do not fire");
    }
}
