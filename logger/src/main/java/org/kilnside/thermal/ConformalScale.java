package org.kilnside.thermal;

/**
 * By how much the model's own intervals must be stretched so that nine in ten hold the truth: for where on the way down
 * it is asked and for which threshold, the 90th to 93rd percentile of |error| over half-width on 260 simulated kilns with
 * other physics than the model, most of them ordinary brick ones as the design describes them (own output; other
 * numbers and families of docs/validation.md judge it).
 */
final class ConformalScale {
    private static final double[] ASKED_AT_C = {800, 600, 400, 200};
    private static final double[] THRESHOLD_C = {200, 120, 60};

    private static final double[][] ALONE = {
        {0.74, 0.69, 0.64},
        {0.72, 0.7, 0.68},
        {0.68, 0.95, 1.2},
        {0.7, 1.5, 1.8}
    };

    /** With two or more earlier firings of the kiln, whose bias is taken off. */
    private static final double[][] REMEMBERED = {
        {0.68, 0.65, 0.6},
        {0.78, 0.75, 0.82},
        {0.62, 0.76, 0.88},
        {0.8, 1.1, 1.5}
    };

    /** No interval is narrower than this part of the remaining time to either side. */
    private static final double FLOOR = 0.01;

    private static final double SOON_TIMES = 0.4;
    private static final double SOON_S = 2400;
    private static final double LATE_S = 6000;

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
     * @param leftAloneForS for how long the elements have been off
     * @param memory what earlier firings correct, and how far they differ in it
     */
    static double cooling(
            double halfWidth, double askedAtC, double thresholdC, double leftAloneForS, KilnMemory.Correction memory) {
        double alone = at(ALONE, askedAtC, thresholdC);
        double remembered = at(REMEMBERED, askedAtC, thresholdC);
        double scale = alone + known(memory.firings()) * (remembered - alone);
        double half = scale * halfWidth * soonAfterTop(leftAloneForS);
        if (memory.firings() > 1) {
            double differ = SCATTER_COUNTS * Spread.NINE_IN_TEN * Spread.NINE_IN_TEN * memory.squares();
            half = Math.sqrt((SCATTER_BEFORE * half * half + differ) / (SCATTER_BEFORE + memory.firings() - 1));
        }
        return Math.hypot(FLOOR, half);
    }

    /** How far so many firings, whole or in part, lead from none to two. */
    private static double known(double firings) {
        return firings <= 1 ? ONE_FIRING * firings : Math.min(1, ONE_FIRING + (1 - ONE_FIRING) * (firings - 1));
    }

    /**
     * The first hour after the top say more of sensor, elements and load than of the wall: an interval asked for then is
     * so much wider.
     */
    private static double soonAfterTop(double leftAloneForS) {
        return 1 + SOON_TIMES * Math.max(0, Math.min(1, (LATE_S - leftAloneForS) / (LATE_S - SOON_S)));
    }

    /** While it still heats, each kind's own deviation of the cooling's end counts so much, and no less than the other. */
    static final double COOLING_AFTER_HEATING = 0.8;

    /** The same where the output is not told: the prior is wider than the kilns there are. */
    static final double COOLING_AFTER_UNTOLD_HEATING = 0.65;

    static final double COOLING_AFTER_HEATING_LEAST = 0.14;

    /**
     * How far ln(time to the top) may lie below its estimate.
     *
     * @param told whether the controller tells its output; else its power is a guess
     */
    static double sooner(double halfWidth, boolean told) {
        return told ? Math.hypot(0.03, 0.9 * halfWidth) : Math.hypot(0.18, 0.5 * halfWidth);
    }

    /** The same above it: a kiln whose power nobody knows keeps up with its plan until, near the top, it cannot. */
    static double later(double halfWidth, boolean told) {
        return told ? Math.hypot(0.05, 1.1 * halfWidth) : Math.hypot(0.5, 0.8 * halfWidth);
    }

    /** Half-width of a top-out in K: what is left of it shrinks faster than the fit believes. */
    static double topOut(double halfWidthK, double nowC) {
        double risen = Math.max(0, Math.min(1, (nowC - 700) / 400));
        return 4 + halfWidthK * (0.75 - 0.4 * risen);
    }

    private static double at(double[][] table, double askedAtC, double thresholdC) {
        double row = place(ASKED_AT_C, askedAtC);
        double column = place(THRESHOLD_C, thresholdC);
        int r = Math.min((int) row, ASKED_AT_C.length - 2);
        int c = Math.min((int) column, THRESHOLD_C.length - 2);
        double upper = table[r][c] + (column - c) * (table[r][c + 1] - table[r][c]);
        double lower = table[r + 1][c] + (column - c) * (table[r + 1][c + 1] - table[r + 1][c]);
        return upper + (row - r) * (lower - upper);
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
