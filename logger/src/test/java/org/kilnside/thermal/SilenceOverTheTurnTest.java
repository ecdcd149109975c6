package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Remark.Kind;
import org.kilnside.virtualkiln.Population;

/** A computer that slept from before the elements went off until the kiln had cooled far: nobody saw it turn. */
class SilenceOverTheTurnTest {
    private static final double BEFORE_OFF_S = -600;

    /** The log without what was not recorded. */
    private static Trace withSilence(
            VirtualTrial trial, double fromAfterOffS, double untilS, double nowS, boolean told) {
        Trace whole = trial.until(nowS, told);
        Trace.Builder builder = new Trace.Builder();
        for (int i = 0; i < whole.size(); i++) {
            double at = whole.elapsedMs(i) / 1000.0;
            if (at < trial.offS() + fromAfterOffS || at >= untilS) {
                builder.add(whole.elapsedMs(i), whole.temperatureC(i), whole.output(i), whole.setpointC(i));
            }
        }
        return builder.view();
    }

    @ParameterizedTest
    @ValueSource(doubles = {90, 1800})
    void theTimesHoldAndItIsSaid(double awakeForS) {
        for (int kiln = 0; kiln < 3; kiln++) {
            VirtualTrial trial = VirtualTrial.of(Population.Family.LIGHT_BRICK, 51, kiln, 0, false);
            for (double backAtC : new double[] {500, 250}) {
                double back = trial.belowS(backAtC);
                double now = back + awakeForS;
                Forecast forecast =
                        Forecaster.forecast(ForecastQuestion.about(withSilence(trial, BEFORE_OFF_S, back, now, true))
                                .withAmbient(Temperature.ofCelsius(trial.roomC()))
                                .withBelow(List.of(Temperature.ofCelsius(120))));
                assertThat(forecast.stage()).isEqualTo(Forecast.Stage.COOLING);
                assertThat(forecast.remarks())
                        .extracting(Forecast.Remark::kind)
                        .contains(Kind.TURN_UNSEEN)
                        .doesNotContain(Kind.DRIVEN_COOLING);
                Forecast.When said = forecast.below().get(0).when().orElseThrow();
                double truth = trial.belowS(120);
                assertThat(truth).as("kiln %d, back at %.0f °C", kiln, backAtC).isBetween(said.fromS(), said.toS());
                if (awakeForS > 600) {
                    assertThat((said.atS() - truth) / (truth - now)).isBetween(-0.15, 0.15);
                }
            }
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {120, 900, 1800})
    void elementsThatWereToldToBeOffBeforeTheSilenceWereSeenToTurn(double silentAfterOffS) {
        VirtualTrial trial = whoseControllerTellsItsOutput();
        double back = trial.belowS(500);
        Forecast forecast =
                Forecaster.forecast(ForecastQuestion.about(withSilence(trial, silentAfterOffS, back, back + 1800, true))
                        .withAmbient(Temperature.ofCelsius(trial.roomC()))
                        .withBelow(List.of(Temperature.ofCelsius(120))));
        assertThat(forecast.stage()).isEqualTo(Forecast.Stage.COOLING);
        assertThat(forecast.remarks()).extracting(Forecast.Remark::kind).doesNotContain(Kind.TURN_UNSEEN);
        Forecast.When said = forecast.below().get(0).when().orElseThrow();
        assertThat(trial.belowS(120)).isBetween(said.fromS(), said.toS());
    }

    private static VirtualTrial whoseControllerTellsItsOutput() {
        return IntStream.range(0, 10)
                .mapToObj(kiln -> VirtualTrial.of(Population.Family.LIGHT_BRICK, 51, kiln, 0, false))
                .filter(trial -> trial.until(60, true).output(0).isPresent())
                .findFirst()
                .orElseThrow();
    }
}
