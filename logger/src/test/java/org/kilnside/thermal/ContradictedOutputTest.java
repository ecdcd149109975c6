package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kilnside.thermal.OutputShown.asked;
import static org.kilnside.thermal.OutputShown.untold;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.firing.Trace;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.virtualkiln.Population;

/** An output that reads nothing while the kiln climbs. Virtual kilns are independent of the model. */
class ContradictedOutputTest {
    private static VirtualTrial fired() {
        return OutputShown.fired(Population.Family.LIGHT_BRICK);
    }

    /** The same log, its output met off each time until the relay is on for most of its window. */
    private static Trace aliased(Trace log) {
        return OutputShown.in(log, output -> output < 0.6 ? 0 : (output - 0.6) / 0.4);
    }

    private static boolean says(Forecast forecast) {
        return forecast.remarks().stream().anyMatch(each -> each.kind() == Remark.Kind.OUTPUT_CONTRADICTED);
    }

    @ParameterizedTest
    @ValueSource(doubles = {700, 500, 300})
    void aCoolingIsForecastAsIfTheOutputWereNotTold(double celsius) {
        VirtualTrial fired = fired();
        Trace log = fired.until(fired.belowS(celsius), true);
        Forecast aliased = asked(aliased(log));
        Forecast untold = asked(untold(log));
        assertThat(says(aliased)).isTrue();
        assertThat(aliased.below()).isEqualTo(untold.below());
        double left = fired.belowS(60) - fired.belowS(celsius);
        Forecast.When when = aliased.below().get(2).when().orElseThrow();
        assertThat((when.atS() - aliased.askedS()) / left).isCloseTo(1, within(0.25));
    }

    @Test
    void aClimbIsForecastWithoutItAndWithOneSentence() {
        VirtualTrial fired = fired();
        Forecast forecast = asked(aliased(fired.until(fired.aboveS(800), true)));
        assertThat(says(forecast)).isTrue();
        assertThat(forecast.remarks()).noneMatch(each -> each.kind().distrustsNumber());
        assertThat(forecast.remarks()).noneMatch(each -> each.kind() == Remark.Kind.OUTPUT_UNKNOWN);
    }

    @Test
    void anEarlierFiringWhoseOutputIsGainsaidTeachesItsCoolingAlone() {
        VirtualTrial fired = fired();
        Trace whole = fired.until(30 * 3600, true);
        KilnMemory gainsaid = KilnMemory.of(List.of(aliased(whole)), Optional.empty(), OptionalDouble.empty());
        assertThat(gainsaid.lastWithPower()).isEmpty();
        assertThat(KilnMemory.of(List.of(whole), Optional.empty(), OptionalDouble.empty())
                        .lastWithPower())
                .isPresent();
    }

    @ParameterizedTest
    @EnumSource(Population.Family.class)
    void anOutputThatIsWhatTheElementsGetIsBelieved(Population.Family family) {
        for (int kiln = 0; kiln < 4; kiln++) {
            VirtualTrial fired = VirtualTrial.of(family, 17, kiln, 1, kiln % 2 == 1);
            assertThat(ContradictedOutput.isIn(Course.of(fired.until(1e9, true))))
                    .as("%s %d", family, kiln)
                    .isFalse();
        }
    }

    /** A lid shut again lets the number rise by a hundred kelvin and more with nothing on: that comes to an end. */
    @Test
    void theReboundAfterALidWasShutGainsaysNothing() {
        VirtualTrial fired = fired();
        Trace log = fired.until(fired.belowS(300), true);
        Trace.Builder rebound = new Trace.Builder();
        for (int i = 0; i < log.size(); i++) {
            double after = (log.elapsedMs(i) / 1000.0 - fired.belowS(400)) / 600;
            double air = after < 0 ? 0 : after < 1 ? 150 : 150 * Math.exp(-(after - 1));
            rebound.add(log.elapsedMs(i), log.temperatureC(i) - air, log.output(i), log.setpointC(i));
        }
        assertThat(ContradictedOutput.isIn(Course.of(rebound.view()))).isFalse();
    }
}
