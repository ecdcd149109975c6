package org.kilnside.sensor;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** The published tables this room is checked against: NIST Monograph 175 (1993) and NIST SRD 60. */
final class PrintedTables {
    private PrintedTables() {}

    /** One printed cell: the emf at a whole degree. */
    record Cell(ThermocoupleType type, int temperatureC, double emfMv) {}

    /** One printed approximate inverse with its range and error band. */
    record Inverse(
            ThermocoupleType type,
            int segment,
            double fromC,
            double toC,
            double fromMv,
            double toMv,
            double lowestErrorC,
            double highestErrorC,
            List<Double> coefficients) {
        double temperatureC(double emfMv) {
            double value = 0;
            for (int i = coefficients.size() - 1; i >= 0; i--) {
                value = value * emfMv + coefficients.get(i);
            }
            return value;
        }
    }

    /** All 12,026 printed cells. */
    static List<Cell> cells() {
        return lines("its90-table-1C.csv").stream()
                .map(line -> line.split(",", -1))
                .map(cell -> new Cell(
                        ThermocoupleType.valueOf(cell[0]), Integer.parseInt(cell[1]), Double.parseDouble(cell[2])))
                .toList();
    }

    /** All printed approximate inverses. */
    static List<Inverse> inverses() {
        Map<String, List<String[]>> bySegment = new TreeMap<>();
        for (String line : lines("its90-inverse.csv")) {
            String[] cell = line.split(",", -1);
            bySegment
                    .computeIfAbsent(cell[0] + cell[1], key -> new ArrayList<>())
                    .add(cell);
        }
        return bySegment.values().stream()
                .map(rows -> {
                    String[] first = rows.get(0);
                    return new Inverse(
                            ThermocoupleType.valueOf(first[0]),
                            Integer.parseInt(first[1]),
                            Double.parseDouble(first[2]),
                            Double.parseDouble(first[3]),
                            Double.parseDouble(first[4]),
                            Double.parseDouble(first[5]),
                            Double.parseDouble(first[6]),
                            Double.parseDouble(first[7]),
                            rows.stream().map(row -> Double.valueOf(row[9])).toList());
                })
                .toList();
    }

    private static List<String> lines(String name) {
        try (InputStream stream = PrintedTables.class.getResourceAsStream(name);
                BufferedReader reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
            return reader.lines()
                    .filter(line -> !line.startsWith("#") && !line.startsWith("type,"))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
