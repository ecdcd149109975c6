package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Reaches;

/** When a forecast that says no, or that doubts the number, is believed. */
class ForecastWatchTest {
    private static final Temperature TOP = Temperature.ofCelsius(1000);

    private final AlarmLedger ledger = new AlarmLedger(600_000);
    private final ForecastWatch watch = new ForecastWatch(() -> AlarmLimits.USUAL);

    private static Forecast says(double atS, Reaches reaches) {
        Temperature weak = Temperature.ofCelsius(800);
        return new Forecast(
                atS,
                Forecast.Stage.HEATING,
                Temperature.ofCelsius(18),
                List.of(),
                Optional.of(new Forecast.Arrival(
                        TOP,
                        reaches,
                        Optional.of(new Forecast.When(90_000, 80_000, 100_000)).filter(when -> reaches == Reaches.YES),
                        Optional.of(new Forecast.TopsOut(weak, weak, weak)))),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of());
    }

    private boolean isToldAfter(int fromMinute, int toMinute, Reaches reaches, boolean boundWater) {
        return isToldAfter(fromMinute, toMinute, reaches, boundWater, false);
    }

    private boolean isToldAfter(int fromMinute, int toMinute, Reaches reaches, boolean boundWater, boolean stalls) {
        for (int minute = fromMinute; minute <= toMinute; minute++) {
            watch.take(says(minute * 60, reaches), boundWater, stalls, ledger);
        }
        return ledger.isActive(AlarmKind.WILL_NOT_REACH_TOP);
    }

    @Test
    void aTopOutOfReachIsToldWhenItHasBeenSaidForEightMinutes() {
        assertThat(isToldAfter(0, 7, Reaches.NO, false)).isFalse();
        assertThat(isToldAfter(8, 8, Reaches.NO, false)).isTrue();
        assertThat(isToldAfter(9, 9, Reaches.YES, false)).isFalse();
    }

    @Test
    void whileBoundWaterMayLeaveNoKilnIsCalledTooWeak() {
        assertThat(isToldAfter(0, 60, Reaches.NO, true)).isFalse();
        assertThat(isToldAfter(61, 68, Reaches.NO, false)).isFalse();
        assertThat(isToldAfter(69, 69, Reaches.NO, false)).isTrue();
    }

    @Test
    void aKilnThatStallsIsOutOfReachWhereNobodyCanSayYet() {
        assertThat(isToldAfter(0, 60, Reaches.CANNOT_SAY_YET, false, false)).isFalse();
        assertThat(isToldAfter(61, 69, Reaches.CANNOT_SAY_YET, false, true)).isTrue();
        assertThat(isToldAfter(70, 70, Reaches.YES, false, true)).isFalse();
    }

    private void coolingSays(int minute, double lidAtS) {
        Temperature lid = AlarmLimits.USUAL.lid();
        Forecast.When when = new Forecast.When(lidAtS, lidAtS - 1_200, lidAtS + 1_800);
        Forecast cooling = new Forecast(
                60 * minute,
                Forecast.Stage.COOLING,
                Temperature.ofCelsius(15),
                List.of(new Forecast.Below(lid, Optional.of(when), Optional.of(when.fromS()))),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of());
        watch.take(cooling, false, false, ledger);
    }

    @Test
    void aTimeThatMovedIsToldWithWhatOfAndBothIntervals() {
        for (int minute = 0; minute < 90; minute++) {
            coolingSays(minute, 30_000);
        }
        for (int minute = 90; minute < 110; minute++) {
            coolingSays(minute, 24_000);
        }
        Temperature lid = AlarmLimits.USUAL.lid();
        assertThat(ledger.current()).singleElement().satisfies(alarm -> {
            assertThat(alarm.kind()).isEqualTo(AlarmKind.FORECAST_MOVED);
            assertThat(alarm.seen()).contains(new Measure.OfPassing(lid, true, 22_800_000, 25_800_000));
            assertThat(alarm.expected()).contains(new Measure.OfPassing(lid, true, 28_800_000, 31_800_000));
        });
    }

    private void doubtTheNumberFor(int minutes) {
        for (int minute = 0; minute < minutes; minute++) {
            Forecast.Remark doubt = new Forecast.Remark(Forecast.Remark.Kind.DO_NOT_TRUST_SENSOR, Optional.empty());
            Forecast doubting = new Forecast(
                    60 * minute,
                    Forecast.Stage.HEATING,
                    Temperature.ofCelsius(15),
                    List.of(),
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    List.of(),
                    List.of(doubt));
            watch.take(doubting, false, false, ledger);
        }
    }

    @Test
    void powerThatTheNumberDoesNotExplainIsToldOnceItIsSaidAgain() {
        doubtTheNumberFor(1);
        assertThat(ledger.isActive(AlarmKind.SENSOR_LYING)).isFalse();
        doubtTheNumberFor(3);
        assertThat(ledger.isActive(AlarmKind.SENSOR_LYING)).isTrue();
    }

    @Test
    void withThePowerGoneTheSensorIsNotBlamed() {
        ledger.raise(AlarmKind.POWER_GONE, Finding.since(0), 0);
        doubtTheNumberFor(20);
        assertThat(ledger.isActive(AlarmKind.SENSOR_LYING)).isFalse();
    }
}
