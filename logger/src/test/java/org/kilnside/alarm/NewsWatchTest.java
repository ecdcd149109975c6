package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Remark;

/** When somebody is told that the lid may be thought of: by the number, and where that is the air's by the model. */
class NewsWatchTest {
    private static final long MINUTE_MS = 60_000;

    private final AlarmLedger ledger = new AlarmLedger(600_000);
    private final NewsWatch news = new NewsWatch(() -> AlarmLimits.USUAL);
    private final LidWatch lid = new LidWatch();

    private boolean isToldAt(long nowMs, double hottestC) {
        news.look(nowMs, hottestC, true, lid, ledger);
        return ledger.isActive(AlarmKind.BELOW_LID_THRESHOLD);
    }

    private Optional<Measure> seen() {
        return ledger.current().stream()
                .filter(alarm -> alarm.kind() == AlarmKind.BELOW_LID_THRESHOLD)
                .findFirst()
                .orElseThrow()
                .seen();
    }

    /** The model's answer: the ware is below 120 °C between the 60th and the 180th minute. */
    private void foreseen(int askedMinute, Remark... remarks) {
        news.forecast(new Forecast(
                askedMinute * 60,
                Forecast.Stage.COOLING,
                Temperature.ofCelsius(18),
                List.of(new Forecast.Below(
                        Temperature.ofCelsius(120),
                        Optional.of(new Forecast.When(100 * 60, 60 * 60, 180 * 60)),
                        Optional.empty())),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of(remarks)));
    }

    @Test
    void belowTheLidsTemperatureItIsToldWithTheNumberSeen() {
        foreseen(0);
        assertThat(isToldAt(MINUTE_MS, 121)).isFalse();
        assertThat(isToldAt(2 * MINUTE_MS, 119)).isTrue();
        assertThat(seen()).contains(Measure.ofCelsius(119));
    }

    @Test
    void whereTheSensorReadsAirItIsToldAfterTheLateEndOfTheIntervalAndNotAsSeen() {
        foreseen(50, new Remark(Remark.Kind.SENSOR_READS_AIR, Optional.empty()));
        assertThat(isToldAt(101 * MINUTE_MS, 28)).isFalse();
        assertThat(isToldAt(179 * MINUTE_MS, 24)).isFalse();
        assertThat(isToldAt(181 * MINUTE_MS, 24)).isTrue();
        assertThat(seen()).isEmpty();
    }

    /** 100 K/h down to 130 °C, then the lid is propped, and nobody noted it. */
    @Test
    void underALidThatNobodyNotedTheModelsLateEndCountsToo() {
        Beats beats = new Beats();
        ControllerReport off =
                new ControllerReport(Optional.of(Share.ofPercent(0)), Optional.empty(), OptionalInt.empty());
        for (int second = 0; second < 95 * 60; second += 10) {
            double shutC = 280 - 100.0 * Math.min(second, 90 * 60) / 3600;
            double celsius = second < 90 * 60 ? shutC : shutC - 60 * (1 - Math.exp(-(second - 90 * 60) / 60.0));
            if (beats.add(second * 1000L, celsius, off)) {
                lid.look(beats, true);
            }
        }
        foreseen(90);
        assertThat(lid.isOpen()).isTrue();
        assertThat(isToldAt(170 * MINUTE_MS, 30)).isFalse();
        assertThat(isToldAt(181 * MINUTE_MS, 30)).isTrue();
        assertThat(seen()).isEmpty();
    }
}
