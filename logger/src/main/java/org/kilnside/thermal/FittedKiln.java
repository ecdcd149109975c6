package org.kilnside.thermal;

/**
 * What one kind of wall makes of a firing.
 *
 * @param evidence logarithm of the probability of the data, up to a constant common to all kinds
 */
record FittedKiln(FiringData data, WallKind kind, Prior prior, LeastSquares.Solution solution, double evidence) {

    KilnParameters kiln() {
        return prior.kiln(solution.parameters());
    }

    /** The same, no surer of the power to come than the mains allow. */
    FittedKiln withMainsDrifting() {
        double[][] covariance = prior.withMainsDrifting(solution.covariance());
        return new FittedKiln(
                data,
                kind,
                prior,
                new LeastSquares.Solution(
                        solution.parameters(), covariance, solution.sumOfSquares(), solution.converged()),
                evidence);
    }

    /** The kiln with one number moved, by some of the spreads it was believed to have before. */
    double[] moved(int parameter, double byPriorSpreads) {
        double[] z = solution.parameters().clone();
        z[parameter] += byPriorSpreads;
        return z;
    }
}
