package org.kilnside.review;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * What the elements gave for the output asked of them: need over output, window by window, and whether it changed all
 * at once.
 *
 * @param step a lasting loss; empty when there is none
 * @param sag a passing loss; empty when there is none
 * @param strength need over output above 700 °C, in the need's unit, comparable between firings of one kiln; 0 = unknown
 */
record Power(Optional<Loss> step, Optional<Loss> sag, double strength) {
    static final Power UNKNOWN = new Power(Optional.empty(), Optional.empty(), 0);

    private static final double WINDOW_S = 600;
    private static final int MOST_WINDOWS = 120;
    /** Below this water, an unsettled wall and a swinging controller hide what the elements give. */
    private static final double FROM_C = 200;

    private static final int FEWEST = 12;

    /** Rise, wall, leak, radiation through gaps and peepholes, and the loss. */
    private static final int TERMS = 5;

    private static final int LOSS = TERMS - 1;

    /** Ridge, as a share of the regressors' own size: they are nearly in line with each other. */
    private static final double RIDGE = 1e-4;

    /** An improvement of the fit below this is the model's own error. */
    private static final double LEAST_GAIN = 100;

    private static final double LEAST_LOSS = 0.1;

    /** Two rings of three. */
    private static final double MOST_LOSS = 0.7;

    /** A smaller loss is told from the model's own error only once the wall has settled. */
    private static final double LARGE_LOSS = 0.25;

    private static final double EARLY_GAIN = 250;
    private static final double QUICKENS = 1.1;
    private static final int SETTLED = 8;
    private static final double SETTLED_C = 500;
    private static final double SUDDEN = 0.4;

    /**
     * Power that went.
     *
     * @param fromS when, s
     * @param toS when it came back, s; the end of heating where it did not
     * @param atC where the kiln was, °C
     * @param part which part of the power, 0 … 1
     * @param gain by how much better the curve is explained with it
     */
    record Loss(double fromS, double toS, double atC, double part, double gain) {}

    /** One window of heating. */
    private record Window(double atS, double celsius, double rise, double wall, double output) {}

    static Power of(Bins bins, double leftS) {
        double[] wall = HeatNeed.intoWall(bins);
        List<Window> windows = windows(bins, wall, leftS);
        if (windows.size() < FEWEST) {
            return UNKNOWN;
        }
        double base = fit(windows, Double.MAX_VALUE, Double.MAX_VALUE)[TERMS];
        Loss step = null;
        Loss sag = null;
        int n = windows.size();
        for (int i = 3; i <= n - 3; i++) {
            for (int j = i + 3; j <= n; j++) {
                boolean lasting = j == n;
                if (!lasting && j > n - 2) {
                    continue;
                }
                double fromS = windows.get(i).atS() - WINDOW_S / 2;
                double toS = lasting ? Double.MAX_VALUE : windows.get(j).atS() - WINDOW_S / 2;
                double[] fit = fit(windows, fromS, toS);
                double gain = (base - fit[TERMS]) / Math.max(fit[TERMS], 1e-9 * n) * (n - TERMS);
                boolean early = i < SETTLED || windows.get(i).celsius() < SETTLED_C;
                boolean earlyAndSmall =
                        (early || quickens(windows, i)) && (fit[LOSS] < LARGE_LOSS || gain < EARLY_GAIN);
                if (fit[LOSS] < LEAST_LOSS
                        || fit[LOSS] > MOST_LOSS
                        || gain < LEAST_GAIN
                        || earlyAndSmall
                        || !isSudden(windows, fit, i, j, fit[LOSS])) {
                    continue;
                }
                Loss loss =
                        new Loss(fromS, lasting ? leftS : toS, windows.get(i).celsius(), Math.min(1, fit[LOSS]), gain);
                if (lasting && (step == null || gain > step.gain())) {
                    step = loss;
                } else if (!lasting && (sag == null || gain > sag.gain())) {
                    sag = loss;
                }
            }
        }
        return new Power(Optional.ofNullable(step), Optional.ofNullable(sag), strength(windows));
    }

    /** Need over output above 700 °C of a firing whose top was left at a time; 0 where the log does not tell. */
    static double strengthOf(Bins bins, double leftS) {
        return strength(windows(bins, HeatNeed.intoWall(bins), leftS));
    }

    /** Whether the rise quickens just there: a corner of the program, where the model errs most; a loss slows a kiln down. */
    private static boolean quickens(List<Window> windows, int at) {
        double before = windows.get(at - 2).rise();
        double after = windows.get(at + 1).rise();
        return after > QUICKENS * before;
    }

    /**
     * Whether the loss shows within half an hour of its beginning, and, where it passes, of its end.
     */
    private static boolean isSudden(List<Window> windows, double[] fit, int from, int to, double part) {
        double down = 1 - around(windows, fit, from + 1, 3) / around(windows, fit, from - 3, 3);
        boolean falls = down > SUDDEN * part;
        if (!falls || to >= windows.size()) {
            return falls;
        }
        double up = 1 - around(windows, fit, to - 3, 3) / around(windows, fit, Math.min(to, windows.size() - 2), 2);
        return up > SUDDEN * part;
    }

