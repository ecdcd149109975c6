package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;

/** Quartz in the ware gives heat as it turns on the way down, and keeps a kiln warm for some minutes longer. */
class QuartzForecastTest {
    private static final int KILNS = 6;
    private static final int UNSEEN_FROM = 7_100;

    @Test
    void whatTurnsComesToTheWhole() {
        double sum = 0;
        for (double celsius = 500; celsius < 650; celsius += 0.1) {
            sum += 0.1 * QuartzTurning.perK(celsius);
        }
        assertThat(sum).isCloseTo(1, within(1e-6));
        assertThat(QuartzTurning.between(900, 20)).isCloseTo(-1, within(1e-9));
        assertThat(QuartzTurning.between(550, 570)).isCloseTo(20 * QuartzTurning.perK(560), within(0.1));
    }

    @Test
    void isTurningOnlyThereAndEitherWay() {
        assertThat(QuartzTurning.isBetween(900, 600)).isFalse();
        assertThat(QuartzTurning.isBetween(500, 200)).isFalse();
        assertThat(QuartzTurning.isBetween(560, 570)).isTrue();
        assertThat(QuartzTurning.isBetween(20, 1200)).isTrue();
        assertThat(QuartzTurning.isBetween(1200, 20)).isTrue();
    }

    @Test
    void isNotTakenForAKilnThatCoolsMoreSlowly() {
        List<Double> steps = new ArrayList<>();
        for (int i = 0; i < KILNS; i++) {
            TrialFiring firing = TrialPopulation.of(Family.ORDINARY, UNSEEN_FROM + i, 1, Habit.QUARTZ_IN_THE_WARE)
                    .firings()
                    .get(0);
            double before = error(firing, 590);
            for (double askedC : new double[] {550, 530, 510}) {
                steps.add(error(firing, askedC) - before);
            }
        }
        assertThat(steps.stream().mapToDouble(Double::doubleValue).average().orElseThrow())
                .isBetween(-0.02, 0.02);
        assertThat(steps).allSatisfy(step -> assertThat(step).isBetween(-0.08, 0.08));
    }

    /** By what part of what remains until 60 °C the forecast is late. */
    private static double error(TrialFiring firing, double askedC) {
        double askedS = firing.belowS(askedC);
        Forecast forecast = Forecaster.forecast(ForecastQuestion.about(firing.until(askedS, false))
                .withAmbient(Temperature.ofCelsius(firing.roomC()))
                .withBelow(List.of(Temperature.ofCelsius(60))));
        double atS = forecast.below().get(0).when().orElseThrow().atS();
        return (atS - askedS) / (firing.belowS(60) - askedS) - 1;
    }
}
