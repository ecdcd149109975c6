package org.kilnside.thermal;

import java.util.Arrays;
import java.util.Optional;

/** One possible kiln run forward from now. Scratch for one thread. */
final class Projection {
    /** Further ahead nothing is worth saying, s. */
    static final double HORIZON_S = 120 * 3600.0;

    private final FittedKiln fit;
    private final WallSlab slab;
    private final WallSlab first;
    private Optional<KilnParameters> firstDriven = Optional.empty();
    private double firstSoaked;

    Projection(FittedKiln fit) {
        this.fit = fit;
        slab = new WallSlab(fit.kind().shape(), WallSlab.USUAL_CELLS);
        first = new WallSlab(fit.kind().shape(), WallSlab.USUAL_CELLS);
    }

    /** The wall as the measured curve has filled it up to now. */
    WallSlab now(double[] z) {
        FiringData data = fit.data();
        KilnParameters kiln = fit.prior().kiln(z);
        drive(data, kiln, fit.prior().soaked(z));
        KilnParameters now = kiln.withPsiC(kiln.psiC() * fit.prior().strengthLeft(z));
        slab.use(data.openedNow() ? now.withLambda(kiln.lambda() * fit.prior().openedTimes(z)) : now);
        return slab;
    }

    /** The kiln asked first is asked again with another leak or power, which do nothing to a driven wall: its course is kept. */
    private void drive(FiringData data, KilnParameters kiln, double soaked) {
        KilnParameters driven = kiln.asDriven();
        if (firstDriven.filter(driven::equals).isPresent() && soaked == firstSoaked) {
            slab.startLike(first);
            return;
        }
        data.start(slab, kiln, soaked);
        for (int i = 1; i < data.driveS.length; i++) {
            slab.drive(data.driveS[i] - data.driveS[i - 1], data.driveC[i]);
        }
        if (firstDriven.isEmpty()) {
            firstDriven = Optional.of(driven);
            firstSoaked = soaked;
            first.startLike(slab);
        }
    }

    /**
     * When the chamber, left to itself from a moment, falls below each threshold.
     *
     * @param thresholdsC falling
     * @return times in the course's seconds; NaN where it does not get there within the horizon
     */
    static double[] below(WallSlab slab, double fromS, double ambientC, double[] thresholdsC) {
        double[] times = new double[thresholdsC.length];
        Arrays.fill(times, Double.NaN);
        int next = 0;
        double time = fromS;
        double before = slab.chamberC();
        while (next < times.length && thresholdsC[next] >= before) {
            times[next++] = fromS;
        }
        double step = 60;
        while (next < times.length && time < fromS + HORIZON_S) {
            slab.coast(step);
            double after = slab.chamberC();
            while (next < times.length && after < thresholdsC[next]) {
                times[next] = time + step * part(before, after, thresholdsC[next], ambientC);
                next++;
            }
            before = after;
            time += step;
            step = Math.min(WallSlab.COASTING_STEP_S, step * 1.25);
        }
        return times;
    }

    /** Where between two steps an exponential towards ambient passes a level. */
    static double part(double before, double after, double level, double ambientC) {
        if (after > ambientC && level > ambientC) {
            return Math.log((before - ambientC) / (level - ambientC))
                    / Math.log((before - ambientC) / (after - ambientC));
        }
        return (before - level) / (before - after);
    }
}
