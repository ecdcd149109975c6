package org.kilnside.thermal;

/**
 * How wide the intervals of a forecast must be so that nine in ten hold the truth. What the fit believes of its own error
 * is only one thing that tells: over some 8,300 simulated kilns of fourteen kinds of physics none of which is the model's, each
 * asked up to 37 questions on its way down, the error's upper decile also hangs on how far the curve lies from the
 * fit, on how slow the wall is, on how long the kiln has been left alone and on whether it may be fibre-lined (quantile
 * regression, own trials, rounded and in places widened by hand). The errors were those left by a {@link TrialBias} that had not seen
 * that kind of physics; from 400 °C down it was set again later, on 1,150 firings (docs/decisions/0021). docs/validation.md judges it by other kilns, and says which kinds were in neither.
 */
final class ConformalScale {
    private static final double[] ASKED_AT_C = {1000, 800, 700, 600, 400, 200, 100};

    /**
     * ln(half-width of ln(remaining time)) asked at each of those: the plain part, and per unit of
     * {@link CoolingSeen#telling what tells}, in its order.
     */
    private static final double[][] LOG_HALF_WIDTH = {
        {-2.95, -0.03, 0.12, 0.16, -0.30, 0.94, 0.69},
        {-2.43, 0.11, 0.28, 0.23, -0.26, 0.69, 0.07},
        {-2.39, 0.23, 0.33, 0.20, -0.15, 0.55, 0.29},
        {-2.52, 0.38, 0.35, 0.14, -0.10, 0.40, 0.64},
        {-2.80, 0.75, 0.20, 0.16, -0.22, 0.26, 1.35},
        {-2.98, 0.68, 0.12, 0.14, 0.14, 0.48, 1.05},
        {-2.33, 0.47, 0.19, 0.30, 0.22, 1.12, 0.08}
    };

    /** What is left of that with two or more earlier firings of the kiln, whose bias is taken off. */
    private static final double[] REMEMBERED = {0.72, 0.72, 0.72, 0.72, 0.8, 0.97, 1};

    /** No interval is narrower than this part of the remaining time to either side. */
    private static final double FLOOR = 0.01;

    /** What one earlier firing is worth on the way from none to two. */
    private static final double ONE_FIRING = 0.65;

    /**
     * Firings whose lessons agree narrow the interval, and firings whose lessons differ widen it: what was believed before
     * counts as so many differences seen, and each one seen so much.
     */
    private static final double SCATTER_BEFORE = 0.7;

    private static final double SCATTER_COUNTS = 1.5;

    private ConformalScale() {}

    /**
     * Half-width of ln(remaining time).
     *
     * @param deviation the fit's own of ln(remaining time)
     * @param memory what earlier firings correct, and how far they differ in it
     */
    static double cooling(CoolingSeen seen, double deviation, double thresholdC, KilnMemory.Correction memory) {
        double[] telling = seen.telling(deviation, thresholdC);
        double row = place(ASKED_AT_C, seen.nowC());
        int r = Math.min((int) row, ASKED_AT_C.length - 2);
        double part = row - r;
        double log = 0;
        for (int i = 0; i <= telling.length; i++) {
            double weight = (1 - part) * LOG_HALF_WIDTH[r][i] + part * LOG_HALF_WIDTH[r + 1][i];
            log += weight * (i == 0 ? 1 : telling[i - 1]);
        }
        double remembered = (1 - part) * REMEMBERED[r] + part * REMEMBERED[r + 1];
        double half = Math.exp(log) * (1 + known(memory.firings()) * (remembered - 1));
        if (memory.firings() > 1) {
            double differ = SCATTER_COUNTS * Spread.NINE_IN_TEN * Spread.NINE_IN_TEN * memory.squares();
            half = Math.sqrt((SCATTER_BEFORE * half * half + differ) / (SCATTER_BEFORE + memory.firings() - 1));
        }
        return Math.hypot(FLOOR, half) + (1 - known(memory.firings())) * TrialBias.doubtOfLate(seen.nowC(), thresholdC);
    }

    /** How far so many firings, whole or in part, lead from none to two. */
    private static double known(double firings) {
        return firings <= 1 ? ONE_FIRING * firings : Math.min(1, ONE_FIRING + (1 - ONE_FIRING) * (firings - 1));
    }

    /**
     * How a kiln that still heats is asked for its cooling.
     *
     * @param times so much of each kind's own deviation of the cooling's end counts
     * @param least it counts as no less than this
     * @param longer so many times as far as the spread says a cooling may take longer than told
     * @param shortC from this temperature on, up to {@link #SHORT_RANGE_K} further, coolings come out ever shorter; infinite
     *     where they do not
     */
    record AfterHeating(double times, double least, double longer, double shortC) {
        static final AfterHeating USUAL = new AfterHeating(0.7, 0.13, 1.2, Double.POSITIVE_INFINITY);

        /**
         * The same where the output is told. Of seven populations of kilns none comes out late asked at 900 °C and above, and five
         * 7 to 25 % early; what is held no interval misses below, and up to two in five take longer than it allowed. A climb
         * shows how much its kiln has taken up, and not how slowly the outermost of it will give it back.
         */
        static final AfterHeating TOLD = new AfterHeating(0.7, 0.13, 1.35, 500);

        /** Of a kiln that was seen to cool before. */
        static final AfterHeating REMEMBERED = new AfterHeating(0.8, 0.13, 1, Double.POSITIVE_INFINITY);

        /** The same where the output is told, and was told before. */
        static final AfterHeating STRENGTH_REMEMBERED = new AfterHeating(0.8, 0.08, 1, Double.POSITIVE_INFINITY);

        private static final double SHORT = 0.08;
        private static final double SHORT_RANGE_K = 400;

        /** The kinds of wall cool so differently that a mean between them is no kiln's: quantiles of all of them. */
        Forecast.When when(double nowS, double nowC, Spread spread) {
            double middle = spread.quantile(0.5, times, least);
            double later = longer * (spread.quantile(0.95, times, least) - middle);
            double told = middle + SHORT * Math.max(0, Math.min(1, (nowC - shortC) / SHORT_RANGE_K));
            return new Forecast.When(
                    nowS + Math.exp(told),
                    nowS + Math.exp(spread.quantile(0.05, times, least)),
                    nowS + Math.exp(told + later));
        }
    }

    /** Where among falling nodes a value lies, held at the ends. */
    private static double place(double[] nodes, double value) {
        if (value >= nodes[0]) {
            return 0;
        }
        for (int i = 1; i < nodes.length; i++) {
            if (value >= nodes[i]) {
                return i - 1 + (nodes[i - 1] - value) / (nodes[i - 1] - nodes[i]);
            }
        }
        return nodes.length - 1;
    }
}
