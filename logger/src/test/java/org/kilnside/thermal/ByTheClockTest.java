package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** Kilns with worn elements whose controllers go by the clock, or wait. Virtual kilns, independent of the model. */
class ByTheClockTest {
    private static final long SEED = 43;
    private static final double MOST_S = 45 * 3600;
    private static final double[] RESISTANCES = {1.2, 1.4, 1.6, 1.8, 2};

    private record Asked(String kiln, boolean gotThere, double offS, double highestC, Forecast said) {
        Reaches reaches() {
            return said.arrival().orElseThrow().reaches();
        }
    }

    private static List<Asked> asked(boolean waits, double belowTopK, boolean withSetpoint) {
        List<Asked> asked = new ArrayList<>();
        for (Population.Family family : Population.Family.values()) {
            for (int kiln = 0; kiln < RESISTANCES.length && family != Population.Family.FIBRE; kiln++) {
                Schedule plan = Programs.glaze(1170 + 12 * kiln, 100);
                VirtualTrial firing = VirtualTrial.run(
                        new Population(family, SEED)
                                .specimen(kiln)
                                .glazeFiring(plan, 0)
                                .interval(10)
                                .elementResistance(RESISTANCES[kiln])
                                .controller(waits ? ControllerSpec.waiting() : ControllerSpec.byTheClock())
                                .start(),
                        plan,
                        900,
                        MOST_S);
                double topC = plan.top().celsius();
                double at = firing.aboveS(topC - belowTopK);
                if (!(at < firing.offS() - 600)) {
                    continue;
                }
                Trace log = firing.until(at, true);
                Forecast said = Forecaster.forecast(ForecastQuestion.about(withSetpoint ? log : withoutSetpoint(log))
                        .withPlan(plan));
                boolean gotThere = firing.peakC() > topC - 4;
                asked.add(new Asked(family + " " + kiln, gotThere, firing.offS(), firing.peakC(), said));
            }
        }
        return asked;
    }

    private static Trace withoutSetpoint(Trace log) {
        Trace.Builder bare = new Trace.Builder();
        for (int i = 0; i < log.size(); i++) {
            bare.add(log.elapsedMs(i), log.temperatureC(i), log.output(i), OptionalDouble.empty());
        }
        return bare.view();
    }

    private static boolean remarks(Asked asked, Remark.Kind kind) {
        return asked.said().remarks().stream().anyMatch(each -> each.kind() == kind);
    }

    @Test
    void aPlanThatEndsByTheClockBeforeItsTopIsNotSaidToReachIt() {
        for (double belowTopK : new double[] {300, 150}) {
            List<Asked> all = asked(false, belowTopK, true);
            List<Asked> lost = all.stream().filter(each -> !each.gotThere()).toList();
            assertThat(lost).hasSizeGreaterThan(2).noneMatch(each -> each.reaches() == Reaches.YES);
            assertThat(lost.stream().filter(each -> each.reaches() == Reaches.NO))
                    .hasSizeGreaterThan(2);
            assertThat(all).noneMatch(each -> each.gotThere() && each.reaches() == Reaches.NO);
        }
    }

    @Test
    void itsHighestIsThatOfAPlanCutShort() {
        for (Asked each : asked(false, 150, true)) {
            if (each.reaches() == Reaches.NO && !each.gotThere()) {
                Optional<Forecast.TopsOut> topsOut =
                        each.said().arrival().orElseThrow().topsOut();
                assertThat(topsOut.orElseThrow().at().celsius())
                        .as(each.kiln())
                        .isCloseTo(each.highestC(), within(20.0));
            }
        }
    }

    @Test
    void aControllerThatWaitsIsTakenAtItsWord() {
        List<Asked> all = asked(true, 150, true);
        assertThat(all).noneMatch(each -> each.gotThere() && each.reaches() == Reaches.NO);
        assertThat(all).noneMatch(each -> remarks(each, Remark.Kind.SETPOINT_RUNS_AHEAD));
        assertThat(all.stream().filter(each -> each.reaches() == Reaches.YES)).isNotEmpty();
    }

    @Test
    void withoutASetpointItIsSaidWhatCannotBeKnown() {
        List<Asked> late = asked(false, 300, false).stream()
                .filter(each -> !each.gotThere() && each.reaches() == Reaches.YES)
                .toList();
        assertThat(late).isNotEmpty().allMatch(each -> remarks(each, Remark.Kind.MAY_END_BY_THE_CLOCK));
    }
}
