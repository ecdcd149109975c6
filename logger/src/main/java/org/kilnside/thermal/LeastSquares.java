package org.kilnside.thermal;

import java.util.Arrays;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.linear.SingularValueDecomposition;
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

    /** The library's own first step: a hundred times the start. */
    private static final double USUAL_STEP_BOUND = 100;

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
        return solve(search, search, start, tolerance, mostEvaluations, USUAL_STEP_BOUND);
    }

    /** Looks along some coordinates of a search's own. */
    private static Solution solve(
            Search search,
            ValueAndJacobianFunction along,
            double[] start,
            double tolerance,
            int mostEvaluations,
            double stepBound) {
        along.computeValue(start);
        boolean converged = true;
        try {
            Optimum optimum = new LevenbergMarquardtOptimizer()
                    .withInitialStepBoundFactor(stepBound)
                    .withCostRelativeTolerance(tolerance)
                    .withParameterRelativeTolerance(tolerance)
                    .withOrthoTolerance(tolerance * 1e-2)
                    .optimize(new LeastSquaresBuilder()
                            .start(start)
                            .model(along)
                            .target(new double[search.bestValue.length])
                            .lazyEvaluation(true)
                            .maxEvaluations(mostEvaluations)
                            .maxIterations(mostEvaluations)
                            .build());
            along.computeValue(optimum.getPoint().toArray());
        } catch (MathIllegalStateException limit) {
            // Out of evaluations, or no step makes it smaller any more: the best point seen is still the best known.
            converged = false;
        }
        RealMatrix jacobian = search.computeJacobian(search.best);
        return new Solution(search.best, covariance(jacobian), search.bestSum, converged);
    }

    /**
     * The same for parameters in units of their prior's spread, each step no longer than so many of those. The library
     * bounds a step by what each parameter alone changes; where two do nearly the same, that forbids the long way
     * along their narrow valley. So the parameters are turned first such that each does as much as any other: then its
     * bound is a ball.
     *
     * @param longest first step, in prior spreads
     */
    static Solution solveInBall(
            Residuals residuals, double[] start, double step, double tolerance, int mostEvaluations, double longest) {
        int size = start.length;
        Search first = new Search(residuals, Differences.FORWARD, step);
        first.computeValue(start);
        SingularValueDecomposition axes = new SingularValueDecomposition(first.computeJacobian(start));
        // A cosine transform spreads the stiffest axis evenly over all parameters.
        RealMatrix even = MatrixUtils.createRealMatrix(size, size);
        for (int k = 0; k < size; k++) {
            for (int i = 0; i < size; i++) {
                even.setEntry(k, i, Math.sqrt((k == 0 ? 1.0 : 2.0) / size) * Math.cos(Math.PI * (i + 0.5) * k / size));
            }
        }
        RealMatrix turn = axes.getV().multiply(even);
        double bound = longest * axes.getNorm() / Math.sqrt(size);
        return solve(first, new Turned(first, start, turn), new double[size], tolerance, mostEvaluations, bound);
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

    /** A search along turned parameters; its difference quotients stay along the parameters themselves. */
    private record Turned(Search search, double[] origin, RealMatrix turn) implements ValueAndJacobianFunction {
        private double[] at(double[] along) {
            double[] moved = turn.operate(along);
            for (int i = 0; i < moved.length; i++) {
                moved[i] += origin[i];
            }
            return moved;
        }

        @Override
        public RealVector computeValue(double[] along) {
            return search.computeValue(at(along));
        }

        @Override
        public RealMatrix computeJacobian(double[] along) {
            return search.computeJacobian(at(along)).multiply(turn);
        }

        @Override
        public Pair<RealVector, RealMatrix> value(RealVector point) {
            double[] along = point.toArray();
            return new Pair<>(computeValue(along), computeJacobian(along));
        }
    }
}
