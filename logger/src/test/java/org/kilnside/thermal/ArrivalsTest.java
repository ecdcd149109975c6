package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** How hot a kiln could get is told as far as its elements bear. Virtual kilns are independent of the model. */
class ArrivalsTest {
    /** Published: iron-chromium-aluminium melts at about 1500 °C. */
    private static final double MELTS_C = 1500;

    private static Forecast asked(Population.Family family, int kiln, double atC) {
        Schedule plan = Programs.glaze(1200, 80);
        VirtualTrial fired = VirtualTrial.run(
                new Population(family, 41)
                        .specimen(kiln)
                        .glazeFiring(plan, 0)
                        .interval(10)
                        .controller(ControllerSpec.waiting())
                        .start(),
                plan,
                45,
                14 * 3600);
        return Forecaster.forecast(
                ForecastQuestion.about(fired.until(fired.aboveS(atC), true)).withPlan(plan));
    }

    private static boolean saysBeyond(Forecast forecast) {
        return forecast.remarks().stream().anyMatch(each -> each.kind() == Remark.Kind.TOPS_OUT_BEYOND_ELEMENTS);
    }

    @ParameterizedTest
    @ValueSource(doubles = {700, 1000})
    void noKilnIsToldToGetHotterThanItsElementsBear(double atC) {
        int beyond = 0;
        for (Population.Family family :
                List.of(Population.Family.LIGHT_BRICK, Population.Family.FIBRE, Population.Family.HEAVY_BRICK)) {
            for (int kiln = 0; kiln < 3; kiln++) {
                Forecast forecast = asked(family, kiln, atC);
                Arrival arrival = forecast.arrival().orElseThrow();
                assertThat(arrival.topsOut()
                                .map(TopsOut::to)
                                .map(Temperature::celsius)
                                .orElse(0.0))
                        .as("%s %d", family, kiln)
                        .isLessThanOrEqualTo(MELTS_C);
                assertThat(saysBeyond(forecast)).isEqualTo(arrival.topsOut().isEmpty());
                assertThat(arrival.reaches()).isNotEqualTo(Reaches.NO);
                assertThat(arrival.when()).isPresent();
                beyond += saysBeyond(forecast) ? 1 : 0;
            }
        }
        assertThat(beyond).isPositive();
    }

    @Test
    void anIntervalEndsWhereElementsMelt() {
        TopsOut told =
                new TopsOut(Temperature.ofCelsius(1400), Temperature.ofCelsius(1100), Temperature.ofCelsius(1840));
        assertThat(told.asElementsBear()).contains(new TopsOut(told.at(), told.from(), Temperature.ofCelsius(MELTS_C)));
        TopsOut beyond =
                new TopsOut(Temperature.ofCelsius(1501), Temperature.ofCelsius(1100), Temperature.ofCelsius(1840));
        assertThat(beyond.asElementsBear()).isEmpty();
    }
}
