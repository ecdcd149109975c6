package org.kilnside.thermal;

import java.util.Optional;
import java.util.function.Supplier;

/** Falls of the reading, with the elements on, that no kiln makes: found by shape, and held against the model's free run. */
final class Falls {
    private static final double LOOK_S = 300;

    /** A fall worth a look: this many kelvin, and this part of the height above the room. */
    private static final double LEAST_K = 20;

    private static final double LEAST_PART = 0.05;

    /** A kiln's sensor sees elements and hot faces, which fall faster than the model's chamber does: its fall times this. */
    private static final double FREE_TIMES = 1.6;

    private static final double MARGIN_K = 12;
    private static final double MARGIN_PART = 0.015;

    /** Elements are on when they give more than this. */
    private static final double HEATED = 0.2;

    /** Back within this time, and half of it faster than elements heat, it was a loose contact or a look inside, s. */
    private static final double BACK_WITHIN_S = 1800;

    private Falls() {}

    /**
     * The latest such fall that has not come back.
     *
     * @param kiln what is known of it; without, a kiln that cools fast
     */
    static Optional<PowerGuard.Finding> fellTooFast(FiringData data, Supplier<Optional<FittedKiln>> kiln) {
        Course course = data.course;
        for (int i = course.last(); i > 5; i--) {
            double end = course.timeS[i];
            double begin = end - LOOK_S;
            if (begin < course.timeS[0] + 2 * LOOK_S) {
                break;
            }
            double beginC = course.smoothAt(begin, begin - LOOK_S, begin);
            double endC = course.temperatureC[i];
            double height = beginC - data.ambient.celsius();
            // Two readings, and steadily: one alone may be anything.
            boolean falls = beginC - endC > Math.max(LEAST_K, LEAST_PART * height)
                    && beginC - course.temperatureC[i - 1] > Math.max(LEAST_K, LEAST_PART * height) / 2;
            if (!falls || course.overlapsGap(begin, end) || !(course.meanOutput(begin, end) > HEATED)) {
                continue;
            }
            double lowestC = beginC
                    - FREE_TIMES * freeFall(data, kiln.get(), begin, beginC, end - begin)
                    - MARGIN_K
                    - MARGIN_PART * height;
            if (endC < lowestC && !cameBack(course, i, beginC, endC)) {
                return Optional.of(new PowerGuard.Finding(PowerGuard.Kind.FELL_TOO_FAST, begin, lowestC, data.nowC));
            }
        }
        return Optional.empty();
    }

    private static boolean cameBack(Course course, int from, double beginC, double endC) {
        double drop = beginC - endC;
        for (int i = from; i < course.size && course.timeS[i] < course.timeS[from] + BACK_WITHIN_S; i++) {
            double rise = course.temperatureC[i]
                    - course.temperatureAt(Math.max(course.timeS[from], course.timeS[i] - LOOK_S));
            if (rise > 0.5 * drop) {
                return true;
            }
        }
        return false;
    }

    private static double freeFall(
            FiringData data, Optional<FittedKiln> kiln, double begin, double beginC, double seconds) {
        WallKind kind = kiln.map(FittedKiln::kind).orElse(WallKind.FIBRE);
        WallSlab slab = new WallSlab(kind.shape(), WallSlab.USUAL_CELLS);
        KilnParameters numbers = kiln.map(FittedKiln::kiln).orElseGet(() -> {
            Prior prior = data.prior(WallKind.FIBRE);
            return prior.kiln(new double[prior.size()]);
        });
        data.start(slab, numbers, data.startsWarm ? 0.6 : 0);
        for (int i = 1; i < data.driveS.length && data.driveS[i] < begin; i++) {
            slab.drive(data.driveS[i] - data.driveS[i - 1], data.driveC[i]);
        }
        slab.drive(60, beginC);
        for (double time = 0; time < seconds; time += 30) {
            slab.coast(30);
        }
        return beginC - slab.chamberC();
    }
}
