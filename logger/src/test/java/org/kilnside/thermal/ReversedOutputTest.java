package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kilnside.thermal.OutputShown.asked;
import static org.kilnside.thermal.OutputShown.fired;
import static org.kilnside.thermal.OutputShown.untold;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.firing.Trace;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.virtualkiln.Population;

/** An output that tells what is off instead of what is on. Virtual kilns are independent of the model. */
class ReversedOutputTest {
    private static Trace reversed(Trace log) {
        return OutputShown.in(log, output -> 1 - output);
    }

    private static boolean says(Forecast forecast) {
        return forecast.remarks().stream()
                .anyMatch(each -> each.kind() == Remark.Kind.REVERSED_OUTPUT_CONTRADICTED
                        || each.kind() == Remark.Kind.FULL_OUTPUT_WHILE_COOLING);
    }

    @ParameterizedTest
    @EnumSource(
            value = Population.Family.class,
            names = {"LIGHT_BRICK", "HEAVY_BRICK", "LAYERED"})
    void aClimbIsForecastWithoutItAndSaysSo(Population.Family family) {
        VirtualTrial fired = fired(family);
        Trace log = fired.until(fired.aboveS(700), true);
        Forecast forecast = asked(reversed(log));
        assertThat(says(forecast)).isTrue();
        assertThat(forecast.arrival()).isEqualTo(asked(untold(log)).arrival());
        assertThat(forecast.arrival().orElseThrow().topsOut()).isEmpty();
        assertThat(forecast.remarks()).noneMatch(each -> each.kind() == Remark.Kind.OUTPUT_UNKNOWN);
    }

    @ParameterizedTest
    @ValueSource(doubles = {900, 500, 300})
    void aCoolingIsForecastWithoutItToo(double celsius) {
        VirtualTrial fired = fired(Population.Family.LIGHT_BRICK);
        Trace log = fired.until(fired.belowS(celsius), true);
        Forecast forecast = asked(reversed(log));
        assertThat(says(forecast)).isTrue();
        assertThat(forecast.below()).isEqualTo(asked(untold(log)).below());
        double left = fired.belowS(60) - fired.belowS(celsius);
        Forecast.When when = forecast.below().get(2).when().orElseThrow();
        assertThat((when.atS() - forecast.askedS()) / left).isCloseTo(1, within(0.25));
    }

    /** A log that begins as the kiln cools has no climb to gainsay it: the cooling alone does. */
    @Test
    void fullOutputThroughAnHourOfPlainCoolingIsNoOutput() {
        VirtualTrial fired = fired(Population.Family.LIGHT_BRICK);
        Trace whole = fired.until(fired.belowS(600), true);
        Trace.Builder cooling = new Trace.Builder();
        for (int i = 0; i < whole.size(); i++) {
            if (whole.elapsedMs(i) > 1000 * (fired.belowS(1150))) {
                cooling.add(whole.elapsedMs(i), whole.temperatureC(i), OptionalDouble.of(1), OptionalDouble.empty());
            }
        }
        assertThat(ReversedOutput.onTheWayDownS(Course.of(cooling.view()))).isPresent();
        assertThat(ContradictedOutput.remark(Course.of(cooling.view()))
                        .orElseThrow()
                        .kind())
                .isEqualTo(Remark.Kind.FULL_OUTPUT_WHILE_COOLING);
    }

    /** Own course: it holds at 1000 °C; its sensor slips into the wall and reads 400 K less, and less yet as the wall's outside has it. */
    @Test
    void aSensorThatSlipsWhileTheElementsAreOnGainsaysNothing() {
        Trace.Builder log = new Trace.Builder();
        for (int s = 0; s <= 10 * 3600; s += 60) {
            double slippedS = s - 8 * 3600;
            double celsius = Math.min(1000, 20 + 150 * s / 3600.0);
            double reads = slippedS < 0 ? celsius : 500 + 100 * Math.exp(-slippedS / 3600);
            log.add(
                    s * 1000L,
                    reads,
                    OptionalDouble.of(slippedS < 0 ? 0.3 + celsius / 2500 : 1),
                    OptionalDouble.of(1000));
        }
        assertThat(ReversedOutput.onTheWayDownS(Course.of(log.view()))).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(Population.Family.class)
    void anOutputThatIsWhatTheElementsGetIsBelieved(Population.Family family) {
        for (int kiln = 0; kiln < 6; kiln++) {
            VirtualTrial fired = VirtualTrial.of(family, 29, kiln, 1, kiln % 2 == 1);
            assertThat(ReversedOutput.onTheWayDownS(Course.of(fired.until(1e9, true))))
                    .as("%s %d", family, kiln)
                    .isEmpty();
        }
    }
}
