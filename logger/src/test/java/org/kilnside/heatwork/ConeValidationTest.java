package org.kilnside.heatwork;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.kilnside.ValidationPage;
import org.kilnside.firing.ConeSeries;
import org.kilnside.sensor.SensorUncertainty;

/** Writes every residual of the cone tables into docs/validation.md, or finds the page stale. */
class ConeValidationTest {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);

    @Test
    void thePageSaysHowFarEverySeriesIsFromItsChart() {
        List<String> lines = new ArrayList<>();
        lines.add("| series | °C/h | values | median, °C | largest, °C |");
        lines.add("| --- | --- | --- | --- | --- |");
        for (ConeSeries series : ConeSeries.values()) {
            for (double rate : new double[] {15, 60, 150, 300}) {
                double[] errors = PublishedChart.rows(series).stream()
                        .filter(row -> row.rateKPerH() == rate && !row.contradictsAnyRateLaw())
                        .mapToDouble(row -> Math.abs(ConeTableTest.errorK(row)))
                        .sorted()
                        .toArray();
                if (errors.length > 0) {
                    double largest = errors[errors.length - 1];
                    assertThat(largest).isLessThan(rate == 15 ? 4.0 : 4.5);
                    lines.add(String.format(
                            Locale.ROOT,
                            "| %s | %.0f | %d | %.1f | %.1f |",
                            series.word(),
                            rate,
                            errors.length,
                            errors[errors.length / 2],
                            largest));
                }
            }
        }
        ValidationPage.holds("cones-summary", lines);
    }

    @Test
    void thePageShowsEveryResidual() {
        List<String> lines = new ArrayList<>();
        lines.add("Law less chart, °C; in brackets the chart's own figure. — where the chart has none.");
        lines.add("");
        lines.add("| cone | self-supporting 15 | 60 | 150 °C/h | large 60 | 150 °C/h | small 300 °C/h |");
        lines.add("| --- | --- | --- | --- | --- | --- | --- |");
        List<PublishedChart.Row> rows = PublishedChart.rows();
        for (Cone cone : Cone.values()) {
            lines.add("| " + cone.number()
                    + cell(rows, cone, ConeSeries.SELF_SUPPORTING, 15)
                    + cell(rows, cone, ConeSeries.SELF_SUPPORTING, 60)
                    + cell(rows, cone, ConeSeries.SELF_SUPPORTING, 150)
                    + cell(rows, cone, ConeSeries.LARGE, 60)
                    + cell(rows, cone, ConeSeries.LARGE, 150)
                    + cell(rows, cone, ConeSeries.SMALL, 300) + " |");
        }
        ValidationPage.holds("cones-table", lines);
    }

    @Test
    void thePageSaysWhatHoldsAndCoolingDo() {
        double sixC = TABLE.temperature(Cone.parse("6"), ConeTable.NAMED_AT)
                .orElseThrow()
                .celsius();
        HeatWork six = HeatWork.of(
                TABLE, Curves.from(20).ramp(150, 1100).ramp(60, sixC).every(1000));
        List<String> lines = new ArrayList<>();
        lines.add("| question | answer | what others say |");
        lines.add("| --- | --- | --- |");
        lines.add("| hold at the end of cone 6 (60 °C/h) until cone 7 | " + minutes(six, "7")
                + " min | 10–40 min (common practice); 1–2 h by the wall chart's rule |");
        lines.add("| … until cone 8 | " + minutes(six, "8")
                + " min | about 40 min (common practice); 2–4 h by the wall chart's rule |");
        for (double rate : new double[] {300, 200, 60}) {
            ConeReached cooled = HeatWork.of(
                            TABLE,
                            Curves.from(20)
                                    .ramp(150, 1100)
                                    .ramp(60, sixC)
                                    .ramp(rate, 600)
                                    .every(1000))
                    .reached(SensorUncertainty.UNKNOWN);
            double whole = cooled.cone().steps().orElseThrow()
                    - ConePosition.at(Cone.parse("6")).steps().orElseThrow();
            lines.add(String.format(
                    Locale.ROOT,
                    "| cooling from cone 6 at %.0f °C/h adds | %.2f cones, %.2f of them beyond 25 °C below the top | no"
                            + " published source |",
                    rate,
                    whole + cooled.coolingAdded().orElseThrow(),
                    cooled.coolingAdded().orElseThrow()));
        }
        ValidationPage.holds("cones-holds", lines);
    }

    private static long minutes(HeatWork work, String cone) {
        return work.timeToGo(Cone.parse(cone)).left().orElseThrow().toMinutes();
    }

    private static String cell(List<PublishedChart.Row> rows, Cone cone, ConeSeries series, double rate) {
        return rows.stream()
                .filter(row -> row.cone().equals(cone) && row.series() == series && row.rateKPerH() == rate)
                .findFirst()
                .map(row -> " | " + signed(ConeTableTest.errorK(row))
                        + String.format(Locale.ROOT, " (%.0f)", row.temperatureC()))
                .orElse(" | —");
    }

    private static String signed(double error) {
        return Math.abs(error) < 0.05 ? "0.0" : String.format(Locale.ROOT, "%+.1f", error);
    }
}
