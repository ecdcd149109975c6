package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.LUDecomposition;

/**
 * Moments from which a cooling is faster for good than its own course up to then: a bung pulled, a vent switched on. The
 * logarithm of a free kiln's height above its room is a smooth function of time, over two hours a cubic within the noise;
 * what is opened adds a corner. A bung quickens a cooling by 5 to 30 %, too little to be seen in two lines laid side by
 * side, since the cooling slows down by as much in the same time.
 */
final class Kinks {
    private static final double BEFORE_S = 5400;
    private static final double AFTER_S = 3000;

    /** What came after is looked at for so many times as long once the log goes on. */
    private static final double LATER = 2;

    private static final double LEAST_BEFORE_S = 1800;
    private static final double LEAST_AFTER_S = 1200;

    /** The sensor, ware and hot face settle for so long after the elements go off, or after something is opened, s. */
    private static final double SETTLING_S = 1500;

    /** So much longer after a climb broken off: of thirty kilns of an outside simulator six were taken for opened without it, one with it. */
    private static final double EVENING_OUT_S = 7200;

    private static final double COARSE_S = 300;
    private static final int FEWEST_BEFORE = 10;
    private static final int FEWEST_AFTER = 4;

    /**
     * A corner must be this many of its standard errors, and change the rate by this part. Of 1,280 coolings of
     * thirteen kinds in which nothing was opened one has one; of 60 with a bung pulled at 300 °C 56 do (own trials).
     */
    private static final double SURE = 5;

    private static final double WORTH_A_LOOK = 3;
    private static final double LEAST_CHANGE = 0.1;
    private static final double SLIGHT = 0.35;

    /**
     * Where the quartz of ware and shelves turns over (573 °C, published) it gives back heat and slows the cooling for some
     * minutes; its end is a corner by itself (ten of 180 coolings of kilns with such ware, 546 to 559 °C, a tenth and an
     * eighth). A bung that does no more is not seen there.
     */
    private static final double QUARTZ_DONE_BY_C = 575;

    private static final double QUARTZ_LAGS_TO_C = 535;
    private static final double LEAST_CHANGE_AFTER_QUARTZ = 0.25;

    /** Nearer to the room than this a change is the room's as likely as the kiln's, K. */
    private static final double ABOVE_ROOM_K = 60;

    private static final double ROOM_C = 15;

    /** No reading is better than this, K. */
    private static final double LEAST_NOISE_K = 0.1;

    private static final double MOST_CORRELATED = 0.8;

    private static final int TERMS = 5;
    private static final int RATE = 1;
    private static final int CORNER = 4;

    private final Course course;
    private double notBeforeS;

    private Kinks(Course course, double notBeforeS) {
        this.course = course;
        this.notBeforeS = notBeforeS;
    }

    /**
     * All of them in a free span that reaches to now.
     *
     * @param from the span's first point
     * @return in time; a rate of less than 1 = what was open has been shut
     */
    static List<Phases.Bend> find(Course course, int from) {
        return new Kinks(course, settledS(course, from)).all();
    }

    /**
     * Whether a slight bend is still there by the light of what came after it: noise and rounding make one corner of a thousand,
     * and a log that is over tells more. More than slight ones are taken as they are.
     *
     * @param from the free span's first point
     */
    static boolean lasts(Course course, int from, Phases.Bend bend) {
        double at = course.timeS[bend.at()];
        if (Math.abs(bend.rateTimes() - 1) > SLIGHT || at + LATER * AFTER_S > course.lastS()) {
            return true;
        }
        Corner later = new Kinks(course, settledS(course, from)).at(at, LATER * AFTER_S);
        return later == Corner.NONE || Math.abs(later.sure()) > SURE;
    }

    /** A kiln let go in mid-climb slows down so much at first, as its wall and ware even out, that no cubic follows it. */
    private static double settledS(Course course, int from) {
        return course.timeS[from] + SETTLING_S + EVENING_OUT_S * HalfSoaked.climbed(course, from);
    }

    private List<Phases.Bend> all() {
        List<Phases.Bend> found = new ArrayList<>();
        boolean opened = false;
        double at = notBeforeS + LEAST_BEFORE_S;
        while (at + LEAST_AFTER_S <= course.lastS()) {
            Corner corner = at(at);
            int sign = opened ? -1 : 1;
            if (corner.sure() * sign > WORTH_A_LOOK) {
                int best = best(at, sign);
                Corner there = at(course.timeS[best]);
                if (there.sure() * sign > SURE && there.change() * sign > leastChange(best)) {
                    found.add(new Phases.Bend(best, 1 + there.change()));
                    opened = !opened;
                    notBeforeS = course.timeS[best] + SETTLING_S;
                    at = notBeforeS + LEAST_BEFORE_S;
                    continue;
                }
            }
            at += COARSE_S;
        }
        return found;
    }