    /** Mean of need, as fitted, over output. */
    private static double around(List<Window> windows, double[] fit, int from, int count) {
        double[] x = new double[TERMS];
        double need = 0;
        double output = 0;
        for (int i = Math.max(0, from); i < Math.min(windows.size(), from + count); i++) {
            regressors(windows.get(i), 0, 0, x);
            for (int r = 0; r < LOSS; r++) {
                need += fit[r] * x[r];
            }
            output += windows.get(i).output();
        }
        return output <= 0 ? 1 : Math.max(1e-3, need / output);
    }

    private static List<Window> windows(Bins bins, double[] wall, double leftS) {
        List<Window> windows = new ArrayList<>();
        // Every pair of windows is tried as a loss: a firing of days gets longer windows, not more of them.
        double widthS = Math.max(WINDOW_S, (leftS - bins.timeS[0]) / MOST_WINDOWS);
        for (double from = bins.timeS[0]; from + widthS <= leftS; from += widthS) {
            int i = bins.firstFrom(from);
            int j = bins.firstFrom(from + widthS);
            double celsius = bins.meanC(from, from + widthS);
            double output = bins.meanOutput(from, from + widthS);
            if (j - i < 5 || celsius < FROM_C || Double.isNaN(output) || output < 0.05) {
                continue;
            }
            double flow = 0;
            for (int k = i; k < j; k++) {
                flow += wall[k] / (j - i);
            }
            double rise = bins.slopeKPerH(from, from + widthS) / 3600;
            windows.add(new Window(from + widthS / 2, celsius, rise, flow, output));
        }
        return windows;
    }

    /**
     * Least squares of output = a·rise + b·wall + c·(θ − 20) + d·radiation + loss·output in [from, to).
     *
     * @return a, b, c, d, loss, the sum of squares
     */
    private static double[] fit(List<Window> windows, double fromS, double toS) {
        double[][] normal = new double[TERMS][TERMS + 1];
        double[] x = new double[TERMS];
        boolean lossy = fromS < Double.MAX_VALUE;
        for (Window window : windows) {
            regressors(window, fromS, toS, x);
            for (int r = 0; r < TERMS; r++) {
                for (int c = 0; c < TERMS; c++) {
                    normal[r][c] += x[r] * x[c];
                }
                normal[r][TERMS] += x[r] * window.output();
            }
        }
        for (int r = 0; r < TERMS; r++) {
            normal[r][r] *= 1 + RIDGE;
        }
        if (!lossy) {
            normal[LOSS] = new double[TERMS + 1];
            normal[LOSS][LOSS] = 1;
        }
        double[] found = solve(normal);
        double squares = 0;
        for (Window window : windows) {
            regressors(window, fromS, toS, x);
            double miss = window.output();
            for (int r = 0; r < TERMS; r++) {
                miss -= found[r] * x[r];
            }
            squares += miss * miss;
        }
        double[] all = Arrays.copyOf(found, TERMS + 1);
        all[TERMS] = squares;
        return all;
    }

    private static void regressors(Window window, double fromS, double toS, double[] x) {
        x[0] = window.rise() * HeatNeed.WALL_CONSTANT_S / 1000;
        x[1] = window.wall() / 1000;
        x[2] = (window.celsius() - 20) / 1000;
        x[3] = Math.pow((window.celsius() + 273) / 1273, 4);
        x[LOSS] = window.atS() >= fromS && window.atS() < toS ? window.output() : 0;
    }

    private static double[] solve(double[][] rows) {
        int n = rows.length;
        for (int column = 0; column < n; column++) {
            int pivot = column;
            for (int r = column + 1; r < n; r++) {
                pivot = Math.abs(rows[r][column]) > Math.abs(rows[pivot][column]) ? r : pivot;
            }
            double[] swap = rows[pivot];
            rows[pivot] = rows[column];
            rows[column] = swap;
            double lead = Math.abs(rows[column][column]) < 1e-12 ? 1e-12 : rows[column][column];
            for (int r = column + 1; r < n; r++) {
                double factor = rows[r][column] / lead;
                for (int c = column; c <= n; c++) {
                    rows[r][c] -= factor * rows[column][c];
                }
            }
        }
        double[] x = new double[n];
        for (int r = n - 1; r >= 0; r--) {
            double sum = rows[r][n];
            for (int c = r + 1; c < n; c++) {
                sum -= rows[r][c] * x[c];
            }
            x[r] = sum / (Math.abs(rows[r][r]) < 1e-12 ? 1e-12 : rows[r][r]);
        }
        return x;
    }

    private static double strength(List<Window> windows) {
        List<Double> strengths = new ArrayList<>();
        for (Window window : windows) {
            if (window.celsius() > 700 && window.output() > 0.3) {
                strengths.add(HeatNeed.whole(window.rise(), window.wall(), window.celsius()) / window.output());
            }
        }
        strengths.sort(Double::compare);
        return strengths.size() < 4 ? 0 : strengths.get(strengths.size() / 2);
    }
}
