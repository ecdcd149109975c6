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

    /** The kiln with one number moved, by some of the spreads it was believed to have before. */
    double[] moved(int parameter, double byPriorSpreads) {
        double[] z = solution.parameters().clone();
        z[parameter] += byPriorSpreads;
        return z;
    }
}
