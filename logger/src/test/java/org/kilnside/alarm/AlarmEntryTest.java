package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.quantity.Temperature;

/** Alarms as lines of text, and the stable codes in them. */
class AlarmEntryTest {
    @ParameterizedTest
    @EnumSource(AlarmKind.class)
    void everyKindComesBackFromItsLine(AlarmKind kind) {
        AlarmEntry entry = new AlarmEntry(
                kind.code() + "-3",
                kind,
                kind.grade(),
                8_100_000,
                Optional.of(Measure.ofCelsius(1012.5)),
                Optional.of(Measure.ofKelvinPerHour(-80)));
        assertThat(AlarmEntry.parse(entry.text())).contains(entry);
    }

    @Test
    void everyQuantityComesBackWithItsUnit() {
        for (Measure measure : new Measure[] {
            Measure.ofCelsius(-3.5),
            Measure.ofKelvin(12),
            Measure.ofMillis(90_000),
            Measure.ofShare(0.66),
            new Measure.OfBytes(123_456_789),
            new Measure.OfPassing(Temperature.ofCelsius(120), true, 51_300_000, 53_580_000),
            new Measure.OfPassing(Temperature.ofCelsius(1210), false, 51_300_000, 53_580_000)
        }) {
            AlarmEntry entry = new AlarmEntry(
                    "no-readings-1", AlarmKind.NO_READINGS, Grade.COME_NOW, 0, Optional.of(measure), Optional.empty());
            assertThat(AlarmEntry.parse(entry.text())).contains(entry);
        }
    }

    @Test
    void aPersonsWordsAreNoAlarm() {
        assertThat(AlarmEntry.parse("stuck relay, I looked")).isEmpty();
        assertThat(AlarmEntry.parse("melted-1 come-now since=3s")).isEmpty();
    }

    @Test
    void theCodesNeverChange() {
        // Own output (regression): they stand in books and other people's scripts.
        assertThat(Arrays.stream(AlarmKind.values()).map(AlarmKind::code))
                .contains(
                        "no-readings",
                        "recorder-silent",
                        "stuck-relay",
                        "sensor-gone",
                        "sensor-slipped",
                        "sensor-frozen",
                        "sensor-saturated",
                        "sensor-reversed",
                        "sensor-lying",
                        "above-plan-maximum",
                        "above-ware-maximum",
                        "above-kiln-maximum",
                        "power-gone",
                        "not-this-plan",
                        "will-not-reach-top",
                        "third-of-power-gone",
                        "too-fast",
                        "candling-overshoot",
                        "water-leaving",
                        "controller-restarted",
                        "box-too-hot",
                        "output-contradicted",
                        "lid-moved",
                        "disk-filling",
                        "on-battery",
                        "about-to-sleep",
                        "hold-began",
                        "cone-reached",
                        "top-reached",
                        "firing-ended",
                        "below-lid-threshold",
                        "below-unload-threshold",
                        "forecast-moved");
    }
}
