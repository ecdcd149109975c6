package org.kilnside.thermal;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The power the kiln takes against what it needs: a thermocouple that slipped out, is shorted or saturated reads low with
 * the output at full, and the kiln runs away under a harmless number.
 */
final class SensorGuard {
    /** Only a kiln that takes nearly all it can is running away. */
    private static final double TAKES = 0.8;

    /** It takes more than this many times what the fit says it needs. */
    private static final double TIMES = 1.7;

    private static final double LOOK_S = 1500;

    /** The kiln is learned from what lies further back than this, s. */
    private static final double LEARNED_UNTIL_S = 3600;

    private static final int FEWEST_STRETCHES = 5;

    private SensorGuard() {}

    /** Whether the number the sensor gives cannot be believed. */
    static boolean distrusts(FiringData data, KilnMemory memory) {
        Course course = data.course;
        double takes = meanOutput(course, data.nowS - LOOK_S, data.nowS);
        if (!(takes > TAKES) || data.nowC < 150) {
            return false;
        }
        double until = Math.min(data.nowS - LEARNED_UNTIL_S, fullSinceS(course));
        if (until > course.timeS[0] + 7200) {
            FiringData before = FiringData.of(
                    course.until(until),
                    data.ambientGiven ? OptionalDouble.of(data.ambient.celsius()) : OptionalDouble.empty());
            if (before.powered.size() >= FEWEST_STRETCHES) {
                FittedKiln fit = memory.fit(before).get(0).fit();
                return takes > TIMES * needed(fit, fit.solution().parameters(), data);
            }
        }
        Optional<FittedKiln> known = memory.lastWithPower();
        return known.isPresent()
                && takes > TIMES * needed(known.get(), known.get().solution().parameters(), data);
    }

    /** Since when it has taken nearly all it can: what made it do so may have begun there. */
    private static double fullSinceS(Course course) {
        int i = course.last();
        while (i > 0 && !(course.output[i - 1] < TAKES)) {
            i--;
        }
        return course.timeS[i] - 300;
    }

    private static double meanOutput(Course course, double fromS, double toS) {
        double sum = 0;
        int count = 0;
        for (int i = Math.max(0, course.at(fromS) + 1); i < course.size && course.timeS[i] <= toS; i++) {
            if (!Double.isNaN(course.output[i])) {
                sum += course.output[i];
                count++;
            }
        }
        return count == 0 ? Double.NaN : sum / count;
    }

    /** The output a kiln of these numbers needs for the last stretch of this curve. */
    private static double needed(FittedKiln fit, double[] z, FiringData data) {
        KilnParameters kiln = fit.prior().kiln(z);
        WallSlab slab = new WallSlab(fit.kind().shape(), WallSlab.USUAL_CELLS);
        data.start(slab, kiln, 0.5);
        double heat = 0;
        double leak = 0;
        double seconds = 0;
        for (int i = 1; i < data.driveS.length; i++) {
            double step = data.driveS[i] - data.driveS[i - 1];
            double before = slab.intoWall() + slab.loadHolds(0);
            slab.drive(step, data.driveC[i]);
            if (data.driveS[i] > data.nowS - LOOK_S) {
                heat += slab.intoWall() + slab.loadHolds(0) - before;
                leak += kiln.leakAt(data.driveC[i]) * (data.driveC[i] - kiln.ambientC()) * step;
                seconds += step;
            }
        }
        return Math.max(0.02, (heat * kiln.tauS() + leak) / seconds / kiln.psiC());
    }
}
