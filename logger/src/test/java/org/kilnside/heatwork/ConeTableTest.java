package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.firing.ConeSeries;
import org.kilnside.quantity.HeatingRate;

class ConeTableTest {
    /** Independent: the fit is made again from the published chart. */
    @ParameterizedTest
    @EnumSource(ConeSeries.class)
    void theConstantsAreTheFitOfThePublishedChart(ConeSeries series) {
        List<ConeTable.Constants> kept = ConeConstants.of(series);
        List<ConeTable.Constants> fitted = ConeFit.fit(series);
        assertThat(fitted).hasSameSizeAs(kept);
        for (int i = 0; i < kept.size(); i++) {
            assertThat(kept.get(i).cone()).isEqualTo(fitted.get(i).cone());
            assertThat(kept.get(i).activationKilojoulePerMol())
                    .isCloseTo(fitted.get(i).activationKilojoulePerMol(), within(0.05));
            assertThat(kept.get(i).logRatePerS()).isCloseTo(fitted.get(i).logRatePerS(), within(0.01));
        }
    }

    /** Published: every temperature of the wall chart but large cone 14. */
    @Test
    void everyChartTemperatureIsReproducedAndHalfOfThemWithinADegreeAndAHalf() {
        List<Double> errors = new ArrayList<>();
        for (PublishedChart.Row row : PublishedChart.rows()) {
            if (row.contradictsAnyRateLaw()) {
                continue;
            }
            double error = errorK(row);
            assertThat(error)
                    .as("%s %s at %s °C/h", row.series(), row.cone(), row.rateKPerH())
                    .isCloseTo(0, within(row.rateKPerH() == 15 ? 4.0 : 4.5));
            errors.add(Math.abs(error));
        }
        assertThat(errors).hasSize(111 + 66 + 35 + 2);
        Collections.sort(errors);
        assertThat(errors.get(errors.size() / 2)).isLessThanOrEqualTo(1.5);
    }

    @Test
    void largeConeFourteenLiesBetweenItsTwoPrintedTemperatures() {
        ConeTable large = ConeTable.of(ConeSeries.LARGE);
        Cone fourteen = Cone.parse("14");
        for (double rate : new double[] {60, 150}) {
            assertThat(large.temperature(fourteen, HeatingRate.ofKelvinPerHour(rate))
                            .orElseThrow()
                            .celsius())
                    .isBetween(1360.0, 1392.0);
        }
    }

    @Test
    void namesAConeAtSixtyDegreesAnHour() {
        ConeTable table = ConeTable.of(ConeSeries.SELF_SUPPORTING);
        assertThat(table.temperature(Cone.parse("06")).orElseThrow().celsius()).isCloseTo(998, within(0.5));
        assertThat(table.temperature(Cone.parse("6")).orElseThrow().celsius()).isCloseTo(1222, within(0.5));
    }

    @Test
    void knowsWhichConesASeriesIsMadeIn() {
        assertThat(ConeTable.of(ConeSeries.SELF_SUPPORTING).wholeCones()).isEqualTo(Cone.whole());
        assertThat(ConeTable.of(ConeSeries.LARGE).wholeCones().get(0)).isEqualTo(Cone.parse("019"));
        assertThat(ConeTable.of(ConeSeries.LARGE).temperature(Cone.parse("022")))
                .isEmpty();
        List<Cone> small = ConeTable.of(ConeSeries.SMALL).wholeCones();
        assertThat(small.get(small.size() - 1)).isEqualTo(Cone.parse("12"));
    }

    /** The chart's own order: a harder cone needs more, at every charted rate. */
    @ParameterizedTest
    @EnumSource(ConeSeries.class)
    void aHarderConeNeedsMoreAtTheChartedRates(ConeSeries series) {
        ConeTable table = ConeTable.of(series);
        double[] rates = series == ConeSeries.SMALL ? new double[] {300} : new double[] {60, 150};
        for (double rate : rates) {
            double last = 0;
            for (Cone cone : table.cones()) {
                double celsius = table.temperature(cone, HeatingRate.ofKelvinPerHour(rate))
                        .orElseThrow()
                        .celsius();
                assertThat(celsius).as("%s %s at %s °C/h", series, cone, rate).isGreaterThan(last);
                last = celsius;
            }
        }
    }

    static double errorK(PublishedChart.Row row) {
        return ConeTable.of(row.series())
                        .temperature(row.cone(), HeatingRate.ofKelvinPerHour(row.rateKPerH()))
                        .orElseThrow()
                        .celsius()
                - row.temperatureC();
    }
}
