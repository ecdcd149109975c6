package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.virtualkiln.Population;

/** A controller that writes one coarse and noisy reading a minute, asked again and again while the kiln cools. */
class SparseLogTest {
    private static final double NOISE_K = 1.5;
    private static final int EVERY_SECOND = 2;

    /** What is said of the same hour may change by a twelfth of the time left and no more, some ten degrees further down. */
    @ParameterizedTest
    @EnumSource(
            value = Population.Family.class,
            names = {"LIGHT_BRICK", "HEAVY_BRICK", "LAYERED"})
    void theSameHourIsToldAFewDegreesFurtherDown(Population.Family family) {
        List<String> jumps = new ArrayList<>();
        for (int kiln = 0; kiln < 4; kiln++) {
            VirtualTrial trial = VirtualTrial.of(family, 20_271_127, kiln, 0, false);
            double before = Double.NaN;
            for (double celsius = 620; celsius > 130; celsius -= celsius > 320 ? 20 : 10) {
                Trace log = sparse(trial.until(trial.belowS(celsius), true), kiln);
                double asked = log.elapsedMs(log.size() - 1) / 1000.0;
                double end = sixty(log, trial.roomC());
                if (Math.abs(end - before) > 0.08 * (end - asked)) {
                    jumps.add("kiln %d at %.0f °C: %+.1f %%"
                            .formatted(kiln, celsius, 100 * (end - before) / (end - asked)));
                }
                before = end;
            }
        }
        assertThat(jumps).isEmpty();
    }

    private static double sixty(Trace log, double roomC) {
        return Forecaster.forecast(ForecastQuestion.about(log)
                        .withAmbient(Temperature.ofCelsius(roomC))
                        .withBelow(List.of(Temperature.ofCelsius(60))))
                .below()
                .get(0)
                .when()
                .orElseThrow()
                .atS();
    }

    /** One reading in two, which is one a minute, with noise, in half degrees. */
    private static Trace sparse(Trace fine, long seed) {
        Random random = new Random(seed);
        Trace.Builder sparse = new Trace.Builder();
        for (int i = 0; i < fine.size(); i += EVERY_SECOND) {
            double read = Math.rint(2 * (fine.temperatureC(i) + NOISE_K * random.nextGaussian())) / 2;
            sparse.add(fine.elapsedMs(i), read, fine.output(i), OptionalDouble.empty());
        }
        return sparse.view();
    }
}
