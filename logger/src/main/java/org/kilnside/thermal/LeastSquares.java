package org.kilnside.thermal;

import java.util.Arrays;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer.Optimum;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.ValueAndJacobianFunction;
import org.hipparchus.util.Pair;

/**
 * Nonlinear least squares by Levenberg–Marquardt: every fit of this room goes through here, and this is what is checked
 * against NIST's certified sets.
 */
final class LeastSquares {
    /** What is to be made small: residuals as a function of the parameters. */
    @FunctionalInterface
    interface Residuals {
        double[] at(double[] parameters);
    }

    /** How the derivatives are taken. */
    enum Differences {
        /** One more evaluation a parameter; the step is absolute up to parameters of 1. */
        FORWARD,
        /** Two more evaluations a parameter and several digits more; the step is a part of the parameter. */
        CENTRAL
    }

    /**
     * Where the search ended.
     *
     * @param parameters at the least sum of squares found
     * @param covariance (J'J)⁻¹ there; multiply by the residual variance when the residuals are not in units of σ
     * @param sumOfSquares of the residuals there
     * @param converged whether the search ended by itself and not by the limit on its evaluations
     */
    record Solution(double[] parameters, double[][] covariance, double sumOfSquares, boolean converged) {}

    private LeastSquares() {}

    /**
     * Looks for the least sum of squares.
     *
     * @param step of the difference quotients
     * @param tolerance relative, on cost and parameters
     */
    static Solution solve(
            Residuals residuals,
            double[] start,
            Differences differences,
            double step,
            double tolerance,
            int mostEvaluations) {
        Search search = new Search(residuals, differences, step);
        search.computeValue(start);
        boolean converged = true;
        try {
            Optimum optimum = new LevenbergMarquardtOptimizer()
                    .withCostRelativeTolerance(tolerance)
                    .withParameterRelativeTolerance(tolerance)
                    .withOrthoTolerance(tolerance * 1e-2)
                    .optimize(new LeastSquaresBuilder()
                            .start(start)
                            .model(search)
                            .target(new double[search.bestValue.length])
                            .lazyEvaluation(true)
                            .maxEvaluations(mostEvaluations)
                            .maxIterations(mostEvaluations)
                            .build());
            search.computeValue(optimum.getPoint().toArray());
        } catch (MathIllegalStateException limit) {
            // Out of evaluations, or no step makes it smaller any more: the best point seen is still the best known.
            converged = false;
        }
        RealMatrix jacobian = search.computeJacobian(search.best);
        return new Solution(search.best, covariance(jacobian), search.bestSum, converged);
    }

    /** (J'J)⁻¹ = R⁻¹ R⁻ᵀ, from J = QR, with columns scaled to one length first. */
    private static double[][] covariance(RealMatrix jacobian) {
        int size = jacobian.getColumnDimension();
        double[] length = new double[size];
        RealMatrix scaled = jacobian.copy();
        for (int k = 0; k < size; k++) {
            length[k] = Math.max(jacobian.getColumnVector(k).getNorm(), 1e-300);
            scaled.setColumnVector(k, jacobian.getColumnVector(k).mapDivide(length[k]));
        }
        RealMatrix upper = new QRDecomposition(scaled).getR().getSubMatrix(0, size - 1, 0, size - 1);
        RealMatrix columns = MatrixUtils.createRealIdentityMatrix(size);
        for (int k = 0; k < size; k++) {
            RealVector column = columns.getColumnVector(k);
            MatrixUtils.solveUpperTriangularSystem(upper, column);
            columns.setColumnVector(k, column);
        }
        double[][] covariance = columns.multiplyTransposed(columns).getData();
        for (int i = 0; i < size; i++) {
            for (int k = 0; k < size; k++) {
                covariance[i][k] /= length[i] * length[k];
            }
        }
        return covariance;
    }

    /** Evaluates, and remembers the best point seen. */
    private static final class Search implements ValueAndJacobianFunction {
        private final Residuals residuals;
        private final Differences differences;
        private final double step;
        private double[] best;
        private double[] bestValue;
        private double bestSum = Double.POSITIVE_INFINITY;
        private double[] latest;
        private double[] latestValue;

        Search(Residuals residuals, Differences differences, double step) {
            this.residuals = residuals;
            this.differences = differences;
            this.step = step;
        }

        @Override
        public RealVector computeValue(double[] at) {
            double[] value = residuals.at(at);
            double sum = 0;
            for (double each : value) {
                sum += each * each;
            }
            if (sum < bestSum || best == null) {
                best = at.clone();
                bestValue = value;
                bestSum = sum;
            }
            latest = at.clone();
            latestValue = value;
            return new ArrayRealVector(value, false);
        }

        @Override
        public RealMatrix computeJacobian(double[] at) {
            double[] value = Arrays.equals(at, latest) ? latestValue : residuals.at(at);
            double[][] jacobian = new double[value.length][at.length];
            double[] moved = at.clone();
            for (int k = 0; k < at.length; k++) {
                double size = Math.abs(at[k]);
                double by = step * (differences == Differences.CENTRAL && size > 0 ? size : Math.max(1, size));
                moved[k] = at[k] + by;
                double[] up = residuals.at(moved);
                double[] down = value;
                double span = moved[k] - at[k];
                if (differences == Differences.CENTRAL) {
                    moved[k] = at[k] - by;
                    down = residuals.at(moved);
                    span = 2 * by;
                }
                for (int i = 0; i < value.length; i++) {
                    jacobian[i][k] = (up[i] - down[i]) / span;
                }
                moved[k] = at[k];
            }
            return new Array2DRowRealMatrix(jacobian, false);
        }

        @Override
        public Pair<RealVector, RealMatrix> value(RealVector point) {
            double[] at = point.toArray();
            return new Pair<>(computeValue(at), computeJacobian(at));
        }
    }
}
