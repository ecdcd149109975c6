package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Reaches;

/** A kiln that has given all it has for hours and stands still short of its top. */
class StalledKilnTest {
    private static final double TAU_S = 3 * 3600;

    /** Steered at 150 °C/h to 800 °C, then at full output towards 1198 °C by one exponential. Own course. */
    private static Arrival asked(double hours) {
        Trace.Builder curve = new Trace.Builder();
        double fullFromS = 780 / 150.0 * 3600;
        for (double timeS = 0; timeS <= hours * 3600; timeS += 30) {
            boolean full = timeS >= fullFromS;
            double celsius =
                    full ? 1198 - (1198 - 800) * Math.exp(-(timeS - fullFromS) / TAU_S) : 20 + 150 * timeS / 3600;
            double output = full ? 1 : 0.1 + 0.85 * timeS / fullFromS;
            curve.add(
                    Math.round(timeS * 1000),
                    Math.round(celsius * 4) / 4.0,
                    OptionalDouble.of(output),
                    OptionalDouble.empty());
        }
        return Forecaster.forecast(ForecastQuestion.about(curve.view()).withTarget(Temperature.ofCelsius(1222)))
                .arrival()
                .orElseThrow();
    }

    @Test
    void isSaidToTopOutWhereItStandsAndNotToReachItsTop() {
        for (double hours : new double[] {22, 28}) {
            Arrival arrival = asked(hours);
            assertThat(arrival.reaches()).as("after %s h", hours).isEqualTo(Reaches.NO);
            assertThat(arrival.topsOut().orElseThrow().from().celsius()).isLessThanOrEqualTo(1200);
            assertThat(arrival.topsOut().orElseThrow().to().celsius()).isBetween(1198.0, 1210.0);
        }
    }
}
