package org.kilnside.sensor;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.kilnside.ValidationPage;
import org.kilnside.quantity.Temperature;

/** Writes what is known of the thermocouple functions into docs/validation.md, or finds the page stale. */
class EmfValidationTest {
    @Test
    void thePageSaysHowEveryPrintedCellAndTheWayBackComeOut() {
        List<PrintedTables.Cell> cells = PrintedTables.cells();
        List<String> lines = new ArrayList<>();
        lines.add(
                "| type | printed cells | largest difference, mV | range both ways, °C | there and back within, °C |");
        lines.add("| --- | --- | --- | --- | --- |");
        for (ThermocoupleType type : ThermocoupleType.values()) {
            ReferenceFunction function = ReferenceFunction.of(type);
            List<PrintedTables.Cell> own =
                    cells.stream().filter(cell -> cell.type() == type).toList();
            double worstMv = own.stream()
                    .mapToDouble(cell -> Math.abs(function.emfMv(cell.temperatureC()) - cell.emfMv()))
                    .max()
                    .orElseThrow();
            assertThat(worstMv).isLessThan(0.000_501);
            double from = function.lowestInvertible().celsius();
            double to = function.highest().celsius();
            double worstC = 0;
            for (int i = 0; i <= 20_000; i++) {
                double at = from + (to - from) * i / 20_000;
                worstC = Math.max(worstC, Math.abs(function.temperatureC(function.emfMv(at)) - at));
            }
            // The last digits depend on nothing but the page's own figures, so a bound is enough to show.
            assertThat(worstC).isLessThan(1e-9);
            lines.add(String.format(
                    Locale.ROOT, "| %s | %,d | %.5f | %.0f … %.0f | 1e-9 |", type, own.size(), worstMv, from, to));
        }
        ValidationPage.holds("emf", lines);
    }

    @Test
    void thePageSaysWhatAnUncorrectedAmplifierShows() {
        List<String> lines = new ArrayList<>();
        lines.add("| shown, °C | truly, MAX31855 | truly, MAX6675 |");
        lines.add("| --- | --- | --- |");
        Thermometer one = Thermometer.of(new Probe(ThermocoupleType.K, Amplifier.MAX31855));
        Thermometer other = Thermometer.of(new Probe(ThermocoupleType.K, Amplifier.MAX6675));
        for (double shownC : new double[] {100, 300, 600, 800, 1000, 1060, 1200, 1222, 1285}) {
            lines.add(String.format(
                    Locale.ROOT,
                    "| %.0f | %s | %s |",
                    shownC,
                    truly(one, shownC),
                    shownC > Amplifier.MAX6675.highestC() ? "cannot be shown" : truly(other, shownC)));
        }
        ValidationPage.holds("amplifier", lines);
    }

    private static String truly(Thermometer thermometer, double shownC) {
        return thermometer
                .behind(Temperature.ofCelsius(shownC), Temperature.ofCelsius(25))
                .map(truth -> String.format(Locale.ROOT, "%.1f", truth.celsius()))
                .orElse("beyond the thermocouple");
    }
}
