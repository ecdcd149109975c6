package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.When;

/**
 * How a kiln is taken to climb up to a temperature where no plan says how it is led there: by what its log shows.
 *
 * @param ahead corners from now up to there
 * @param taken what is taken for granted
 * @param soonerLn how much sooner another plan might have it there, ln
 * @param laterLn how much later
 */
record PaceAhead(PlanAhead ahead, Remark.Kind taken, double soonerLn, double laterLn) {
    /** At full output for so long nothing but its strength leads it. */
    private static final double FULL_OUTPUT = 0.97;

    private static final double FULL_FOR_S = 1200;

    /** A kiln at full output this near to a set-point that climbs keeps up with it, K. */
    private static final double KEEPS_UP_K = 8;

    /** A set-point so far above the kiln leads nothing, K. */
    private static final double LEADS_WITHIN_K = 60;

    /** A rate over so long is steady, s; readings are a minute apart at least. */
    private static final double STEADY_S = 600;

    private static final double LOOK_S = 2400;

    /** Set-points of one ramp lie on a line within this, K. */
    private static final double ON_LINE_K = 1;

    /** What climbs more slowly holds, K/h. */
    private static final double LEAST_K_PER_H = 15;

    /** Where nothing shows how fast it is to climb, K/h. */
    private static final double USUAL_K_PER_H = 100;

    /** Faster than any kiln, K/h: all it has is asked of it. */
    private static final double ALL_IT_HAS_K_PER_H = 2000;

    /** From such a top on the last of a climb is slow, as cones want it (common practice), °C, K and K/h. */
    private static final double STONEWARE_C = 1150;

    private static final double SLOW_LAST_K = 100;
    private static final double SLOW_K_PER_H = 80;
    private static final double SLOWEST_LAST_K = 125;
    private static final double SLOWEST_K_PER_H = 60;

    /** A climb seen so far into its slow last part is as fast as it will be, K. */
    private static final double SEEN_K = 20;

    /** How much faster or slower the ramps to come may be. */
    private static final double OTHER_RAMP = 1.2;

    /** Lower down a ramp is often slower than those after it, °C and K/h. */
    private static final double SLOW_BEGIN_C = 700;

    private static final double FAST_K_PER_H = 180;

    /** @param aimC what it is to get to */
    static PaceAhead of(FiringData data, double aimC) {
        Course course = data.course;
        double setpointC = course.setpointC[course.last()];
        double leadK = setpointC - data.nowC;
        double pace = course.line(data.nowS - LOOK_S, data.nowS).slopeKS() * 3600;
        boolean full =
                data.guessedFullForS.isPresent() || course.meanOutput(data.nowS - FULL_FOR_S, data.nowS) >= FULL_OUTPUT;
        if (full && !(leadK < KEEPS_UP_K)) {
            // A set-point that stands at its end already has no slower ramp to come.
            double later = setpointC >= aimC - ON_LINE_K ? 0 : new Climb(data.nowC, aimC, rate(pace)).laterLn();
            PlanAhead allItHas = new PlanAhead(List.of(
                    new PlanAhead.Corner(data.nowS + Math.max(0, aimC - data.nowC) / ALL_IT_HAS_K_PER_H * 3600, aimC)));
            return new PaceAhead(allItHas, Remark.Kind.FULL_OUTPUT_GOES_ON, 0, later);
        }
        Optional<Double> ramp = leadK < LEADS_WITHIN_K ? lastRamp(course) : Optional.empty();
        Climb climb = new Climb(data.nowC, aimC, ramp.orElse(rate(pace)));
        return new PaceAhead(
                climb.ahead(data.nowS),
                ramp.isPresent() ? Remark.Kind.SETPOINT_GOES_ON : Remark.Kind.PACE_GOES_ON,
                climb.soonerLn(),
                climb.laterLn());
    }

    private static double rate(double pace) {
        return pace > LEAST_K_PER_H ? pace : USUAL_K_PER_H;
    }

