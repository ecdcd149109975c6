package org.kilnside.chart;

/** The lowest and the highest of what a drawing is to show, °C. Grows; confined to the thread that draws. */
final class Reach {
    private double lowC = Double.POSITIVE_INFINITY;
    private double highC = Double.NEGATIVE_INFINITY;

    /** Takes a temperature in; NaN, a break in a curve, changes nothing. */
    void take(double celsius) {
        if (celsius < lowC) {
            lowC = celsius;
        }
        if (celsius > highC) {
            highC = celsius;
        }
    }

    boolean isEmpty() {
        return lowC > highC;
    }

    double lowC() {
        return lowC;
    }

    double highC() {
        return highC;
    }
}
