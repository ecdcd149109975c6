package org.kilnside.heatwork;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;

/**
 * Fits neighbouring cones together where each by itself would go down out of turn: cone 022 is printed 4 °C hotter at 150 than at
 * 60 °C/h and cone 021 17 °C, so by their own figures the softer one would outlast the harder at 15 °C/h or in a hold. A softer cone
 * goes down first however a kiln is fired; that is what cones are for.
 */
final class ConesInOrder {
    /** Between these rates a softer cone goes down first, K/h: the slowest does to a cone what a hold of two hours does. */
    static final double[] RATES_K_PER_H = {5, 300};

    /** By so much, K. */
    static final double APART_K = 1;

    private static final double NAMED_K_PER_H = 60;

    /** How much less an energy borrowed from another series counts than a printed figure. */
    private static final double BORROWED = 0.25;

    private static final double HELD = 20;

    /**
     * A cone's fit by itself.
     *
     * @param rows what is printed of it
     * @param borrowedKilojoule the activation energy of the other series, where it has none of its own
     */
    record Alone(List<PublishedChart.Row> rows, double kilojoule, double logRate, OptionalDouble borrowedKilojoule) {
        double endsAtC(double kelvinPerHour) {
            return ConesInOrder.endsAtC(kilojoule, logRate, kelvinPerHour);
        }

        /** The same with another energy and the same temperature at 60 °C/h. */
        Alone withEnergy(double another) {
            return another == kilojoule ? this : with(Math.log(another), endsAtC(NAMED_K_PER_H));
        }

        /** The same with another energy and another temperature at 60 °C/h. */
        Alone with(double logKilojoule, double namedC) {
            double changed = Math.exp(logKilojoule);
            double activationK = changed * 1000 / ConeTable.GAS_CONSTANT;
            return new Alone(
                    rows, changed, -ConeTable.logRampIntegral(activationK, namedC, NAMED_K_PER_H), borrowedKilojoule);
        }
    }

    private ConesInOrder() {}

    /** The fits of a series, softest first, with those changed that were out of turn and no others. */
    static List<Alone> of(List<Alone> alone) {
        List<Alone> cones = new ArrayList<>(alone);
        boolean[] tied = new boolean[cones.size()];
        for (boolean more = true; more; ) {
            more = false;
            for (int i = 0; i + 1 < cones.size(); i++) {
                if (!tied[i] && shortOfK(cones.get(i), cones.get(i + 1)) > 1e-2) {
                    tied[i] = true;
                    more = true;
                }
            }
            for (int from = 0; more && from + 1 < cones.size(); from++) {
                int to = from;
                while (to + 1 < cones.size() && tied[to]) {
                    to++;
                }
                if (to > from) {
                    List<Alone> together = together(alone.subList(from, to + 1));
                    for (int i = from; i <= to; i++) {
                        cones.set(i, together.get(i - from));
                    }
                    from = to;
                }
            }
        }
        return cones;
    }

    /** By how much two neighbours are nearer than they may be at any rate, K. */
    private static double shortOfK(Alone softer, Alone harder) {
        double most = 0;
        for (double rate : RATES_K_PER_H) {
            most = Math.max(most, APART_K - (harder.endsAtC(rate) - softer.endsAtC(rate)));
        }
        return most;
    }

    private static List<Alone> together(List<Alone> neighbours) {
        int count = neighbours.size();
        double[] start = new double[2 * count];
        for (int i = 0; i < count; i++) {
            start[2 * i] = Math.log(neighbours.get(i).kilojoule());
            start[2 * i + 1] = neighbours.get(i).endsAtC(NAMED_K_PER_H);
        }
        MultivariateJacobianFunction model = point -> {
            double[] here = point.toArray();
            double[] residuals = residuals(neighbours, here);
            double[][] slopes = new double[residuals.length][here.length];
            for (int p = 0; p < here.length; p++) {
                double step = p % 2 == 0 ? 1e-6 : 1e-5;
                double[] there = here.clone();
                there[p] += step;
                double[] moved = residuals(neighbours, there);
                for (int r = 0; r < residuals.length; r++) {
                    slopes[r][p] = (moved[r] - residuals[r]) / step;
                }
            }
            RealVector value = new ArrayRealVector(residuals);
            return new Pair<>(value, new Array2DRowRealMatrix(slopes));
        };
        double[] found = new LevenbergMarquardtOptimizer()
                .withCostRelativeTolerance(1e-8)
                .withParameterRelativeTolerance(1e-8)
                .optimize(new LeastSquaresBuilder()
                        .model(model)
                        .start(start)
                        .target(new double[residuals(neighbours, start).length])
                        .maxEvaluations(2000)
                        .maxIterations(2000)
                        .build())
                .getPoint()
                .toArray();
        return at(neighbours, found);
    }

    private static List<Alone> at(List<Alone> neighbours, double[] point) {
        List<Alone> cones = new ArrayList<>();
        for (int i = 0; i < neighbours.size(); i++) {
            cones.add(neighbours.get(i).with(point[2 * i], point[2 * i + 1]));
        }
        return cones;
    }

    /** Off the chart by so many K; the order, where it is broken, weighs twenty times as much. */
    private static double[] residuals(List<Alone> neighbours, double[] point) {
        List<Alone> cones = at(neighbours, point);
        List<Double> off = new ArrayList<>();
        for (int i = 0; i < cones.size(); i++) {
            Alone cone = cones.get(i);
            for (PublishedChart.Row row : cone.rows()) {
                off.add(cone.endsAtC(row.rateKPerH()) - row.temperatureC());
            }
            cone.borrowedKilojoule().ifPresent(kilojoule -> off.add(BORROWED * slopeK(cone, kilojoule)));
            for (double rate : RATES_K_PER_H) {
                double apart =
                        i == 0 ? APART_K : cone.endsAtC(rate) - cones.get(i - 1).endsAtC(rate);
                off.add(HELD * Math.min(0, apart - APART_K));
            }
        }
        return off.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** How much more or less than with the borrowed energy a cone's temperature changes from 300 to 60 °C/h, K. */
    private static double slopeK(Alone cone, double borrowedKilojoule) {
        double named = cone.endsAtC(NAMED_K_PER_H);
        double other = cone.with(Math.log(borrowedKilojoule), named).endsAtC(300);
        return cone.endsAtC(300) - other;
    }

    private static double endsAtC(double kilojoule, double logRate, double kelvinPerHour) {
        return ConeTable.endsAtC(kilojoule * 1000 / ConeTable.GAS_CONSTANT, logRate, kelvinPerHour);
    }
}
