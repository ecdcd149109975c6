package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.SensorUncertainty;

class PlanHeatTest {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);
    private static final Cone SIX = Cone.parse("6");

    /** Published: the chart's tops at 60 and 150 °C/h. */
    @ParameterizedTest
    @CsvSource({"06, 60, 998", "06, 150, 1013", "04, 60, 1063", "6, 60, 1222", "6, 150, 1243", "10, 60, 1285"})
    void theTopWithoutAHoldIsTheCharts(String cone, double rate, double chartC) {
        assertThat(PlanHeat.topFor(TABLE, Cone.parse(cone), HeatingRate.ofKelvinPerHour(rate), Duration.ZERO)
                        .orElseThrow()
                        .celsius())
                .isCloseTo(chartC, within(4.5));
    }

    @Test
    void aHoldLowersTheTopAndTopAndHoldAreEachOthersInverse() {
        HeatingRate rate = HeatingRate.ofKelvinPerHour(100);
        Temperature top =
                PlanHeat.topFor(TABLE, SIX, rate, Duration.ofMinutes(10)).orElseThrow();
        Temperature without = PlanHeat.topFor(TABLE, SIX, rate, Duration.ZERO).orElseThrow();
        assertThat(top.celsius()).isBetween(without.celsius() - 20, without.celsius() - 5);
        assertThat(PlanHeat.holdFor(TABLE, SIX, rate, top).orElseThrow().toSeconds())
                .isBetween(599L, 601L);
        assertThat(PlanHeat.holdFor(
                        TABLE, SIX, rate, without.plus(top.minus(without).abs())))
                .contains(Duration.ZERO);
        assertThat(PlanHeat.holdFor(TABLE, SIX, rate, Temperature.ofCelsius(1000)))
                .isEmpty();
    }

    @ParameterizedTest
    @EnumSource(ConeSeries.class)
    void aSofterConeNeedsALowerTopHoweverSlowlyOrLongItIsFired(ConeSeries series) {
        ConeTable table = ConeTable.of(series);
        for (double rate : new double[] {15, 60, 150, 300}) {
            for (int minutes : new int[] {0, 15, 60, 120}) {
                double softerC = 0;
                for (Cone cone : table.cones()) {
                    double topC = PlanHeat.topFor(
                                    table, cone, HeatingRate.ofKelvinPerHour(rate), Duration.ofMinutes(minutes))
                            .orElseThrow()
                            .celsius();
                    assertThat(topC)
                            .as("%s cone %s at %s °C/h, %s min", series, cone.number(), rate, minutes)
                            .isGreaterThan(softerC);
                    softerC = topC;
                }
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"-200", "0", "20", "126", "300"})
    void atATopTypedADigitShortNoConeComesDown(double topC) {
        assertThat(PlanHeat.holdFor(TABLE, SIX, HeatingRate.ofKelvinPerHour(60), Temperature.ofCelsius(topC)))
                .isEmpty();
    }

    @Test
    void theBeginningOfTheCoolingBringsTheConeFurtherThanTheChartCounts() {
        HeatingRate rate = HeatingRate.ofKelvinPerHour(60);
        Temperature top = PlanHeat.topFor(TABLE, SIX, rate, Duration.ZERO).orElseThrow();
        ConePosition cooled = PlanHeat.cooled(TABLE, rate, top, Duration.ZERO);
        assertThat(cooled.past()).contains(SIX);
        assertThat(cooled.fraction().orElseThrow()).isBetween(0.05, 0.5);
    }

    /** Independent: the same firing as a curve, added up segment by segment. */
    @Test
    void theTopFoundBringsTheConeDownWhenFired() {
        HeatingRate rate = HeatingRate.ofKelvinPerHour(100);
        double topC = PlanHeat.topFor(TABLE, SIX, rate, Duration.ofMinutes(10))
                .orElseThrow()
                .celsius();
        Trace fired = Curves.from(20).ramp(100, topC).hold(10).every(1000);
        assertThat(HeatWork.of(TABLE, fired).share(SIX).orElseThrow()).isCloseTo(1, within(0.002));
    }

    @Test
    void aPlanComesToTheConeThatItsCurveComesTo() {
        Schedule plan = new Schedule(
                "Café bowls",
                List.of(
                        new Segment.Ramp(HeatingRate.ofKelvinPerHour(150), Temperature.ofCelsius(1120), Duration.ZERO),
                        new Segment.Ramp(
                                HeatingRate.ofKelvinPerHour(60), Temperature.ofCelsius(1222), Duration.ofMinutes(15)),
                        new Segment.FreeCooling()));
        PlanHeat.PlannedCone cone =
                PlanHeat.of(TABLE, plan.curveFrom(Temperature.ofCelsius(20)), SensorUncertainty.UNKNOWN);
        double steps = ConePosition.at(SIX).steps().orElseThrow();
        assertThat(cone.atEndOfTop().steps().orElseThrow() - steps).isCloseTo(0.86, within(0.02));
        assertThat(cone.whole().cone().steps().orElseThrow() - steps).isBetween(0.9, 1.15);
        assertThat(cone.whole().coolingAdded().orElseThrow()).isBetween(0.02, 0.3);
        assertThat(cone.whole().top()).isEqualTo(ConeReached.Top.SEEN);
        assertThat(cone.whole().gaps().isZero()).isTrue();
    }
}
