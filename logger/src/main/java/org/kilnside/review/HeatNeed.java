package org.kilnside.review;

/**
 * How much heat a kiln takes along a curve, in units of its own: what the load takes, what goes into a wall, what
 * leaks. A wall of insulating brick 0 ≤ x ≤ 1 driven by the measured temperature, its conductivity 0.64 + 0.0006 θ (1
 * at 600 °C), stepped implicitly; the numbers of the kiln are those of a usual one (time constant of the wall 14 000 s,
 * load half of the wall's heat, leak a fifth). Only ratios of needs at like temperatures are ever used, in which most
 * of what a kiln has of its own falls out.
 */
final class HeatNeed {
    static final double WALL_CONSTANT_S = 14_000;
    static final double LOAD = 0.5;
    static final double LEAK = 0.2;

    private static final int CELLS = 10;
    private static final double SHELL = 2.5;
    private static final double ROOM_C = 20;

    private final double[] wallC = new double[CELLS];
    private final double[] diagonal = new double[CELLS];
    private final double[] right = new double[CELLS];

    private HeatNeed(double startC) {
        // A warm start is a wall half way to the room on average.
        for (int i = 0; i < CELLS; i++) {
            double share = startC > 60 ? 1 - (i + 0.5) / CELLS : 1;
            wallC[i] = ROOM_C + (startC - ROOM_C) * share;
        }
    }

    /** °C that flow into the wall at each bin, in the wall's own unit: conductivity at 600 °C over its thickness. */
    static double[] intoWall(Bins bins) {
        double[] flow = new double[bins.size];
        HeatNeed wall = new HeatNeed(bins.celsius[0]);
        for (int i = 1; i < bins.size; i++) {
            double seconds = bins.timeS[i] - bins.timeS[i - 1];
            int steps = (int) Math.max(1, Math.ceil(seconds / 300));
            for (int step = 1; step <= steps; step++) {
                double share = (double) step / steps;
                double hot = bins.celsius[i - 1] + (bins.celsius[i] - bins.celsius[i - 1]) * share;
                flow[i] = wall.step(seconds / steps, hot);
            }
        }
        return flow;
    }

    /** The whole need, °C, of a usual kiln that rises by so many K/s at a temperature with a flow into its wall. */
    static double whole(double riseKPerS, double intoWall, double celsius) {
        return LOAD * WALL_CONSTANT_S * riseKPerS + intoWall + LEAK * (celsius - ROOM_C);
    }

    private double step(double seconds, double hotC) {
        double width = 1.0 / CELLS;
        double rate = WALL_CONSTANT_S * width / seconds;
        double inner = conductivity((hotC + wallC[0]) / 2) / (width / 2);
        for (int i = 0; i < CELLS; i++) {
            double before = i == 0 ? inner : conductivity((wallC[i - 1] + wallC[i]) / 2) / width;
            double after = i == CELLS - 1 ? outer() : conductivity((wallC[i] + wallC[i + 1]) / 2) / width;
            diagonal[i] = rate + before + after;
            right[i] = rate * wallC[i];
            if (i == 0) {
                right[i] += before * hotC;
            } else {
                double factor = before / diagonal[i - 1];
                diagonal[i] -= factor * before;
                right[i] += factor * right[i - 1];
            }
            if (i == CELLS - 1) {
                right[i] += after * ROOM_C;
            }
        }
        wallC[CELLS - 1] = right[CELLS - 1] / diagonal[CELLS - 1];
        for (int i = CELLS - 2; i >= 0; i--) {
            double after = conductivity((wallC[i] + wallC[i + 1]) / 2) / width;
            wallC[i] = (right[i] + after * wallC[i + 1]) / diagonal[i];
        }
        return inner * (hotC - wallC[0]);
    }

    private double outer() {
        double half = conductivity(wallC[CELLS - 1]) * CELLS * 2;
        return half * SHELL / (half + SHELL);
    }

    private static double conductivity(double celsius) {
        return 0.64 + 0.0006 * celsius;
    }
}
