package org.kilnside.thermal;

import java.util.Optional;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.kilnside.thermal.Forecast.When;

/**
 * When a kiln on its way down fell below a temperature: where the smoothed curve crosses it, with what the noise of the readings
 * leaves open. The last single reading above it would be late by up to an hour where the kiln hardly falls any more.
 */
final class Crossing {
    /** Where it is looked for first is seen over so long to either side, s. */
    private static final double SHORTEST_S = 300;

    /** Over up to so many times that where the readings are noisy. */
    private static final double MOST_LOOK = 16;

    /** A curve that falls is no parabola over longer, s. */
    private static final double LONGEST_S = 9600;

    /** So sure is sure enough: times are told in minutes, s. */
    private static final double SURE_S = 20;

    private static final int FEWEST = 6;

    /** Half of a step in which controllers tell whole degrees, and a little: no parabola has to go nearer to readings, K. */
    private static final double STEP_K = 0.35;

    /** A parabola that misses its readings by so many times their noise is not the curve's shape. */
    private static final double MISSES = 1.4;

    /** By so much wider than the scatter of the readings says, as they err alike for longer than a window shows (own trials). */
    private static final double WIDER = 1.2;

    /** A slope known no better than this tells nothing of when. */
    private static final double SURELY_FALLS = 3;

    /** A curve this many times its noise above a temperature has not crossed it. */
    private static final double SURELY_ABOVE = 3;

    /** How fast it falls now is seen over so long, s. */
    private static final double SLOPE_OVER_S = 3600;

    /** A parabola is led on past the last reading by no more than this, s. */
    private static final double SOON_S = 1800;

    private final Course course;
    private final double celsius;
    private final double notBeforeS;
    private final double lookS;

    private Crossing(Course course, double celsius, double notBeforeS) {
        this.course = course;
        this.celsius = celsius;
        this.notBeforeS = notBeforeS;
        double noise = course.noiseK(notBeforeS, course.lastS());
        lookS = SHORTEST_S * Math.max(1, Math.min(MOST_LOOK, noise * noise));
    }

    /**
     * When it fell below, for the last time.
     *
     * @param peak the course's highest point, above that temperature
     * @return empty where it has not yet
     */
    static Optional<When> of(Course course, int peak, double celsius) {
        return new Crossing(course, celsius, course.timeS[peak]).find();
    }

    /**
     * A time the model gives, as far as the readings' own noise leaves it: it counts from how hot the kiln is now, which noisy
     * readings do not tell well. Just before a kiln gets there its curve may tell more by itself.
     *
     * @param peak the course's highest point
     */
    static When ahead(Course course, int peak, double celsius, When byModel) {
        double now = course.lastS();
        double slope = course.line(now - SLOPE_OVER_S, now).slopeKS();
        int points = course.last() - course.at(now - SHORTEST_S - 1);
        double noise = course.noiseK(now - LONGEST_S, now) * Math.min(1, 2 / Math.sqrt(points));
        if (!(slope < 0) || noise == 0) {
            return byModel;
        }
        double open = Spread.NINE_IN_TEN * noise / -slope;
        When wide = new When(
                byModel.atS(),
                Math.max(now, byModel.atS() - Math.hypot(byModel.atS() - byModel.fromS(), open)),
                byModel.atS() + Math.hypot(byModel.toS() - byModel.atS(), open));
        if (wide.fromS() > now + SOON_S) {
            return wide;
        }
        return new Crossing(course, celsius, course.timeS[peak])
                .around(now)
                .filter(when -> when.atS() > now && when.atS() < now + SOON_S && width(when) < 2 * open)
                .map(when -> new When(when.atS(), Math.max(now, when.fromS()), when.toS()))
                .filter(when -> width(when) < width(wide))
                .orElse(wide);
    }

    private Optional<When> find() {
        double now = course.lastS();
        int after = course.size;
        while (after > 0 && course.timeS[after - 1] > notBeforeS && smoothC(after - 1) < celsius) {
            after--;
        }
        if (after == course.size) {
            double noise = Math.hypot(course.noiseK(now - LONGEST_S, now), STEP_K);
            if (smoothC(course.last()) > celsius + SURELY_ABOVE * noise) {
                return Optional.empty();
            }
            return around(now).filter(when -> when.atS() <= now);
        }
        if (after > 0 && course.overlapsGap(course.timeS[after - 1], course.timeS[after])) {
            return Optional.of(inGap(after));
        }
        double first = after == 0 ? course.timeS[0] : (course.timeS[after - 1] + course.timeS[after]) / 2;
        Optional<When> found = around(first);
        return found.isEmpty() ? Optional.of(between(after)) : found.filter(when -> when.atS() <= now);
    }

    private double smoothC(int i) {
        double at = course.timeS[i];
        Course.Line line = course.line(Math.max(notBeforeS, course.afterGaps(at - lookS, at)), at + lookS);
        return line.points() < 3 ? course.temperatureC[i] : line.at(at);
    }

    /** Nobody saw it: anywhere between the readings on either side. */
    private When inGap(int after) {
        double from = course.timeS[after - 1];
        double to = course.timeS[after];
        double above = course.temperatureC[after - 1];
        double below = course.temperatureC[after];
        double part = above > below ? Math.max(0, Math.min(1, (above - celsius) / (above - below))) : 0.5;
        return new When(from + part * (to - from), from, to);
    }

