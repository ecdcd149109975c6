package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.kilnside.thermal.OutputShown.asked;
import static org.kilnside.thermal.OutputShown.untold;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** An output that reads full while only a part of it heats. Virtual kilns are independent of the model. */
class PinnedOutputTest {
    private static VirtualTrial fired() {
        return OutputShown.fired(Population.Family.LIGHT_BRICK);
    }

    /** The same log, its relay met on each time as long as it is switched at all. */
    private static Trace metOn(Trace log) {
        return OutputShown.in(log, output -> output > 0 ? 1 : 0);
    }

    private static boolean says(Forecast forecast) {
        return forecast.remarks().stream().anyMatch(each -> each.kind() == Remark.Kind.FULL_OUTPUT_CONTRADICTED);
    }

    @ParameterizedTest
    @ValueSource(doubles = {900, 500, 300})
    void aCoolingIsForecastAsIfTheOutputWereNotTold(double celsius) {
        VirtualTrial fired = fired();
        Trace log = fired.until(fired.belowS(celsius), true);
        Forecast pinned = asked(metOn(log));
        assertThat(says(pinned)).isTrue();
        assertThat(pinned.below()).isEqualTo(asked(untold(log)).below());
        double left = fired.belowS(60) - fired.belowS(celsius);
        Forecast.When when = pinned.below().get(2).when().orElseThrow();
        assertThat((when.atS() - pinned.askedS()) / left).isCloseTo(1, within(0.25));
    }

    @Test
    void aClimbIsForecastWithoutIt() {
        VirtualTrial fired = fired();
        Trace log = fired.until(fired.aboveS(800), true);
        assertThat(says(asked(metOn(log)))).isTrue();
        assertThat(asked(metOn(log)).arrival()).isEqualTo(asked(untold(log)).arrival());
    }

    /** Not a moment of it looks like half power: neither hours at full output nor the weakest kiln's last kelvins. */
    @ParameterizedTest
    @EnumSource(Population.Family.class)
    void aKilnThatGivesAllItHasIsBelieved(Population.Family family) {
        for (int kiln = 0; kiln < 4; kiln++) {
            Schedule fast = Programs.glaze(1250, 400);
            VirtualTrial fired = VirtualTrial.run(
                    new Population(family, 23)
                            .specimen(kiln)
                            .glazeFiring(fast, 0)
                            .interval(10)
                            .controller(ControllerSpec.waiting())
                            .start(),
                    fast,
                    20,
                    Double.POSITIVE_INFINITY);
            assertThat(PinnedOutput.sinceS(Course.of(fired.until(1e9, true))))
                    .as("%s %d", family, kiln)
                    .isEmpty();
        }
    }
}
