package org.kilnside.thermal;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.special.Erf;

/**
 * A number forecast by several kinds of wall at once: a mixture of normal distributions, each from its own fit by
 * linearisation. Deterministic: the same readings give the same interval.
 */
final class Spread {
    static final double NINE_IN_TEN = 1.6448536269514722;

    private final double[] mean;
    private final double[] deviation;
    private final double[] weight;

    private Spread(double[] mean, double[] deviation, double[] weight) {
        this.mean = mean;
        this.deviation = deviation;
        this.weight = weight;
    }

    /** The same, all of it moved. */
    Spread moved(double by) {
        return new Spread(Arrays.stream(mean).map(each -> each + by).toArray(), deviation, weight);
    }

    /** What is asked of one kiln at one point of its fit; NaN where it has no answer. */
    @FunctionalInterface
    interface Question {
        double[] answers(double[] z);
    }

    /** Asks each fit. */
    interface Asked {
        Question of(FittedKiln fit);
    }

    /**
     * Spreads for each of several answers.
     *
     * @param count how many answers a question gives
     * @return one a answer; without a single part where no kind of wall has an answer
     */
    static Spread[] ask(List<FiringFit.Weighted> fits, Asked asked, int count) {
        double[][] means = new double[count][fits.size()];
        double[][] deviations = new double[count][fits.size()];
        double[][] weights = new double[count][fits.size()];
        for (int k = 0; k < fits.size(); k++) {
            FittedKiln fit = fits.get(k).fit();
            Question question = asked.of(fit);
            double[] middle = question.answers(fit.solution().parameters());
            double[][] gradient = gradient(fit, question, middle);
            for (int i = 0; i < count; i++) {
                boolean known = Double.isFinite(middle[i]);
                means[i][k] = middle[i];
                weights[i][k] = known ? fits.get(k).weight() : 0;
                deviations[i][k] = known ? Math.sqrt(variance(fit.solution().covariance(), gradient[i])) : 0;
            }
        }
        Spread[] spreads = new Spread[count];
        for (int i = 0; i < count; i++) {
            spreads[i] = new Spread(means[i], deviations[i], weights[i]);
        }
        return spreads;
    }

    /** Derivatives over half a posterior spread, on the side where there is an answer. */
    private static double[][] gradient(FittedKiln fit, Question question, double[] middle) {
        int size = fit.prior().size();
        double[][] gradient = new double[middle.length][size];
        for (int p = 0; p < size; p++) {
            double step = 0.5 * Math.sqrt(fit.solution().covariance()[p][p]);
            double[] moved = question.answers(fit.moved(p, step));
            for (int i = 0; i < middle.length; i++) {
                double slope = (moved[i] - middle[i]) / step;
                gradient[i][p] = Double.isFinite(slope) ? slope : 0;
            }
        }
        return gradient;
    }

    private static double variance(double[][] covariance, double[] gradient) {
        double sum = 0;
        for (int i = 0; i < gradient.length; i++) {
            for (int k = 0; k < gradient.length; k++) {
                sum += gradient[i] * covariance[i][k] * gradient[k];
            }
        }
        return Math.max(0, sum);
    }

    private double total() {
        double total = 0;
        for (double each : weight) {
            total += each;
        }
        return total;
    }

    /** Whether kinds of wall that are more likely than not have an answer. */
    boolean isKnown() {
        return total() > 0.5;
    }

    /** The mean over the kinds of wall that have an answer. */
    double mean() {
        double sum = 0;
        for (int k = 0; k < mean.length; k++) {
            if (weight[k] > 0) {
                sum += weight[k] * mean[k];
            }
        }
        return sum / total();
    }

    /** Standard deviation of the mixture: within the kinds of wall and between them. */
    double deviation() {
        double middle = mean();
        double sum = 0;
        for (int k = 0; k < mean.length; k++) {
            if (weight[k] > 0) {
                double off = mean[k] - middle;
                sum += weight[k] * (deviation[k] * deviation[k] + off * off);
            }
        }
        return Math.sqrt(sum / total());
    }

    /** Half of the width that would hold nine in ten were the mixture normal. */
    double halfWidth() {
        return NINE_IN_TEN * deviation();
    }

    /**
     * What a part of the mixture lies below.
     *
     * @param part 0 … 1
     * @param times each kind's own deviation is multiplied by this; what lies between the kinds is not
     * @param least deviation of each kind
     */
    double quantile(double part, double times, double least) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int k = 0; k < mean.length; k++) {
            if (weight[k] > 0) {
                double wide = Math.hypot(least, times * deviation[k]);
                low = Math.min(low, mean[k] - 6 * wide);
                high = Math.max(high, mean[k] + 6 * wide);
            }
        }
        for (int turn = 0; turn < 50; turn++) {
            double middle = (low + high) / 2;
            double below = 0;
            for (int k = 0; k < mean.length; k++) {
                if (weight[k] > 0) {
                    double wide = Math.hypot(least, times * deviation[k]);
                    below += weight[k] * 0.5 * Erf.erfc(-(middle - mean[k]) / wide / Math.sqrt(2));
                }
            }
            if (below < part * total()) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }
}
