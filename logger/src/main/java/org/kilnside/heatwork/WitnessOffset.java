package org.kilnside.heatwork;

import java.util.ArrayList;
import java.util.Comparator;
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
    /** What a wire of class 2 may be off when cold (IEC 60584-1). */
    private static final double COLD_HALF_WIDTH_K = 2.5;

    /** Nine in ten of a normal error, in standard errors. */
    private static final double NINE_IN_TEN = 1.645;

    /** Firings whose highest readings lie so close tell of the same heat, K. */
    private static final double EQUALLY_HOT_K = 80;

    /** Fewer firings show no drift. */
    private static final int FEWEST_FOR_DRIFT = 4;

    /**
     * The offset from a firing's cones, read as carefully as a review reads them ({@link WitnessJudgement}).
     *
     * @param table the series of the cones
     * @param curve the good readings, not yet corrected by any earlier offset
     * @param packs what they showed, a pack a shelf
     * @return empty when the cones leave one side open, such as a single flat one, when they contradict the curve or
     *     themselves, or when the series lacks them
     */
    public static Optional<WitnessOffset> of(ConeTable table, Trace curve, List<WitnessPack> packs) {
        List<WitnessPack> meant = packs.stream()
                .filter(pack ->
                        pack.cones().stream().anyMatch(cone -> table.cones().contains(cone.cone())))
                .toList();
        if (curve.isEmpty() || !WitnessReading.boundsBothSides(meant)) {
            return Optional.empty();
        }
        WitnessJudgement judged = WitnessJudgement.unbiased(table, curve, meant);
        if (!judged.isKnown()) {
            return Optional.empty();
        }
        double chartK = ConeConstants.chartHalfWidthK(table.series());
        return Optional.of(new WitnessOffset(
                judged.offsetK(), Math.hypot(NINE_IN_TEN * judged.sigmaK(), chartK), highestC(curve), judged.uneven()));
    }

    /**
     * This offset as a calibration of the sensor in its place. Where it was found it holds as it is; towards the cold it
     * falls away, since what a drifted wire or a place nearer the elements adds grows with the heat: a cold kiln is not
     * ten degrees off (common practice).
     */
    public Calibration asCalibration() {
        return calibration(List.of(this), 0);
    }

    /**
     * The calibration from several firings with the same sensor in the same place. Bisque and glaze firings each tell of
     * their own heat: firings that went equally hot are taken together ({@link #at}).
     *
     * @param firings oldest first
     * @param index the firing it is for, by its place among them; the last for those to come
     */
    public static Calibration calibration(List<WitnessOffset> firings, int index) {
        List<WitnessOffset> byHeat = new ArrayList<>(firings);
        byHeat.sort(Comparator.comparingDouble(WitnessOffset::atC));
        List<Calibration.Point> points = new ArrayList<>();
        points.add(new Calibration.Point(0, 0, COLD_HALF_WIDTH_K, Calibration.By.WITNESS_CONES));
        int from = 0;
        for (int i = 1; i <= byHeat.size(); i++) {
            if (i == byHeat.size() || byHeat.get(i).atC > byHeat.get(from).atC + EQUALLY_HOT_K) {
                List<WitnessOffset> group = byHeat.subList(from, i);
                List<WitnessOffset> inTime =
                        firings.stream().filter(group::contains).toList();
                long until = firings.subList(0, index + 1).stream()
                        .filter(group::contains)
                        .count();
                WitnessOffset its = at(inTime, (int) Math.max(0, until - 1));
                points.add(
                        new Calibration.Point(its.atC, its.correctionK, its.halfWidthK, Calibration.By.WITNESS_CONES));
                from = i;
            }
        }
        return Calibration.of(points);
    }

    /**
     * The kiln's offset from several firings with the same sensor in the same place, for the firing after them: their
     * mean, weighed by how well each is known, its range holding the scatter between firings too. Where the offset
     * drifts, the line through them as it stands at the last.
     *
     * @param firings oldest first
     * @throws IllegalArgumentException without any
     */
    public static WitnessOffset after(List<WitnessOffset> firings) {
        return at(firings, firings.size() - 1);
    }

    /**
     * The same for one of those firings.
     *
     * @param index its place among them, 0 the oldest
     */
    public static WitnessOffset at(List<WitnessOffset> firings, int index) {
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
        double slope = driftKPerFiring(firings).orElse(0.0);
        double middle = (firings.size() - 1) / 2.0;
        double mean = sum / weights;
        double scatter = 0;
        for (int i = 0; i < firings.size(); i++) {
            double miss = firings.get(i).correctionK - mean - slope * (i - middle);
            scatter += miss * miss;
        }
        double spread =
                firings.size() < 2 ? 0 : NINE_IN_TEN * Math.sqrt(scatter / (firings.size() - 1) / firings.size());
        boolean disagree = firings.stream().anyMatch(WitnessOffset::disagree);
        double further = slope == 0 ? 1 : 2;
        return new WitnessOffset(
                mean + slope * (index - middle),
                further * Math.hypot(Math.sqrt(1 / weights), spread),
                atSum / weights,
                disagree);
    }

    /**
     * By how many degrees the offset changes from firing to firing, when it changes by more than its own scatter and the
     * single firings' uncertainty explain: drift. Empty when it does not, or with fewer than four firings.
     *
     * @param firings oldest first, the same sensor in the same place
     */
    public static Optional<Double> driftKPerFiring(List<WitnessOffset> firings) {
        int count = firings.size();
        if (count < FEWEST_FOR_DRIFT) {
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

    private static double highestC(Trace curve) {
        double highest = curve.temperatureC(0);
        for (int i = 1; i < curve.size(); i++) {
            highest = Math.max(highest, curve.temperatureC(i));
        }
        return highest;
    }
}
