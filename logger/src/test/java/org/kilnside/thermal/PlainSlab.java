package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.firing.Trace;

/**
 * The plainest model of a kiln there is, as a yardstick: a flat slab of firebrick whose capacity does not change, one load that is as
 * hot as the sensor, a leak, a jacket. Four numbers and the room are fitted to the cooling, nothing is known of how such
 * a fit usually errs. How far it is off says how far a kiln's physics are from a slab's, and so how hard its curve is to foretell.
 * Its prior is for kilns of 50 to 200 litres with 63 to 115 mm of brick (common practice).
 */
final class PlainSlab implements LeastSquares.Residuals {
    static final WallShape SHAPE =
            new WallShape(new WallShape.Quadratic(0.64, 0.0006, 0), WallShape.Quadratic.ONE, 0, false, 1, 1, 1);

    private static final double[] USUAL = {Math.log(14_000), Math.log(2.5), Math.log(0.5), Math.log(0.2), 0};
    private static final double[] SPREAD = {0.6, 0.35, 0.8, 0.6, 3};
    private static final int CELLS = 10;
    private static final int POINTS = 60;

    /** What the model may be off by, K. */
    private static final double SIGMA_K = 3;

    private static final double STEP_S = 120;
    private static final double LONGEST_S = 400 * 3600.0;

    private final WallSlab slab = new WallSlab(SHAPE, CELLS);
    private final List<double[]> heating = new ArrayList<>();
    private final List<double[]> cooling = new ArrayList<>();
    private final double roomC;

    /**
     * @param log up to the question
     * @param offS when the elements went off
     * @param roomC as it was at lighting
     */
    PlainSlab(Trace log, double offS, double roomC) {
        this.roomC = roomC;
        double askedS = log.elapsedMs(log.size() - 1) / 1000.0;
        double sumS = 0;
        double sumC = 0;
        int count = 0;
        double untilS = offS + (askedS - offS) / POINTS;
        for (int i = 0; i < log.size(); i++) {
            double time = log.elapsedMs(i) / 1000.0;
            double celsius = log.temperatureC(i);
            if (time <= offS) {
                if (heating.isEmpty() || time >= heating.get(heating.size() - 1)[0] + STEP_S) {
                    heating.add(new double[] {time, celsius});
                }
                continue;
            }
            sumS += time;
            sumC += celsius;
            count++;
            if (time >= untilS || i == log.size() - 1) {
                cooling.add(new double[] {sumS / count, sumC / count});
                sumS = 0;
                sumC = 0;
                count = 0;
                untilS += (askedS - offS) / POINTS;
            }
        }
    }

    /** Seconds from the question to some temperatures, falling in their order; far off where it never gets there. */
    double[] remainingS(double askedS, double[] thresholdsC) {
        at(FiringFit.search(this, USUAL.length).parameters());
        coast(cooling.get(cooling.size() - 1)[0], askedS);
        double[] remaining = new double[thresholdsC.length];
        double time = 0;
        for (int i = 0; i < thresholdsC.length; i++) {
            double before = slab.chamberC();
            while (slab.chamberC() > thresholdsC[i] && time < LONGEST_S) {
                before = slab.chamberC();
                slab.run(STEP_S, 0);
                time += STEP_S;
            }
            double past =
                    before > slab.chamberC() ? (thresholdsC[i] - slab.chamberC()) / (before - slab.chamberC()) : 0;
            remaining[i] = time - past * STEP_S;
        }
        return remaining;
    }

    /** Runs up to the last point of the cooling, and leaves the slab there. */
    @Override
    public double[] at(double[] z) {
        slab.use(new KilnParameters(
                value(z, 0), value(z, 1), value(z, 2), value(z, 3), 0, 1, 1, 0, 0, 1, roomC + SPREAD[4] * z[4]));
        slab.startUniform(heating.get(0)[1]);
        for (int i = 1; i < heating.size(); i++) {
            slab.drive(heating.get(i)[0] - heating.get(i - 1)[0], heating.get(i)[1]);
        }
        double time = heating.get(heating.size() - 1)[0];
        double[] residual = new double[cooling.size() + z.length];
        for (int i = 0; i < cooling.size(); i++) {
            coast(time, cooling.get(i)[0]);
            time = cooling.get(i)[0];
            residual[i] = (slab.chamberC() - cooling.get(i)[1]) / SIGMA_K;
        }
        System.arraycopy(z, 0, residual, cooling.size(), z.length);
        return residual;
    }

    private static double value(double[] z, int at) {
        return Math.exp(USUAL[at] + SPREAD[at] * z[at]);
    }

    private void coast(double fromS, double toS) {
        int steps = (int) Math.ceil((toS - fromS) / STEP_S);
        for (int i = 0; i < steps; i++) {
            slab.run((toS - fromS) / steps, 0);
        }
    }
}
