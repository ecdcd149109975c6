package org.kilnside.heatwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.Calibration;

/**
 * By how many degrees the ware was hotter than the sensor read, from the witness cones of one firing: the steady error
 * of the curve that makes its heat work agree with what they showed.
 *
 * @param correctionK to be added to the sensor's readings, °C
 * @param halfWidthK how far the correction may be off, nine in ten, °C
 * @param atC the sensor's highest reading, where the correction was found, °C
 * @param disagree whether the cones contradict one another by more than the chart scatters: the shelves differ, and no
 *     one number describes the kiln
 */
public record WitnessOffset(double correctionK, double halfWidthK, double atC, boolean disagree) {
    /** The recording's clock against the eye at the spy-hole, minutes of bending either way (common practice). */
    private static final double SEEN_LEAST = 0.93;

    private static final double SEEN_MOST = 1.07;

    /** What a wire of class 2 may be off when cold (IEC 60584-1). */
    private static final double COLD_HALF_WIDTH_K = 2.5;

    /**
     * The offset from a firing's cones.
     *
     * @param table the series of the cones
     * @param curve the good readings, not yet corrected by any earlier offset
     * @param cones what they showed
     * @return empty when the cones leave one side open, such as a single flat one, or the series lacks them
     */
    public static Optional<WitnessOffset> of(ConeTable table, Trace curve, List<WitnessCone> cones) {
        if (curve.isEmpty()) {
            return Optional.empty();
        }
        Bending whole = bendingUntil(table, curve, Long.MAX_VALUE);
        List<Double> lower = new ArrayList<>();
        List<Double> upper = new ArrayList<>();
        for (WitnessCone cone : cones) {
            int index = table.cones().indexOf(cone.cone());
            if (index < 0 || whole.work(index) <= 0) {
                continue;
            }
            if (cone.seenDownMs().isPresent()) {
                Bending then = bendingUntil(table, curve, cone.seenDownMs().getAsLong());
                lower.add(offsetFor(then, index, SEEN_LEAST));
                upper.add(offsetFor(then, index, SEEN_MOST));
            } else {
                cone.bend().least().ifPresent(least -> lower.add(offsetFor(whole, index, least)));
                cone.bend().most().ifPresent(most -> upper.add(offsetFor(whole, index, most)));
            }
        }
        if (lower.isEmpty() || upper.isEmpty()) {
            return Optional.empty();
        }
        double from = lower.stream().mapToDouble(Double::doubleValue).max().orElseThrow();
        double to = upper.stream().mapToDouble(Double::doubleValue).min().orElseThrow();
        double chartK = ConeConstants.chartHalfWidthK(table.series());
        double half = Math.abs(to - from) / 2;
        return Optional.of(new WitnessOffset(
                (from + to) / 2, Math.sqrt(half * half + chartK * chartK), highestC(curve), from - to > 2 * chartK));
    }

    /**
     * This offset as a calibration of the sensor in its place. Where it was found it holds as it is; towards the cold it
     * falls away, since what a drifted wire or a place nearer the elements adds grows with the heat: a cold kiln is not
     * ten degrees off (common practice).
     */
    public Calibration asCalibration() {
        Calibration.By cones = Calibration.By.WITNESS_CONES;
        return Calibration.of(List.of(
                new Calibration.Point(0, 0, COLD_HALF_WIDTH_K, cones),
                new Calibration.Point(atC, correctionK, halfWidthK, cones)));
    }

    /**
     * The kiln's offset from several firings with the same sensor in the same place: the mean, weighed by how well each
     * is known; its range holds the scatter between firings too.
     *
     * @throws IllegalArgumentException without any
     */
    public static WitnessOffset mean(List<WitnessOffset> firings) {
        if (firings.isEmpty()) {
            throw new IllegalArgumentException("a mean needs at least one firing");
        }
        double weights = 0;
        double sum = 0;
        double atSum = 0;
        for (WitnessOffset firing : firings) {
            double weight = 1 / (firing.halfWidthK * firing.halfWidthK);
            weights += weight;
            sum += weight * firing.correctionK;
            atSum += weight * firing.atC;
        }
        double mean = sum / weights;
        double scatter = 0;
        for (WitnessOffset firing : firings) {
            scatter += (firing.correctionK - mean) * (firing.correctionK - mean);
        }
        double spread = firings.size() < 2 ? 0 : 1.645 * Math.sqrt(scatter / (firings.size() - 1) / firings.size());
        boolean disagree = firings.stream().anyMatch(WitnessOffset::disagree);
        return new WitnessOffset(mean, Math.sqrt(1 / weights + spread * spread), atSum / weights, disagree);
    }

    /**
     * By how many degrees the offset changes from firing to firing, when it changes by more than its own scatter and the
     * single firings' uncertainty explain: drift. Empty when it does not, or with fewer than four firings.
     *
     * @param firings oldest first, the same sensor in the same place
     */
    public static Optional<Double> driftKPerFiring(List<WitnessOffset> firings) {
        int count = firings.size();
        if (count < 4) {
            return Optional.empty();
        }
        double middle = (count - 1) / 2.0;
        double products = 0;
        double squares = 0;
        double knownSquares = 0;
        for (int i = 0; i < count; i++) {
            products += (i - middle) * firings.get(i).correctionK;
            squares += (i - middle) * (i - middle);
            knownSquares += firings.get(i).halfWidthK * firings.get(i).halfWidthK / count;
        }
        double slope = products / squares;
        double mayBeChance = Math.sqrt(knownSquares / squares);
        return Math.abs(slope) > mayBeChance ? Optional.of(slope) : Optional.empty();
    }

    /** The steady error that brings a cone's heat work to a share. */
    private static double offsetFor(Bending bending, int index, double share) {
        return bending.work(index) <= 0
                ? 0
                : (StrictMath.log(share) - StrictMath.log(bending.work(index))) / bending.slopePerK(index);
    }

    private static Bending bendingUntil(ConeTable table, Trace curve, long untilMs) {
        Bending bending = new Bending(table);
        bending.startAt(curve.temperatureC(0));
        for (int i = 1; i < curve.size() && curve.elapsedMs(i) <= untilMs; i++) {
            bending.add(
                    curve.temperatureC(i - 1),
                    curve.temperatureC(i),
                    (curve.elapsedMs(i) - curve.elapsedMs(i - 1)) / 1000.0);
        }
        return bending;
    }

    private static double highestC(Trace curve) {
        double highest = curve.temperatureC(0);
        for (int i = 1; i < curve.size(); i++) {
            highest = Math.max(highest, curve.temperatureC(i));
        }
        return highest;
    }
}
