package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;

/**
 * What the witness cones of a firing say of its sensor: by how much the ware was hotter than it read, and whether the
 * shelves agree.
 *
 * <p>Every steady error from −180 to +180 °C is tried, and weighed by how well it explains each cone. How an angle goes
 * with heat work is not published: three laws of bending are held possible (in proportion; late, the last half of the
 * heat work; in between) and the cones themselves weigh them. A cone at 90° may have been long down; past 90° only
 * bounds from below, an upright one from above (common practice).
 *
 * @param offsetK to be added to the sensor's readings, K
 * @param sigmaK its standard error, K
 * @param shelves each pack by itself, in the potter's order
 * @param uneven whether the shelves differ by more than the cones scatter
 * @param trusted whether the offset can be a sensor's: not when the cones contradict the curve
 * @param remarks what was odd about the cones
 */
record WitnessJudgement(
        double offsetK, double sigmaK, List<Shelf> shelves, boolean uneven, boolean trusted, List<Remark> remarks) {
    static final WitnessJudgement NONE = new WitnessJudgement(0, 0, List.of(), false, true, List.of());

    private static final int REACH_K = 180;
    private static final int KNOT_K = 20;
    private static final double[] LAWS = {0.25, 0.5, 0.25};

    /** A sound sensor, and one that is off (K, standard deviations), held equally possible before looking. */
    private static final double SOUND_K = 3.5;

    private static final double OFF_K = 18;

    /** What every cone leaves: it may have been read or written down wrongly. */
    private static final double SLIP = 1e-4;

    /** A pack whose every cone is explained worse than this by any sensor that works belongs to another curve. */
    private static final double UNEXPLAINED = 0.05;

    private static final double ANGLE_READ_WITHIN = 6;
    private static final double LEAST_SCATTER = 0.09;
    private static final double UPRIGHT_BELOW = 5;
    private static final double DOWN_FROM = 85;
    private static final double DOWN_TO = 95;

    /** Beyond this no sensor still seems to work. */
    private static final double CONTRADICTS_K = 60;

    /** Shelves of a sound kiln differ by this (half a cone at cone 6, common practice). */
    private static final double SHELVES_MAY_DIFFER_K = 14;

    private static final double SEEN_DOWN_SCATTER = 0.1;

    /**
     * One shelf.
     *
     * @param name the potter's word
     * @param offsetK by how much it was hotter than the sensor read, K
     * @param sigmaK standard error, K
     */
    record Shelf(String name, double offsetK, double sigmaK) {}

    static WitnessJudgement of(ConeTable table, Trace curve, double topC, List<WitnessPack> packs) {
        if (packs.isEmpty()) {
            return NONE;
        }
        List<Remark> remarks = new ArrayList<>();
        List<double[][]> likelihoods = new ArrayList<>();
        List<Shelf> shelves = new ArrayList<>();
        for (WitnessPack pack : packs) {
            Optional<Remark> contradiction = contradiction(pack);
            if (contradiction.isPresent()) {
                remarks.add(contradiction.get());
                continue;
            }
            double[][] likelihood = likelihood(table, curve, topC, pack);
            int best = best(likelihood, REACH_K);
            int bestOfSensor = best(likelihood, (int) CONTRADICTS_K);
            double explained = at(likelihood, bestOfSensor);
            if (explained < Math.pow(UNEXPLAINED, pack.cones().size()) && at(likelihood, best) > 10 * explained) {
                remarks.add(Remark.of(Remark.Kind.CONES_CONTRADICT_CURVE, Amount.span(best - REACH_K)));
                continue;
            }
            likelihoods.add(likelihood);
            double[] posterior = posterior(java.util.Collections.singletonList(likelihood));
            double mean = mean(posterior);
            shelves.add(new Shelf(pack.shelf(), mean, sigma(posterior, mean)));
        }
        if (likelihoods.isEmpty()) {
            return new WitnessJudgement(0, 0, List.of(), false, false, remarks);
        }
        boolean uneven = uneven(shelves);
        double offset;
        double sigma;
        if (uneven) {
            double low = shelves.stream().mapToDouble(Shelf::offsetK).min().orElseThrow();
            double high = shelves.stream().mapToDouble(Shelf::offsetK).max().orElseThrow();
            // The sensor stands somewhere among the shelves: the ware as a whole is at their middle.
            offset = shelves.stream().mapToDouble(Shelf::offsetK).average().orElseThrow();
            sigma = (high - low) / 2;
        } else {
            double[] posterior = posterior(likelihoods);
            offset = mean(posterior);
            sigma = sigma(posterior, offset);
        }
        if (Math.abs(offset) > CONTRADICTS_K) {
            remarks.add(Remark.of(Remark.Kind.CONES_CONTRADICT_CURVE, Amount.span(offset)));
            return new WitnessJudgement(0, 0, shelves, false, false, remarks);
        }
        return new WitnessJudgement(offset, sigma, shelves, uneven, true, remarks);
    }

    /** Whether anything is known from cones. */
    boolean isKnown() {
        return trusted && !shelves.isEmpty();
    }

    /** Whether the sensor is off by more than the cones may err. */
    boolean isOff() {
        return isKnown() && !uneven && Math.abs(offsetK) > Math.max(5, 1.5 * sigmaK);
    }

    private static Optional<Remark> contradiction(WitnessPack pack) {
        WitnessPack.Seen softer = null;
        for (WitnessPack.Seen seen : pack.cones()) {
            if (seen.degrees().isEmpty()) {
                continue;
            }
            if (softer != null
                    && seen.degrees().getAsDouble() > softer.degrees().getAsDouble() + 15) {
                return Optional.of(Remark.of(
                        Remark.Kind.PACK_CONTRADICTS_ITSELF,
                        new Amount.Word(pack.shelf()),
                        new Amount.Named(seen.cone()),
                        new Amount.Named(softer.cone())));
            }
            softer = seen;
        }
        return Optional.empty();
    }

    /** The offset, as a place in the likelihood, that explains a pack best within so many K. */
    private static int best(double[][] likelihood, int withinK) {
        int best = REACH_K;
        for (int i = REACH_K - withinK; i <= REACH_K + withinK; i++) {
            best = at(likelihood, i) > at(likelihood, best) ? i : best;
        }
        return best;
    }

    private static double at(double[][] likelihood, int place) {
        double sum = 0;
        for (int law = 0; law < LAWS.length; law++) {
            sum += LAWS[law] * likelihood[law][place];
        }
        return sum;
    }

    private static boolean uneven(List<Shelf> shelves) {
        for (Shelf one : shelves) {
            for (Shelf other : shelves) {
                double apart = one.offsetK - other.offsetK;
                double error = Math.sqrt(one.sigmaK * one.sigmaK + other.sigmaK * other.sigmaK);
                if (apart > SHELVES_MAY_DIFFER_K && apart > 1.6 * error) {
                    return true;
                }
            }
        }
        return false;
    }

    /** By law of bending, then by offset from −180 to +180 °C in whole degrees. */
    private static double[][] likelihood(ConeTable table, Trace curve, double topC, WitnessPack pack) {
        double[][] likelihood = new double[LAWS.length][2 * REACH_K + 1];
        for (double[] law : likelihood) {
            java.util.Arrays.fill(law, 1);
        }
        for (WitnessPack.Seen seen : pack.cones()) {
            if (!table.cones().contains(seen.cone())) {
                continue;
            }
            double[] logWork = logWork(table, curve, topC, seen);
            for (int law = 0; law < LAWS.length; law++) {
                for (int i = 0; i < logWork.length; i++) {
                    likelihood[law][i] *= SLIP + explains(law, seen, logWork[i]);
                }
            }
        }
        return likelihood;
    }

    /** ln of the cone's heat work at each offset: taken at a few, straight between them. */
    private static double[] logWork(ConeTable table, Trace curve, double topC, WitnessPack.Seen seen) {
        int knots = 2 * REACH_K / KNOT_K + 1;
        double[] at = new double[knots];
        for (int knot = 0; knot < knots; knot++) {
            double shift = -REACH_K + knot * KNOT_K;
            Trace.Builder line = new Trace.Builder();
            for (int i = 0; i < curve.size(); i++) {
                if (curve.elapsedMs(i) > seen.downMs().orElse(Long.MAX_VALUE)) {
                    break;
                }
                if (curve.temperatureC(i) > topC - 300) {
                    line.add(curve.elapsedMs(i), curve.temperatureC(i) + shift);
                }
            }
            double work = line.size() < 2
                    ? 0
                    : HeatWork.ofLine(table, line.view()).share(seen.cone()).orElse(0);
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

    private static double explains(int law, WitnessPack.Seen seen, double logWork) {
        if (seen.degrees().isEmpty()) {
            return bump(logWork, 0, SEEN_DOWN_SCATTER);
        }
        double degrees = seen.degrees().getAsDouble();
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

    private static double bump(double value, double middle, double scatter) {
        double z = (value - middle) / scatter;
        return Math.exp(-z * z / 2);
    }

    /** The normal distribution, close enough for a soft edge (logistic approximation, within 0.01). */
    private static double below(double z) {
        return 1 / (1 + Math.exp(-1.702 * z));
    }

    private static double[] posterior(List<double[][]> packs) {
        double[] posterior = new double[2 * REACH_K + 1];
        double sum = 0;
        for (int i = 0; i < posterior.length; i++) {
            double x = i - REACH_K;
            double prior = bump(x, 0, SOUND_K) / SOUND_K + bump(x, 0, OFF_K) / OFF_K;
            for (int law = 0; law < LAWS.length; law++) {
                double all = LAWS[law];
                for (double[][] pack : packs) {
                    all *= pack[law][i];
                }
                posterior[i] += all;
            }
            posterior[i] *= prior;
            sum += posterior[i];
        }
        for (int i = 0; i < posterior.length; i++) {
            posterior[i] /= sum;
        }
        return posterior;
    }

    private static double mean(double[] posterior) {
        double mean = 0;
        for (int i = 0; i < posterior.length; i++) {
            mean += posterior[i] * (i - REACH_K);
        }
        return mean;
    }

    private static double sigma(double[] posterior, double mean) {
        double variance = 0;
        for (int i = 0; i < posterior.length; i++) {
            double x = i - REACH_K - mean;
            variance += posterior[i] * x * x;
        }
        return Math.max(1.5, Math.sqrt(variance));
    }
}
