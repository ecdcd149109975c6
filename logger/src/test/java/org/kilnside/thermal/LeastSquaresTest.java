package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The solver of every fit against certified answers. Published source: NIST/ITL Statistical Reference Datasets,
 * nonlinear regression; the sets' files name their models.
 */
class LeastSquaresTest {
    private static final Map<String, Model> MODELS = Map.of(
            "MGH17", (b, x) -> b[0] + b[1] * Math.exp(-x * b[3]) + b[2] * Math.exp(-x * b[4]),
            "Lanczos1", LeastSquaresTest::lanczos,
            "Lanczos3", LeastSquaresTest::lanczos,
            "Misra1a", (b, x) -> b[0] * (1 - Math.exp(-b[1] * x)),
            "BoxBOD", (b, x) -> b[0] * (1 - Math.exp(-b[1] * x)),
            "Rat43", (b, x) -> b[0] / Math.pow(1 + Math.exp(b[1] - b[2] * x), 1 / b[3]),
            "Thurber",
                    (b, x) -> (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) / (1 + x * (b[4] + x * (b[5] + x * b[6]))));

    @FunctionalInterface
    interface Model {
        double at(double[] b, double x);
    }

    private static double lanczos(double[] b, double x) {
        return b[0] * Math.exp(-b[1] * x) + b[2] * Math.exp(-b[3] * x) + b[4] * Math.exp(-b[5] * x);
    }

    /**
     * One certified set from one of NIST's two starts.
     *
     * @param digits asked for: NIST's own criterion is four; the sums of exponentials are graded "average" to "higher"
     *     difficulty
     */
    record Run(String set, int start, int digits) {}

    static final List<Run> RUNS = List.of(
            new Run("MGH17", 2, 6),
            new Run("Lanczos1", 1, 6),
            new Run("Lanczos1", 2, 6),
            new Run("Lanczos3", 1, 5),
            new Run("Lanczos3", 2, 5),
            new Run("Misra1a", 1, 6),
            new Run("Misra1a", 2, 6),
            new Run("Thurber", 1, 6),
            new Run("Thurber", 2, 6),
            new Run("BoxBOD", 2, 6),
            new Run("Rat43", 1, 6),
            new Run("Rat43", 2, 6));

    /**
     * What came of it, worst parameter first.
     *
     * @param digits −log10 of the largest relative error of a parameter; eleven are certified, so eleven at most
     */
    record Found(int parameters, double digits, double spreadsOffPercent, double squaresOffPercent) {}

    static Found found(Run run) {
        Certified certified = Certified.of(run.set());
        LeastSquares.Solution solution = solve(run.set(), certified, run.start());
        int size = solution.parameters().length;
        double variance = solution.sumOfSquares() / (certified.x().size() - size);
        double worst = 1e-11;
        double spreads = 0;
        for (int i = 0; i < size; i++) {
            worst = Math.max(
                    worst, Math.abs(solution.parameters()[i] / certified.value()[i] - 1));
            double spread = Math.sqrt(variance * solution.covariance()[i][i]);
            spreads = Math.max(spreads, Math.abs(spread / certified.spread()[i] - 1));
        }
        return new Found(
                size,
                -Math.log10(worst),
                100 * spreads,
                100 * Math.abs(solution.sumOfSquares() / certified.sumOfSquares() - 1));
    }

    static List<Run> runs() {
        return RUNS;
    }

    @ParameterizedTest
    @MethodSource("runs")
    void findsTheCertifiedParameters(Run run) {
        Found found = found(run);
        assertThat(found.digits()).isGreaterThan(run.digits());
        if (!run.set().equals("Lanczos1")) {
            // Lanczos1's residuals are rounding: neither its sum of squares nor its spreads can be reproduced.
            assertThat(found.spreadsOffPercent()).isLessThan(0.1);
            assertThat(found.squaresOffPercent()).isLessThan(1e-4);
        }
    }

    static LeastSquares.Solution solve(String set, Certified certified, int start) {
        Model model = MODELS.get(set);
        LeastSquares.Residuals residuals = b -> {
            double[] r = new double[certified.x().size()];
            for (int i = 0; i < r.length; i++) {
                r[i] = model.at(b, certified.x().get(i)) - certified.y().get(i);
            }
            return r;
        };
        return LeastSquares.solve(
                residuals,
                start == 1 ? certified.start1() : certified.start2(),
                LeastSquares.Differences.CENTRAL,
                1e-5,
                1e-14,
                5000);
    }

    /** One set with what NIST certifies of it. */
    record Certified(
            List<Double> x,
            List<Double> y,
            double[] start1,
            double[] start2,
            double[] value,
            double[] spread,
            double sumOfSquares) {
        static Certified of(String set) {
            List<Double> x = new ArrayList<>();
            List<Double> y = new ArrayList<>();
            for (String line : lines("strd/" + set + ".csv")) {
                String[] cell = line.split(",", -1);
                x.add(Double.valueOf(cell[0]));
                y.add(Double.valueOf(cell[1]));
            }
            Map<String, String[]> rows = new LinkedHashMap<>();
            for (String line : lines("strd/certified.csv")) {
                String[] cell = line.split(",", -1);
                if (cell[0].equals(set)) {
                    rows.put(cell[1], cell);
                }
            }
            int size =
                    (int) rows.keySet().stream().filter(k -> k.startsWith("b")).count();
            double[][] columns = new double[4][size];
            for (int i = 0; i < size; i++) {
                for (int k = 0; k < 4; k++) {
                    columns[k][i] = Double.parseDouble(rows.get("b" + (i + 1))[2 + k]);
                }
            }
            return new Certified(
                    x, y, columns[0], columns[1], columns[2], columns[3], Double.parseDouble(rows.get("RSS")[4]));
        }

        private static List<String> lines(String name) {
            try (BufferedReader reader = new BufferedReader(new InputStreamReader(
                    Objects.requireNonNull(LeastSquaresTest.class.getResourceAsStream(name), name),
                    StandardCharsets.UTF_8))) {
                return reader.lines()
                        .filter(line -> !line.startsWith("#"))
                        .skip(1)
                        .toList();
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
