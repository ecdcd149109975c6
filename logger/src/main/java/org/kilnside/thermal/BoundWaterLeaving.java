package org.kilnside.thermal;

/**
 * At which temperature of the ware its bound water leaves: kaolinite loses it between some 430 and 650 °C at the pace of
 * kilns, most of it about 540 °C (clay mineralogy's thermal analysis curves, from memory). Dimensionless.
 */
final class BoundWaterLeaving {
    static final double FROM_C = 430;
    static final double TO_C = 650;

    private BoundWaterLeaving() {}

    /** Whether some may leave while the kiln goes from one temperature to another. */
    static boolean mayLeave(double fromC, double toC) {
        return toC > fromC && toC > FROM_C && fromC < TO_C;
    }

    /** The part of it that leaves per kelvin of warming, 1/K; the whole comes to one. */
    static double perK(double wareC) {
        if (wareC <= FROM_C || wareC >= TO_C) {
            return 0;
        }
        double middle = (FROM_C + TO_C) / 2;
        double half = (TO_C - FROM_C) / 2;
        return (1 + Math.cos(Math.PI * (wareC - middle) / half)) / (2 * half);
    }
}
