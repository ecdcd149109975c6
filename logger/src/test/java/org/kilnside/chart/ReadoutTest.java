package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.tracking.PlanPosition.PlanPoint;

class ReadoutTest {
    private final ChartContent content = new ChartContent(
            new Trace.Builder()
                    .add(0, 20)
                    .add(1000, 21)
                    .add(2000, 22)
                    .add(60_000, 80)
                    .view(),
            List.of(new PlanPoint(0, 20), new PlanPoint(100_000, 120)),
            List.of(),
            OptionalLong.of(60_000),
            Optional.empty(),
            false,
            OptionalLong.empty(),
            Optional.empty());

    @Test
    void theNearestReadingIsActualAndThePlanIsInterpolated() {
        Readout readout = Readout.at(1600, content);
        assertThat(readout.actual()).contains(Temperature.ofCelsius(22));
        assertThat(readout.planned()).contains(Temperature.ofCelsius(21.6));
    }

    @Test
    void thereIsNoActualLongAfterTheLastReading() {
        assertThat(Readout.at(99_000_000, content).actual()).isEmpty();
        assertThat(Readout.at(99_000_000, content).planned()).isEmpty();
        assertThat(Readout.at(-5, content).actual()).isEmpty();
    }

    @Test
    void aGapHasNoActual() {
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < 100; i++) {
            curve.add(i * 1000L, 50);
        }
        curve.add(500_000, 60);
        ChartContent gap = new ChartContent(
                curve.view(),
                List.of(),
                List.of(),
                OptionalLong.empty(),
                Optional.empty(),
                false,
                OptionalLong.empty(),
                Optional.empty());
        assertThat(Readout.at(300_000, gap).actual()).isEmpty();
        assertThat(Readout.at(102_000, gap).actual()).isPresent();
    }
}
