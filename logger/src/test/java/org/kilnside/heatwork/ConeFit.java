package org.kilnside.heatwork;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.ConeTable.Constants;

/**
 * Fits the rate law to the published chart: least squares on the temperatures, cone by cone, and neighbours together where
 * they would go down out of turn ({@link ConesInOrder}).
 *
 * <p>Where the chart gives a cone at one rate alone (small cones), or contradicts itself (large cone 14), the activation
 * energy is that of the self-supporting cone of the same number.
 */
final class ConeFit {
    private static final double SOFTEST_KJ = 150;
    private static final double STEEPEST_KJ = 3000;

    private ConeFit() {}

    /** Prints the rows of {@code ConeConstants}. */
    public static void main(String[] arguments) {
        for (ConeSeries series : ConeSeries.values()) {
            System.out.println(series);
            for (Constants row : fit(series)) {
                System.out.println(String.format(
                        Locale.ROOT,
                        "            row(\"%s\", %.3f, %.6f, %.0f),",
                        row.cone().number(),
                        row.activationKilojoulePerMol(),
                        row.logRatePerS(),
                        row.printedC() * 1.8 + 32));
            }
        }
    }

    static List<Constants> fit(ConeSeries series) {
        Map<Cone, Double> borrowed = new HashMap<>();
        if (series != ConeSeries.SELF_SUPPORTING) {
            fit(ConeSeries.SELF_SUPPORTING).forEach(row -> borrowed.put(row.cone(), row.activationKilojoulePerMol()));
        }
        List<PublishedChart.Row> chart = PublishedChart.rows(series);
        List<ConesInOrder.Alone> alone = new ArrayList<>();
        for (Cone cone : Cone.values()) {
            List<PublishedChart.Row> rows =
                    chart.stream().filter(row -> row.cone().equals(cone)).toList();
            if (rows.isEmpty()) {
                continue;
            }
            boolean borrows = rows.size() == 1 || rows.get(0).contradictsAnyRateLaw();
            double kilojoule = rounded(borrows ? borrowed.get(cone) : bestActivation(rows), 1e3);
            alone.add(new ConesInOrder.Alone(
                    rows,
                    kilojoule,
                    logRate(kilojoule, rows),
                    borrows ? OptionalDouble.of(kilojoule) : OptionalDouble.empty()));
        }
        return ConesInOrder.of(alone).stream()
                .map(fit -> fit.withEnergy(rounded(fit.kilojoule(), 1e3)))
                .map(fit -> new Constants(
                        fit.rows().get(0).cone(), fit.kilojoule(), rounded(fit.logRate(), 1e6), named(fit.rows())))
                .toList();
    }

    private static double named(List<PublishedChart.Row> rows) {
        return rows.stream()
                .filter(row -> row.rateKPerH() == 60 || rows.size() == 1)
                .findFirst()
                .orElseThrow()
                .temperatureC();
    }

    private static double bestActivation(List<PublishedChart.Row> rows) {
        return new BrentOptimizer(1e-10, 1e-9)
                .optimize(
                        new MaxEval(500),
                        GoalType.MINIMIZE,
                        new UnivariateObjectiveFunction(kilojoule -> squares(kilojoule, rows)),
                        new SearchInterval(SOFTEST_KJ, STEEPEST_KJ, 700))
                .getPoint();
    }

    private static double squares(double kilojoule, List<PublishedChart.Row> rows) {
        double logRate = logRate(kilojoule, rows);
        double sum = 0;
        for (PublishedChart.Row row : rows) {
            double residual = residualK(kilojoule, logRate, row);
            sum += residual * residual;
        }
        return sum;
    }

    /** The ln A that leaves no mean residual. */
    private static double logRate(double kilojoule, List<PublishedChart.Row> rows) {
        double activationK = kilojoule * 1000 / ConeTable.GAS_CONSTANT;
        PublishedChart.Row any = rows.get(rows.size() - 1);
        double logRate = -ConeTable.logRampIntegral(activationK, any.temperatureC(), any.rateKPerH());
        double endK = any.temperatureC() + 273.15;
        for (int round = 0; round < 8; round++) {
            double mean = 0;
            for (PublishedChart.Row row : rows) {
                mean += residualK(kilojoule, logRate, row) / rows.size();
            }
            logRate += mean * activationK / (endK * endK);
        }
        return logRate;
    }

    private static double residualK(double kilojoule, double logRate, PublishedChart.Row row) {
        return ConeTable.endsAtC(kilojoule * 1000 / ConeTable.GAS_CONSTANT, logRate, row.rateKPerH())
                - row.temperatureC();
    }

    private static double rounded(double value, double perUnit) {
        return Math.rint(value * perUnit) / perUnit;
    }
}
