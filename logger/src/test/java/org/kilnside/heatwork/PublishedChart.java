package org.kilnside.heatwork;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.kilnside.firing.ConeSeries;

/**
 * The published wall chart the cone tables are fitted to and checked against: "Temperature Equivalents for Pyrometric
 * Cones", The Edward Orton Jr. Ceramic Foundation.
 */
final class PublishedChart {
    private PublishedChart() {}

    /**
     * One printed value.
     *
     * @param temperatureC from the printed °F, the finer figure
     */
    record Row(ConeSeries series, Cone cone, double rateKPerH, double temperatureC) {
        /** Large cone 14 is printed hotter at 60 than at 150 °C/h: no rate law does that, so it is in no fit. */
        boolean contradictsAnyRateLaw() {
            return series == ConeSeries.LARGE && cone.number().equals("14");
        }
    }

    static List<Row> rows() {
        try (InputStream stream = PublishedChart.class.getResourceAsStream("cone-equivalents.csv");
                BufferedReader reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
            return reader.lines()
                    .filter(line -> !line.startsWith("#") && !line.startsWith("cone,"))
                    .map(line -> line.split(",", -1))
                    .filter(cell -> cell[1].endsWith("_regular"))
                    .map(cell -> new Row(
                            ConeSeries.ofWord(cell[1].replace("_regular", "")).orElseThrow(),
                            Cone.parse(cell[0]),
                            Double.parseDouble(cell[2]),
                            (Double.parseDouble(cell[4]) - 32) / 1.8))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static List<Row> rows(ConeSeries series) {
        return rows().stream().filter(row -> row.series() == series).toList();
    }
}
