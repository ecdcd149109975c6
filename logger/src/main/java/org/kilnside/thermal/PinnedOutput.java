package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * An output that stands at full while the kiln holds, or climbs as evenly as only a part of the power lets it: the hotter a
 * kiln, the more of its heat leaks away, so at full output its climb grows slower from half-hour to half-hour. Lines
 * written as seldom as a relay's window comes round may meet it on each time, and a column may stand still.
 */
final class PinnedOutput {
    private static final double FULL = 0.995;
    private static final double PART_S = 1800;
    private static final double STEP_S = 600;
    private static final int FEWEST_POINTS = 8;

    /** A clock put back, a lid or a sensor that was moved: further off its own straight line no kiln bends, K. */
    private static final double JUMPS_K = 6;

    /** Colder, water and elements that are still warming up themselves bend a climb at full output, °C. */
    private static final double FROM_C = 300;

    /** In between clay gives off its bound water; what was slow here may be faster above. */
    private static final double BOUND_WATER_FROM_C = 420;

    private static final double BOUND_WATER_TO_C = 720;

    /** By so little at the least a climb at full output grows slower, 1/h: half of what the tightest of simulated kilns leaks. */
    private static final double LEAKS_PER_H = 0.12;

    private static final double APART_K = 50;

    /** So much off either way leaves a supply that gives more at night, and ware that takes less. */
    private static final double ALIKE = 0.15;

    private static final double ALIKE_K_PER_H = 20;

    /** What follows its set-point this closely is steered. */
    private static final double FOLLOWS_K = 3;

    /** Where it does, bound water or not, a hold is no climb at full output: K/h, and what comes after it. */
    private static final double HOLDS_K_PER_H = 10;

    private static final double CLIMBS_K_PER_H = 60;

    private PinnedOutput() {}

    /** Since when it has been gainsaid; empty where it never is. */
    static OptionalDouble sinceS(Course course) {
        List<Part> parts = new ArrayList<>();
        int from = 0;
        double highestC = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < course.size; i++) {
            boolean newGround = course.temperatureC[i] >= highestC;
            highestC = Math.max(highestC, course.temperatureC[i]);
            if (!(course.output[i] >= FULL)) {
                from = i + 1;
                parts.clear();
                continue;
            }
            double beginS = course.timeS[i] - PART_S;
            boolean due = parts.isEmpty()
                    || course.timeS[i] - parts.get(parts.size() - 1).endS() >= STEP_S;
            if (!due || course.timeS[from] > beginS || course.overlapsGap(beginS, course.timeS[i])) {
                continue;
            }
            Part part = Part.of(course, beginS, course.timeS[i]);
            if (newGround && parts.stream().anyMatch(part::gainsays)) {
                return OptionalDouble.of(course.timeS[from]);
            }
            if (part.even() && part.celsius() > FROM_C) {
                parts.add(part);
            }
        }
        return OptionalDouble.empty();
    }

    /** Half an hour at full output: when it ended, whether the curve is whole, its middle's temperature, its rate and what is unsure of that, K/h. */
    private record Part(double endS, boolean even, double celsius, double perHour, double unsure, boolean follows) {
        static Part of(Course course, double fromS, double toS) {
            Course.Line line = course.line(fromS, toS);
            boolean follows = true;
            boolean even = line.points() >= FEWEST_POINTS;
            for (int i = course.at(fromS) + 1; i <= course.at(toS); i++) {
                follows &= Math.abs(course.setpointC[i] - course.temperatureC[i]) <= FOLLOWS_K;
                even &= Math.abs(line.at(course.timeS[i]) - course.temperatureC[i]) <= JUMPS_K;
            }
            return new Part(toS, even, line.meanC(), line.slopeKS() * 3600, line.slopeErrorKS() * 3600, follows);
        }

        /** Whether a kiln that was so slow then, and colder, could not be as fast now on the same power. */
        boolean gainsays(Part earlier) {
            double hotterK = celsius - earlier.celsius;
            if (!even || hotterK < APART_K) {
                return false;
            }
            double sure = perHour - 2 * (unsure + earlier.unsure);
            boolean steered = follows && earlier.follows;
            boolean givesOffWater = earlier.celsius > BOUND_WATER_FROM_C && earlier.celsius < BOUND_WATER_TO_C;
            if (givesOffWater) {
                return steered && Math.abs(earlier.perHour) < HOLDS_K_PER_H && sure > CLIMBS_K_PER_H;
            }
            double most = earlier.perHour - LEAKS_PER_H * hotterK;
            return sure > most + (steered ? ALIKE_K_PER_H : ALIKE_K_PER_H + ALIKE * Math.abs(earlier.perHour))
                    && sure > ALIKE_K_PER_H;
        }
    }
}