    private double leastChange(int at) {
        double celsius = course.temperatureC[at];
        return celsius > QUARTZ_LAGS_TO_C && celsius < QUARTZ_DONE_BY_C ? LEAST_CHANGE_AFTER_QUARTZ : LEAST_CHANGE;
    }

    /** The point near a time at which the corner is surest. */
    private int best(double near, int sign) {
        int best = course.at(near);
        double most = 0;
        for (int i = Math.max(0, best - 1); i < course.size && course.timeS[i] < near + 2 * COARSE_S; i++) {
            double sure = at(course.timeS[i]).sure() * sign;
            if (sure > most) {
                most = sure;
                best = i;
            }
        }
        return best;
    }

    /** A cubic with a corner at a time through the logarithm of the height above the room, by least squares. */
    private Corner at(double time) {
        return at(time, AFTER_S);
    }

    private Corner at(double time, double afterS) {
        double begin = course.afterGaps(Math.max(notBeforeS, time - BEFORE_S), time);
        int first = course.at(begin);
        first = first < 0 || course.timeS[first] < begin ? first + 1 : first;
        int last = course.at(time + afterS);
        int middle = course.at(time);
        if (time - begin < LEAST_BEFORE_S
                || course.timeS[last] - time < LEAST_AFTER_S
                || middle - first < FEWEST_BEFORE
                || last - middle < FEWEST_AFTER
                || course.overlapsGap(time, course.timeS[last])
                || course.temperatureC[last] < ROOM_C + ABOVE_ROOM_K) {
            return Corner.NONE;
        }
        double[][] squares = new double[TERMS][TERMS];
        double[] products = new double[TERMS];
        double[] term = new double[TERMS];
        double sum = 0;
        for (int i = first; i <= last; i++) {
            double y = terms(term, time, i);
            sum += y * y;
            for (int a = 0; a < TERMS; a++) {
                products[a] += term[a] * y;
                for (int b = 0; b < TERMS; b++) {
                    squares[a][b] += term[a] * term[b];
                }
            }
        }
        DecompositionSolver solver = new LUDecomposition(new Array2DRowRealMatrix(squares, false)).getSolver();
        if (!solver.isNonSingular()) {
            return Corner.NONE;
        }
        double[][] inverse = solver.getInverse().getData();
        double[] fitted = new double[TERMS];
        double left = sum;
        for (int a = 0; a < TERMS; a++) {
            for (int b = 0; b < TERMS; b++) {
                fitted[a] += inverse[a][b] * products[b];
            }
            left -= fitted[a] * products[a];
        }
        double noise = LEAST_NOISE_K / (course.temperatureC[middle] - ROOM_C);
        double variance = Math.max(left / (last - first + 1 - TERMS), noise * noise);
        double sure = -fitted[CORNER] / Math.sqrt(variance * inverse[CORNER][CORNER]);
        if (Math.abs(sure) > WORTH_A_LOOK) {
            sure /= Math.sqrt(repeats(fitted, time, first, last));
        }
        return new Corner(fitted[CORNER] / fitted[RATE], sure);
    }

    /** Of so many residuals in a row one is independent of the others: draughts and rounding go on for a while. */
    private double repeats(double[] fitted, double time, int first, int last) {
        double[] term = new double[TERMS];
        double squares = 0;
        double products = 0;
        double before = 0;
        for (int i = first; i <= last; i++) {
            double residual = terms(term, time, i);
            for (int a = 0; a < TERMS; a++) {
                residual -= fitted[a] * term[a];
            }
            squares += residual * residual;
            products += residual * before;
            before = residual;
        }
        double correlation = Math.max(0, Math.min(MOST_CORRELATED, products / Math.max(1e-12, squares)));
        return (1 + correlation) / (1 - correlation);
    }

    /** Fills in the terms of one point and gives its logarithm, from that at the corner. */
    private double terms(double[] term, double time, int i) {
        double hours = (course.timeS[i] - time) / 3600;
        term[0] = 1;
        term[RATE] = hours;
        term[2] = hours * hours;
        term[3] = hours * hours * hours;
        term[CORNER] = Math.max(0, hours);
        double height = Math.max(1, course.temperatureC[i] - ROOM_C);
        return Math.log(height / Math.max(1, course.temperatureC[course.at(time)] - ROOM_C));
    }

    /**
     * A corner.
     *
     * @param change of the rate, as a part of it; positive = faster
     * @param sure its size in standard errors, with the sign of the change
     */
    private record Corner(double change, double sure) {
        static final Corner NONE = new Corner(0, 0);
    }
}