    /** A climb from one temperature to another at a rate, K/h, the last of it slower where the other is a stoneware's. */
    private record Climb(double fromC, double aimC, double rate) {
        private boolean slowsDown() {
            return aimC >= STONEWARE_C && fromC <= aimC - SLOW_LAST_K + SEEN_K;
        }

        private static double hours(double kelvin, double rate, double slowLastK, double slowRate) {
            double slowK = Math.min(kelvin, slowLastK);
            return Math.max(0, kelvin - slowK) / rate + slowK / Math.min(rate, slowRate);
        }

        private double restK() {
            return Math.max(1, aimC - fromC);
        }

        private double hours() {
            return hours(restK(), rate, slowsDown() ? SLOW_LAST_K : 0, SLOW_K_PER_H);
        }

        private PlanAhead ahead(double nowS) {
            PlanAhead.Corner end = new PlanAhead.Corner(nowS + 3600 * hours(), aimC);
            double slowFromC = aimC - SLOW_LAST_K;
            return slowsDown() && fromC < slowFromC
                    ? new PlanAhead(
                            List.of(new PlanAhead.Corner(nowS + 3600 * (slowFromC - fromC) / rate, slowFromC), end))
                    : new PlanAhead(List.of(end));
        }

        private double soonerLn() {
            double fast = Math.max(OTHER_RAMP * rate, fromC < SLOW_BEGIN_C ? FAST_K_PER_H : 0);
            return Math.log(hours() / hours(restK(), fast, 0, fast));
        }

        private double laterLn() {
            double slowLastK = slowsDown() ? SLOWEST_LAST_K : 0;
            return Math.log(hours(restK(), rate / OTHER_RAMP, slowLastK, SLOWEST_K_PER_H) / hours());
        }
    }

    /** How fast the set-point climbed the last time it did so steadily, K/h; empty where it never did. */
    private static Optional<Double> lastRamp(Course course) {
        int to = course.last();
        while (to > 0) {
            int from = to;
            double rate = 0;
            while (from > 0 && onLine(course, from - 1, to)) {
                from--;
            }
            double seconds = course.timeS[to] - course.timeS[from];
            if (seconds > 0) {
                rate = (course.setpointC[to] - course.setpointC[from]) / seconds * 3600;
            }
            if (seconds >= STEADY_S && rate > LEAST_K_PER_H && rate < ALL_IT_HAS_K_PER_H / 2) {
                return Optional.of(rate);
            }
            to = Math.min(from, to - 1);
        }
        return Optional.empty();
    }

    /** Whether the set-points between two readings lie on one line. */
    private static boolean onLine(Course course, int from, int to) {
        double seconds = course.timeS[to] - course.timeS[from];
        double rate = (course.setpointC[to] - course.setpointC[from]) / seconds;
        for (int i = from; i <= to; i++) {
            double off = course.setpointC[i] - course.setpointC[from] - rate * (course.timeS[i] - course.timeS[from]);
            if (!(Math.abs(off) <= ON_LINE_K)) {
                return false;
            }
        }
        return true;
    }

    /**
     * An arrival with what another plan might make of it in its interval.
     *
     * @param power nothing being known of it, its later end holds any plan
     */
    Arrival widened(Arrival arrival, double nowS, ArrivalScale.Power power) {
        double another = power == ArrivalScale.Power.PACE_ALONE ? 0 : laterLn;
        return new Arrival(
                arrival.target(),
                arrival.reaches(),
                arrival.when().map(when -> when.atS() > nowS ? widened(when, nowS, another) : when),
                arrival.topsOut());
    }

    private When widened(When when, double nowS, double another) {
        double middle = Math.log(Math.max(1, when.atS() - nowS));
        double sooner = Math.hypot(middle - Math.log(Math.max(1, when.fromS() - nowS)), soonerLn);
        double later = Math.hypot(Math.log(Math.max(1, when.toS() - nowS)) - middle, another);
        return new When(when.atS(), nowS + Math.exp(middle - sooner), nowS + Math.exp(middle + later));
    }
}
