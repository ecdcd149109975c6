package org.kilnside.heatwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.kilnside.firing.Trace;

/**
 * What the witness cones of a firing say of its sensor: by how much the ware was hotter than it read, and whether the
 * shelves agree. Each steady error is weighed by how well it explains each cone ({@link WitnessReading}).
 *
 * @param offsetK to be added to the sensor's readings, K
 * @param sigmaK its standard error, K
 * @param shelves each pack by itself, in the potter's order
 * @param uneven whether the shelves differ by more than the cones scatter
 * @param trusted whether the offset can be a sensor's: not when the cones contradict the curve
 * @param objections what was odd about the cones
 */
public record WitnessJudgement(
        double offsetK,
        double sigmaK,
        List<Shelf> shelves,
        boolean uneven,
        boolean trusted,
        List<Objection> objections) {
    public static final WitnessJudgement NONE = new WitnessJudgement(0, 0, List.of(), false, true, List.of());

    /** A sound sensor, and one that is off (K, standard deviations), held equally possible before looking. */
    private static final double SOUND_K = 3.5;

    private static final double OFF_K = 18;

    /** A pack whose every cone is explained worse than this by any sensor that works belongs to another curve. */
    private static final double UNEXPLAINED = 0.05;

    /** Beyond this no sensor still seems to work, K. */
    private static final int CONTRADICTS_K = 60;

    /** Shelves of a sound kiln differ by this, K (half a cone at cone 6, common practice). */
    private static final double SHELVES_MAY_DIFFER_K = 14;

    /** And by this at least, by whichever law cones bend, K. */
    private static final double BY_ANY_LAW_K = 7;

    /** A law that is less likely than this is not asked. */
    private static final double HARDLY_THE_LAW = 0.1;

    private static final double ANGLES_MAY_DIFFER = 15;
    private static final double LEAST_SIGMA_K = 1.5;

    /**
     * One shelf.
     *
     * @param name the potter's word
     * @param offsetK by how much it was hotter than the sensor read, K
     * @param sigmaK standard error, K
     */
    public record Shelf(String name, double offsetK, double sigmaK) {}

    /** What was odd about the cones. */
    public sealed interface Objection {
        /** A harder cone of a pack bent further than a softer one; the pack was left out. */
        record PackContradictsItself(String shelf, Cone harder, Cone softer) implements Objection {}

        /** A pack that no error of the sensor explains; it was left out. */
        record FitsNothing(String shelf) implements Objection {}

        /** Cones further from the curve than any sensor that works, K; they were left out. */
        record ContradictsCurve(String shelf, double offK) implements Objection {}
    }

    public WitnessJudgement {
        shelves = List.copyOf(shelves);
        objections = List.copyOf(objections);
    }

    /** With what sensors are like kept in mind: most are sound, some are off. */
    public static WitnessJudgement of(ConeTable table, Trace curve, List<WitnessPack> packs) {
        return of(
                table,
                curve,
                packs,
                offsetK -> WitnessReading.bump(offsetK, 0, SOUND_K) / SOUND_K
                        + WitnessReading.bump(offsetK, 0, OFF_K) / OFF_K);
    }

    /** What the cones alone say, any error within reach held equally possible: fit for a mean over firings. */
    static WitnessJudgement unbiased(ConeTable table, Trace curve, List<WitnessPack> packs) {
        return of(table, curve, packs, WitnessJudgement::anyError);
    }

    private static double anyError(int offsetK) {
        return Math.abs(offsetK) <= CONTRADICTS_K ? 1 : 0;
    }

    private static WitnessJudgement of(
            ConeTable table, Trace curve, List<WitnessPack> packs, IntToDoubleFunction prior) {
        if (packs.isEmpty()) {
            return NONE;
        }
        double topC = highestC(curve);
        List<Objection> objections = new ArrayList<>();
        List<WitnessReading> readings = new ArrayList<>();
        List<String> names = new ArrayList<>();
        for (WitnessPack pack : packs) {
            Optional<Objection> contradiction = contradiction(pack);
            if (contradiction.isPresent()) {
                objections.add(contradiction.get());
                continue;
            }
            WitnessReading reading = WitnessReading.of(table, curve, topC, pack);
            int best = reading.best(WitnessReading.REACH_K);
            double explained = reading.at(reading.best(CONTRADICTS_K));
            if (explained < Math.pow(UNEXPLAINED, pack.cones().size())) {
                objections.add(
                        reading.at(best) > 10 * explained
                                ? new Objection.ContradictsCurve(pack.shelf(), best)
                                : new Objection.FitsNothing(pack.shelf()));
                continue;
            }
            readings.add(reading);
            names.add(pack.shelf());
        }
        if (readings.isEmpty()) {
            return new WitnessJudgement(0, 0, List.of(), false, false, objections);
        }
        return judged(readings, names, objections, prior);
    }

    private static WitnessJudgement judged(
            List<WitnessReading> readings, List<String> names, List<Objection> objections, IntToDoubleFunction prior) {
        double[] laws = laws(readings, prior);
        List<Shelf> shelves = new ArrayList<>();
        for (int i = 0; i < readings.size(); i++) {
            List<Estimate> estimates = new ArrayList<>();
            for (int law = 0; law < laws.length; law++) {
                estimates.add(Estimate.of(List.of(readings.get(i)), law, prior));
            }
            Estimate shelf = Estimate.mixed(estimates, laws);
            shelves.add(new Shelf(names.get(i), shelf.meanK(), shelf.sigmaK()));
        }
        // Whether shelves differ is asked of the cones alone: what sensors are like says nothing of it.
        boolean uneven = uneven(
                readings.stream()
                        .map(reading -> IntStream.range(0, laws.length)
                                .mapToObj(law -> Estimate.of(List.of(reading), law, WitnessJudgement::anyError))
                                .toList())
                        .toList(),
                laws);
        double offset;
        double sigma;
        if (uneven) {
            double low = shelves.stream().mapToDouble(Shelf::offsetK).min().orElseThrow();
            double high = shelves.stream().mapToDouble(Shelf::offsetK).max().orElseThrow();
            // The sensor stands somewhere among the shelves: the ware as a whole is at their middle.
            offset = shelves.stream().mapToDouble(Shelf::offsetK).average().orElseThrow();
            sigma = (high - low) / 2;
        } else {
            List<Estimate> estimates = new ArrayList<>();
            for (int law = 0; law < laws.length; law++) {
                estimates.add(Estimate.of(readings, law, prior));
            }
            Estimate all = Estimate.mixed(estimates, laws);
            offset = all.meanK();
            sigma = Math.max(LEAST_SIGMA_K, all.sigmaK());
        }
        if (Math.abs(offset) > CONTRADICTS_K) {
            objections.add(new Objection.ContradictsCurve("", offset));
            return new WitnessJudgement(0, 0, shelves, false, false, objections);
        }
        return new WitnessJudgement(offset, sigma, shelves, uneven, true, objections);
    }

    /** Whether anything is known from cones. */
    public boolean isKnown() {
        return trusted && !shelves.isEmpty();
    }

    /** Whether the sensor is off by more than the cones may err. */
    public boolean isOff() {
        return isKnown() && !uneven && Math.abs(offsetK) > Math.max(5, 1.5 * sigmaK);
    }

    private static Optional<Objection> contradiction(WitnessPack pack) {
        WitnessCone softer = null;
        for (WitnessCone cone : pack.cones()) {
            if (cone.degrees().isEmpty()) {
                continue;
            }
            if (softer != null
                    && cone.degrees().getAsDouble() > softer.degrees().getAsDouble() + ANGLES_MAY_DIFFER) {
                return Optional.of(new Objection.PackContradictsItself(pack.shelf(), cone.cone(), softer.cone()));
            }
            softer = cone;
        }
        return Optional.empty();
    }

    /** How likely each law of bending is once all packs have been seen. */
    private static double[] laws(List<WitnessReading> readings, IntToDoubleFunction prior) {
        double[] laws = new double[WitnessReading.LAWS.length];
        double sum = 0;
        for (int law = 0; law < laws.length; law++) {
            laws[law] = WitnessReading.LAWS[law];
            for (WitnessReading reading : readings) {
                laws[law] *= Estimate.of(List.of(reading), law, prior).evidence();
            }
            sum += laws[law];
        }
        for (int law = 0; law < laws.length; law++) {
            laws[law] = sum > 0 ? laws[law] / sum : WitnessReading.LAWS[law];
        }
        return laws;
    }

    /** All cones of a kiln bend by one law, whichever it is: the difference of two shelves is known better than either. */
    private static boolean uneven(List<List<Estimate>> shelves, double[] laws) {
        for (List<Estimate> one : shelves) {
            for (List<Estimate> other : shelves) {
                double apart = 0;
                double variance = 0;
                double least = Double.POSITIVE_INFINITY;
                for (int law = 0; law < laws.length; law++) {
                    double byLaw = one.get(law).meanK() - other.get(law).meanK();
                    apart += laws[law] * byLaw;
                    least = laws[law] > HARDLY_THE_LAW ? Math.min(least, byLaw) : least;
                    variance += laws[law]
                            * (one.get(law).sigmaK() * one.get(law).sigmaK()
                                    + other.get(law).sigmaK() * other.get(law).sigmaK());
                }
                if (apart > SHELVES_MAY_DIFFER_K && least > BY_ANY_LAW_K && apart > 1.6 * Math.sqrt(variance)) {
                    return true;
                }
            }
        }
        return false;
    }

    /** The error under one law: mean, standard error, and how well it explains the packs at all. */
    private record Estimate(double meanK, double sigmaK, double evidence) {
        static Estimate of(List<WitnessReading> readings, int law, IntToDoubleFunction prior) {
            double sum = 0;
            double first = 0;
            double second = 0;
            for (int offsetK = -WitnessReading.REACH_K; offsetK <= WitnessReading.REACH_K; offsetK++) {
                double weight = prior.applyAsDouble(offsetK);
                for (WitnessReading reading : readings) {
                    weight *= reading.at(law, offsetK);
                }
                sum += weight;
                first += weight * offsetK;
                second += weight * offsetK * offsetK;
            }
            if (!(sum > 0)) {
                return new Estimate(0, OFF_K, 0);
            }
            double mean = first / sum;
            return new Estimate(mean, Math.max(LEAST_SIGMA_K, Math.sqrt(Math.max(0, second / sum - mean * mean))), sum);
        }

        static Estimate mixed(List<Estimate> byLaw, double[] laws) {
            double mean = 0;
            double second = 0;
            for (int law = 0; law < laws.length; law++) {
                Estimate each = byLaw.get(law);
                mean += laws[law] * each.meanK;
                second += laws[law] * (each.sigmaK * each.sigmaK + each.meanK * each.meanK);
            }
            return new Estimate(mean, Math.sqrt(Math.max(0, second - mean * mean)), 1);
        }
    }

    private static double highestC(Trace curve) {
        double highest = curve.temperatureC(0);
        for (int i = 1; i < curve.size(); i++) {
            highest = Math.max(highest, curve.temperatureC(i));
        }
        return highest;
    }
}
