package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Interval;
import org.kilnside.sensor.SensorUncertainty;

class CooledConeTest {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);
    private static final double TOP_C = 1222;
    private static final Trace RISEN = Curves.from(900).ramp(60, TOP_C).hold(10).every(60_000);

    private static double steps(ConePosition position) {
        return position.steps().orElse(-1);
    }

    /** The same rise with a cooling drawn by hand. */
    private static ConeReached drawn(DoubleUnaryOperator afterS) {
        Trace.Builder line = new Trace.Builder();
        for (int i = 0; i < RISEN.size(); i++) {
            line.add(RISEN.elapsedMs(i), RISEN.temperatureC(i));
        }
        for (int s = 30; s < 4 * 3600; s += 30) {
            line.add(RISEN.elapsedMs(RISEN.size() - 1) + 1000L * s, afterS.applyAsDouble(s));
        }
        return HeatWork.ofLine(TABLE, line.view()).reached(SensorUncertainty.UNKNOWN);
    }

    /**
     * Independent: the fastest, the middle and the slowest first 25 °C of nine in ten simulated glaze firings, in min, and half
     * as slowly again from then on.
     */
    @Test
    void itsRangeHoldsTheCoolingsOfOtherKilns() {
        CooledCone cooled = CooledCone.of(TABLE, RISEN, List.of(), SensorUncertainty.UNKNOWN);
        Interval<ConePosition> alone = CooledCone.usual(TABLE, RISEN, List.of(), SensorUncertainty.UNKNOWN)
                .between();
        for (double minutes : new double[] {2.1, 3.3, 7}) {
            double firstS = minutes * 60;
            double constantS = 1.5 * firstS * (TOP_C - 20) / 25;
            ConeReached other = drawn(s ->
                    s < firstS ? TOP_C - 25 * s / firstS : 20 + (TOP_C - 45) * Math.exp(-(s - firstS) / constantS));
            assertThat(cooled.coolingAdded()
                            .orElseThrow()
                            .contains(other.coolingAdded().orElseThrow()))
                    .as("the rest of a cooling of %s min", minutes)
                    .isTrue();
            assertThat(cooled.whole().between().contains(other.cone())).isTrue();
        }
        assertThat(cooled.whole().between().from()).isLessThan(alone.from());
        assertThat(cooled.whole().between().to()).isGreaterThan(alone.to());
    }

    @Test
    void theMiddleIsTheSameWithAndWithoutTheRange() {
        assertThat(steps(CooledCone.of(TABLE, RISEN, List.of(), SensorUncertainty.UNKNOWN)
                        .whole()
                        .cone()))
                .isCloseTo(
                        steps(CooledCone.usual(TABLE, RISEN, List.of(), SensorUncertainty.UNKNOWN)
                                .cone()),
                        within(1e-12));
    }

    @Test
    void aFiringThatBringsNothingDownHasNoCoolingToAdd() {
        Trace candling = Curves.from(20).ramp(60, 300).every(60_000);
        CooledCone cooled = CooledCone.of(TABLE, candling, List.of(), SensorUncertainty.UNKNOWN);
        assertThat(cooled.coolingAdded()).isEqualTo(Optional.empty());
        assertThat(cooled.whole().isBelowScale()).isTrue();
    }
}
