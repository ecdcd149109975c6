package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * An output that goes against the curve: it falls where a hotter kiln climbs on as fast, which takes more, or it stands
 * at full while the kiln cools by the hour. Such a column says what is off instead of what is on, is another column, or is not
 * what the elements get. What ware and a wall that still soaks take makes a healthy one only rise the more: of 650 simulated
 * firings whose output was their elements' none came under 0.82 of what the curve asks at the least, of their columns turned
 * round 640 came under 0.7 by 1000 °C.
 */
final class ReversedOutput {
    private static final double PART_S = 1200;
    private static final double STEP_S = 600;
    private static final int FEWEST_POINTS = 8;

    /** A clock put back, a lid or a sensor that was moved: further off its own straight line no kiln bends, K. */
    private static final double JUMPS_K = 6;

    /** Colder, what a damp load dries by takes power that a dry one leaves over, °C. */
    private static final double FROM_C = 200;

    /** In between clay gives off its bound water: what took much there may take less above. */
    private static final double BOUND_WATER_FROM_C = 420;

    private static final double BOUND_WATER_TO_C = 720;

    private static final double APART_K = 100;
    private static final double CLIMBS_K_PER_H = 20;
    private static final double LEAST_OUTPUT = 0.1;

    /** What a kiln leaks, 1/h of its height above the room: the tightest and the leakiest of simulated ones. */
    private static final double[] LEAKS_PER_H = {0.12, 0.65};

    private static final double ROOM_C = 20;

    /** A bung shut in between, a supply that gives more at night. */
    private static final double SHARE = 0.7;

    /** For so long elements and hot face cannot carry a curve, and no sensor slips, s. */
    private static final double COOLS_FOR_S = 3600;

    private static final double COOLED_K = 60;

    /** A weak kiln that is led down from its top is given nine tenths and more at first. */
    private static final double FULL = 0.97;

    /** A cooling dies away: each third of it has about as much as the one before, or less. */
    private static final double LEAST_OF_BEFORE = 0.5;

    private static final double MOST_OF_BEFORE = 1.15;

    /** What a kiln without power loses from one minute to the next; a sensor that slips out loses more, K. */
    private static final double AT_ONCE_K = 25;

    private static final double AT_ONCE_SHARE = 0.03;

    private ReversedOutput() {}

    /** Since when a climb gainsays it; empty where none does. */
    static OptionalDouble onTheWayUpS(Course course) {
        List<Part> parts = new ArrayList<>();
        double highestC = Double.NEGATIVE_INFINITY;
        double nextS = course.timeS[0] + PART_S;
        for (int i = 0; i < course.size; i++) {
            boolean newGround = course.temperatureC[i] >= highestC;
            highestC = Math.max(highestC, course.temperatureC[i]);
            double beginS = course.timeS[i] - PART_S;
            if (course.timeS[i] < nextS || course.overlapsGap(beginS, course.timeS[i])) {
                continue;
            }
            nextS = course.timeS[i] + STEP_S;
            Part part = Part.of(course, beginS, course.timeS[i]);
            if (!part.even() || part.celsius() < FROM_C) {
                continue;
            }
            if (newGround && parts.stream().anyMatch(part::gainsays)) {
                return OptionalDouble.of(beginS);
            }
            if (part.celsius() < BOUND_WATER_FROM_C || part.celsius() > BOUND_WATER_TO_C) {
                parts.add(part);
            }
        }
        return OptionalDouble.empty();
    }

    /** The first hour of a plain cooling that is told full output all the while; empty where there is none. */
    static OptionalDouble onTheWayDownS(Course course) {
        int peak = 0;
        for (int i = 0; i < course.size; i++) {
            peak = course.temperatureC[i] >= course.temperatureC[peak] ? i : peak;
        }
        double nextS = course.timeS[peak] + COOLS_FOR_S;
        for (int i = peak + 1; i < course.size; i++) {
            double before = course.temperatureC[i - 1];
            if (before - course.temperatureC[i] > AT_ONCE_K + AT_ONCE_SHARE * before) {
                return OptionalDouble.empty();
            }
            if (course.timeS[i] >= nextS) {
                double fromS = course.timeS[i] - COOLS_FOR_S;
                if (coolsPowered(course, fromS, course.timeS[i])) {
                    return OptionalDouble.of(fromS);
                }
                nextS = course.timeS[i] + STEP_S;
            }
        }
        return OptionalDouble.empty();
    }

    private static boolean coolsPowered(Course course, double fromS, double toS) {
        double third = (toS - fromS) / 3;
        double[] celsius = new double[4];
        for (int i = 0; i <= 3; i++) {
            celsius[i] = course.smoothAt(fromS + i * third, fromS, toS);
        }
        boolean plain = celsius[0] - celsius[3] > COOLED_K;
        for (int i = 0; i < 3; i++) {
            double fell = celsius[i] - celsius[i + 1];
            double before = i == 0 ? fell : celsius[i - 1] - celsius[i];
            boolean full = course.meanOutput(fromS + i * third, fromS + (i + 1) * third) > FULL;
            plain &= full && fell >= LEAST_OF_BEFORE * before && fell <= MOST_OF_BEFORE * before;
        }
        return plain && !course.overlapsGap(fromS, toS);
    }

    /** A while of a climb: whether it is whole, its middle's temperature, its rate and its output, and what is unsure of either. */
    private record Part(
            boolean even, double celsius, double perHour, double perHourUnsure, double output, double outputUnsure) {
        static Part of(Course course, double fromS, double toS) {
            Course.Line line = course.line(fromS, toS);
            boolean even = line.points() >= FEWEST_POINTS;
            double squares = 0;
            int steps = 0;
            for (int i = course.at(fromS) + 1; i <= course.at(toS); i++) {
                even &= Math.abs(line.at(course.timeS[i]) - course.temperatureC[i]) <= JUMPS_K
                        && !Double.isNaN(course.output[i]);
                if (course.timeS[Math.max(0, i - 1)] >= fromS) {
                    double step = course.output[i] - course.output[Math.max(0, i - 1)];
                    squares += step * step;
                    steps++;
                }
            }
            // From one point to the next a steered output hardly moves, one met on or off by chance does.
            double unsure = Math.sqrt(squares / 2 / Math.max(1, steps) / Math.max(1, steps + 1));
            return new Part(
                    even,
                    line.meanC(),
                    line.slopeKS() * 3600,
                    line.slopeErrorKS() * 3600,
                    course.meanOutput(fromS, toS),
                    unsure);
        }

        /** Whether less output than then cannot have it climb as it does now. */
        boolean gainsays(Part earlier) {
            double hotterK = celsius - earlier.celsius;
            double now = perHour - 2 * perHourUnsure;
            double then = Math.max(0, earlier.perHour + 2 * earlier.perHourUnsure);
            double thenOutput = earlier.output - 2 * earlier.outputUnsure;
            if (hotterK < APART_K || now < CLIMBS_K_PER_H || thenOutput < LEAST_OUTPUT) {
                return false;
            }
            double least = Double.POSITIVE_INFINITY;
            for (double leak : LEAKS_PER_H) {
                double lost = leak * (earlier.celsius - ROOM_C);
                least = Math.min(least, (now + lost + LEAKS_PER_H[0] * hotterK) / (then + lost));
            }
            return output + 2 * outputUnsure < SHARE * least * thenOutput;
        }
    }
}