    /** Too few readings for more than a straight line between two. */
    private When between(int after) {
        int before = Math.max(0, after - 1);
        return inGap(Math.max(1, before + 1));
    }

    /** By parabolas through ever more of the curve, as long as it is one and there is something to gain. */
    private Optional<When> around(double firstS) {
        Optional<When> best = Optional.empty();
        double centre = firstS;
        for (double reach = SHORTEST_S; reach <= LONGEST_S; reach *= 2) {
            Optional<When> found = by(centre, reach, best.isPresent());
            if (found.isPresent() && Math.abs(found.get().atS() - centre) > reach / 4) {
                found = by(found.get().atS(), reach, best.isPresent());
            }
            if (found.isEmpty()) {
                continue;
            }
            best = found;
            centre = found.get().atS();
            if (width(found.get()) < 2 * SURE_S) {
                break;
            }
        }
        return best;
    }

    private static double width(When when) {
        return when.toS() - when.fromS();
    }

    private Optional<When> by(double centreS, double reachS, boolean mustFit) {
        double fromS = Math.max(Math.max(notBeforeS, course.timeS[0]), course.afterGaps(centreS - reachS, centreS));
        int begin = course.at(fromS - 1e-3) + 1;
        int end = course.at(Math.min(course.lastS(), centreS + reachS));
        while (end > begin && course.overlapsGap(Math.max(centreS, course.timeS[begin]), course.timeS[end])) {
            end--;
        }
        int count = end - begin + 1;
        if (count < FEWEST) {
            return Optional.empty();
        }
        double[][] powers = new double[count][];
        double[] celsius = new double[count];
        for (int i = 0; i < count; i++) {
            powers[i] = powers((course.timeS[begin + i] - centreS) / reachS);
            celsius[i] = course.temperatureC[begin + i];
        }
        RealMatrix design = new Array2DRowRealMatrix(powers, false);
        RealMatrix normal = design.transposeMultiply(design);
        LUDecomposition solver = new LUDecomposition(normal);
        if (!solver.getSolver().isNonSingular()) {
            return Optional.empty();
        }
        RealMatrix inverse = solver.getSolver().getInverse();
        RealVector curve = inverse.operate(design.preMultiply(MatrixUtils.createRealVector(celsius)));
        double[] left = MatrixUtils.createRealVector(celsius)
                .subtract(design.operate(curve))
                .toArray();
        double noise = Math.hypot(course.noiseK(course.timeS[begin], course.timeS[end]), STEP_K);
        double misses = deviation(left);
        if (mustFit && misses > MISSES * noise) {
            return Optional.empty();
        }
        double root = root(curve.toArray());
        if (Double.isNaN(root)) {
            return Optional.empty();
        }
        RealVector there = MatrixUtils.createRealVector(powers(root));
        double error = misses * Math.sqrt(together(left) * there.dotProduct(inverse.operate(there)));
        double slope = -(curve.getEntry(1) + 2 * curve.getEntry(2) * root) / reachS;
        RealVector rate = MatrixUtils.createRealVector(new double[] {0, 1, 2 * root});
        double rateError = misses * Math.sqrt(together(left) * rate.dotProduct(inverse.operate(rate))) / reachS;
        double half = WIDER * Spread.NINE_IN_TEN * (1 + 1.2 / (count - 3)) * error / slope;
        // A few noisy readings fall steeply by chance, and would cross it as if surely.
        if (half > reachS / 2 || slope < SURELY_FALLS * rateError) {
            return Optional.empty();
        }
        double at = centreS + root * reachS;
        return Optional.of(new When(at, Math.max(notBeforeS, at - half), at + half));
    }

    private static double[] powers(double away) {
        return new double[] {1, away, away * away};
    }

    private static double deviation(double[] left) {
        double sum = 0;
        for (double each : left) {
            sum += each * each;
        }
        return Math.sqrt(sum / (left.length - 3));
    }

    /** Readings in whole degrees err alike for minutes on end: so many of them count as one. */
    private static double together(double[] left) {
        double squares = 0;
        double products = 0;
        for (int i = 0; i + 1 < left.length; i++) {
            squares += left[i] * left[i];
            products += left[i] * left[i + 1];
        }
        double alike = squares > 0 ? Math.max(0, Math.min(0.9, products / squares)) : 0;
        return (1 + alike) / (1 - alike);
    }

    /** Where a falling curve crosses, in units of its reach; NaN where it does not, or outside of what it was seen over. */
    private double root(double[] curve) {
        double away = 0;
        for (int turn = 0; turn < 20; turn++) {
            double slope = curve[1] + 2 * curve[2] * away;
            if (!(slope < 0)) {
                return Double.NaN;
            }
            away -= (curve[0] + away * (curve[1] + away * curve[2]) - celsius) / slope;
            if (Math.abs(away) > 2) {
                return Double.NaN;
            }
        }
        return Math.abs(away) <= 1 && curve[1] + 2 * curve[2] * away < 0 ? away : Double.NaN;
    }
}
