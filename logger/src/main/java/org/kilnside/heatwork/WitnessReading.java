package org.kilnside.heatwork;

import java.util.Arrays;
import java.util.List;
import org.kilnside.firing.Trace;

/**
 * How well every steady error of a sensor, from −260 to +260 °C, explains what one pack of witness cones showed.
 *
 * <p>How an angle goes with heat work is not published: three laws of bending are held possible (in proportion; late,
 * the last half of the heat work; in between), and the cones themselves weigh them. A cone at 90° may have been long
 * down; past 90° only bounds from below, an upright one from above (common practice).
 */
final class WitnessReading {
    /** The laws of bending by how likely they are held before looking. */
    static final double[] LAWS = {0.25, 0.5, 0.25};

    static final int REACH_K = 260;

    private static final int KNOT_K = 20;

    /** What every cone leaves: it may have been read or written down wrongly. */
    private static final double SLIP = 1e-4;

    private static final double ANGLE_READ_WITHIN = 6;
    private static final double LEAST_SCATTER = 0.09;
    private static final double UPRIGHT_BELOW = 5;
    private static final double DOWN_FROM = 88;
    private static final double DOWN_TO = 95;
    private static final double SEEN_DOWN_SCATTER = 0.08;

    /** What lies further below the top bends nothing, K. */
    private static final double NEAR_TOP_K = 300;

    private final double[][] likelihood = new double[LAWS.length][2 * REACH_K + 1];

    private WitnessReading() {}

    /**
     * The reading of a pack.
     *
     * @param curve the good readings
     * @param topC the highest of them, °C
     */
    static WitnessReading of(ConeTable table, Trace curve, double topC, WitnessPack pack) {
        WitnessReading reading = new WitnessReading();
        for (double[] law : reading.likelihood) {
            Arrays.fill(law, 1);
        }
        for (WitnessCone cone : pack.cones()) {
            if (table.cones().contains(cone.cone())) {
                reading.multiply(cone, logWork(table, curve, topC, cone));
            }
        }
        return reading;
    }

    private void multiply(WitnessCone cone, double[] logWork) {
        for (int law = 0; law < LAWS.length; law++) {
            for (int i = 0; i < logWork.length; i++) {
                likelihood[law][i] *= SLIP + explains(law, cone, logWork[i]);
            }
        }
    }

    /** How well an error of so many K explains the pack, under one law. */
    double at(int law, int offsetK) {
        return likelihood[law][offsetK + REACH_K];
    }

    /** The same over all laws. */
    double at(int offsetK) {
        double sum = 0;
        for (int law = 0; law < LAWS.length; law++) {
            sum += LAWS[law] * at(law, offsetK);
        }
        return sum;
    }

    /** The error within so many K that explains the pack best. */
    int best(int withinK) {
        int best = 0;
        for (int offsetK = -withinK; offsetK <= withinK; offsetK++) {
            best = at(offsetK) > at(best) ? offsetK : best;
        }
        return best;
    }

    /** Whether the cones bound the error from both sides. */
    static boolean boundsBothSides(List<WitnessPack> packs) {
        boolean below = false;
        boolean above = false;
        for (WitnessPack pack : packs) {
            for (WitnessCone cone : pack.cones()) {
                double degrees = cone.degrees().orElse(DOWN_FROM - 1);
                boolean timed = cone.seenDownMs().isPresent();
                below |= timed || degrees >= UPRIGHT_BELOW;
                above |= timed || degrees < DOWN_FROM;
            }
        }
        return below && above;
    }

    /** ln of the cone's heat work at each error: taken at a few, straight between them. */
    private static double[] logWork(ConeTable table, Trace curve, double topC, WitnessCone cone) {
        int knots = 2 * REACH_K / KNOT_K + 1;
        double[] at = new double[knots];
        for (int knot = 0; knot < knots; knot++) {
            double shift = -REACH_K + knot * KNOT_K;
            Trace.Builder line = new Trace.Builder();
            for (int i = 0; i < curve.size(); i++) {
                if (curve.elapsedMs(i) > cone.seenDownMs().orElse(Long.MAX_VALUE)) {
                    break;
                }
                if (curve.temperatureC(i) > topC - NEAR_TOP_K) {
                    line.add(curve.elapsedMs(i), curve.temperatureC(i) + shift);
                }
            }
            double work = line.size() < 2
                    ? 0
                    : HeatWork.ofLine(table, line.view()).share(cone.cone()).orElse(0);
            at[knot] = Math.log(Math.max(1e-12, work));
        }
        double[] all = new double[2 * REACH_K + 1];
        for (int i = 0; i < all.length; i++) {
            int knot = Math.min(knots - 2, i / KNOT_K);
            double share = (i - knot * KNOT_K) / (double) KNOT_K;
            all[i] = at[knot] * (1 - share) + at[knot + 1] * share;
        }
        return all;
    }

    private static double explains(int law, WitnessCone cone, double logWork) {
        if (cone.seenDownMs().isPresent()) {
            return bump(logWork, 0, SEEN_DOWN_SCATTER);
        }
        double degrees = cone.degrees().orElseThrow();
        if (degrees < UPRIGHT_BELOW) {
            return below((Math.log(work(law, UPRIGHT_BELOW + 3)) - logWork) / LEAST_SCATTER);
        }
        if (degrees >= DOWN_FROM) {
            double down = below((logWork + 0.07) / LEAST_SCATTER);
            return degrees > DOWN_TO ? down : 0.3 * bump(logWork, 0, 0.12) + 0.7 * down;
        }
        double middle = Math.log(work(law, degrees));
        double more = Math.log(work(law, Math.min(90, degrees + ANGLE_READ_WITHIN)));
        double less = Math.log(work(law, Math.max(2, degrees - ANGLE_READ_WITHIN)));
        return bump(logWork, middle, Math.max(LEAST_SCATTER, (more - less) / 2));
    }

    /** The share of its heat work at which a cone shows an angle. */
    private static double work(int law, double degrees) {
        double share = degrees / 90;
        return switch (law) {
            case 0 -> 0.5 + 0.5 * share;
            case 1 -> share;
            default -> Math.sqrt(share);
        };
    }

    static double bump(double value, double middle, double scatter) {
        double z = (value - middle) / scatter;
        return Math.exp(-z * z / 2);
    }

    /** The normal distribution, close enough for a soft edge (logistic approximation, within 0.01). */
    private static double below(double z) {
        return 1 / (1 + Math.exp(-1.702 * z));
    }
}
