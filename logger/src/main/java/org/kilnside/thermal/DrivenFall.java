package org.kilnside.thermal;

import java.util.Arrays;

/**
 * What the shape of a curve after its top says of elements that nobody tells of: a straight ramp or a flat line is led, a
 * climb is heated. Left to itself a kiln cools ever more slowly.
 */
final class DrivenFall {
    /** Below this a free curve is too straight to be told from a driven one, °C. */
    private static final double SHAPE_TELLS_ABOVE_C = 330;

    private static final double LED_PART = 0.93;

    /** A rate that keeps up with the height above the room, or hardly more, may be a free kiln's. */
    private static final double LED_OVER = 0.015;

    /** A ramp slows down by less than this part of what its height above the room falls by; a free kiln by all of it. */
    private static final double RAMP_SLOWS = 0.25;

    /** The two must lie so many standard errors of the rates apart: of noisy rows minutes apart one in some is as straight as a ramp. */
    private static final double SURE = 2;

    private static final double LED_WITHIN_S = 3 * 3600;
    private static final double LED_ABOVE_C = 700;
    /** A hot kiln that does not fall for so long is held. */
    private static final double HELD_S = 600;

    private static final double BRAKED_TO = 0.5;
    private static final double BRAKED_FROM_KS = -60 / 3600.0;

    /** A kiln left alone falls so many times as fast as it is led down afterwards, or it is led down already. */
    private static final double FREE_FALLS_TIMES = 1.3;

    private static final double WELL_BELOW_TOP_K = 60;

    private static final double LONGEST_STRETCH_S = 3 * 3600;
    private static final double ROOM_C = 15;

    /** Twenty kelvin an hour upwards is a climb. */
    private static final double CLIMBS_KS = 20 / 3600.0;

    /** Fewer points than this in half a stretch do not tell a ramp's rate from a free one's: rows minutes apart. */
    private static final int FEWEST_POINTS = 8;

    /** Led down for so long after its top, the wall of a kiln is soaked as that of one left alone never is, s. */
    static final double LED_FOR_S = 3600;

    private DrivenFall() {}

    /**
     * Points on straight stretches after the top. What was opened on the way is kept apart: for a while a fall that a bung
     * has quickened does not slow down, as a ramp's does not. A corner at the end of a straight stretch is no bung but its
     * power going off.
     */
    static boolean[] straight(Course course, int from) {
        boolean[] straight = new boolean[course.size];
        int begin = from;
        for (Phases.Bend bend : Kinks.find(course, from)) {
            boolean[] before = straight(course, begin, bend.at());
            if (bend.opens() && !before[bend.at()]) {
                System.arraycopy(before, begin, straight, begin, bend.at() - begin);
                begin = bend.at();
            }
        }
        System.arraycopy(straight(course, begin, course.last()), begin, straight, begin, course.size - begin);
        return straight;
    }

    /**
     * Points on a stretch that falls as a ramp does, or does not fall at all, while the kiln is hot. Left to itself a
     * kiln's rate falls at least as its height above the room does; over a stretch in which that height falls by 15 %
     * a ramp's rate stays and a free one's falls by a tenth.
     */
    private static boolean[] straight(Course course, int from, int to) {
        boolean[] straight = new boolean[course.size];
        int held = from;
        for (int i = from + 1; i <= to; i++) {
            if (course.temperatureC[i] < SHAPE_TELLS_ABOVE_C) {
                break;
            }
            int begin = stretchTo(course, from, i);
            if (isLed(course, begin, i, from, false)) {
                Arrays.fill(straight, begin + 1, i + 1, true);
            }
            if (isHeld(course, from, i)) {
                held = i;
                for (int k = i; course.timeS[k] > course.timeS[i] - HELD_S; k--) {
                    straight[k] = true;
                }
            } else if (begin < held && isLed(course, held, i, held, true)) {
                // What was held first and is led down then has no straight line through both.
                Arrays.fill(straight, held + 1, i + 1, true);
            }
        }
        return straight;
    }

    private static boolean isLed(Course course, int begin, int at, int since, boolean afterHold) {
        double end = course.timeS[at];
        double length = end - course.timeS[begin];
        if (length < 2 * Phases.LOOK_S) {
            return false;
        }
        Course.Line first = course.line(end - length, end - length / 2);
        Course.Line second = course.line(end - length / 2, end);
        if (first.points() < FEWEST_POINTS || second.points() < FEWEST_POINTS) {
            return false;
        }
        double early = -first.slopeKS();
        double late = -second.slopeKS();
        double left = (second.meanC() - ROOM_C) / (first.meanC() - ROOM_C);
        boolean flat = Math.abs(early) < Phases.FLAT_KS && Math.abs(late) < Phases.FLAT_KS;
        double unsure = Math.hypot(first.slopeErrorKS(), second.slopeErrorKS());
        double apart = early * (1 - RAMP_SLOWS) * (1 - left);
        boolean ramp = late > 0
                && late < early * 1.05
                && late > early * (1 - RAMP_SLOWS * (1 - left))
                && left < 0.95
                && unsure * SURE < apart;
        // Just after the top a kiln left to itself slows down fast: what does not is led down.
        boolean led = late > 0
                && late < early * 1.05
                && (afterHold ? late > early * LED_PART : late - unsure > early * Math.max(LED_PART, left + LED_OVER))
                && end < course.timeS[since] + LED_WITHIN_S
                && course.temperatureC[at] > LED_ABOVE_C;
        return flat || ramp || led;
    }

    /**
     * Marks stretches after the top on which the kiln climbs steadily: nothing but power does that to a hot kiln. Further
     * down a lid that was shut again lets the sensor climb for a while, so there it must go on for longer.
     */
    static void markClimbs(Course course, int from, boolean[] straight, double noiseK) {
        double least = Math.max(6, 6 * noiseK);
        for (int i = from + 1; i < course.size; i++) {
            double length = course.temperatureC[i] > SHAPE_TELLS_ABOVE_C ? Phases.LOOK_S : 2 * Phases.LOOK_S;
            double end = course.timeS[i];
            if (end - length < course.timeS[from]) {
                continue;
            }
            Course.Line first = course.line(end - length, end - length / 2);
            Course.Line second = course.line(end - length / 2, end);
            boolean climbs = first.points() >= 4
                    && second.points() >= 4
                    && Math.min(first.slopeKS(), second.slopeKS()) > CLIMBS_KS
                    && second.meanC() - first.meanC() > least / 2;
            for (int k = i; climbs && course.timeS[k] > end - length; k--) {
                straight[k] = true;
            }
        }
    }

    /**
     * Whether a hot kiln did not fall in the minutes before a point, or not half as fast as the minutes before those: left to
     * itself it slows down by less, once the ware has lost what it was ahead of the wall.
     */
    private static boolean isHeld(Course course, int from, int at) {
        double end = course.timeS[at];
        if (course.temperatureC[at] < LED_ABOVE_C || end - HELD_S < course.timeS[from]) {
            return false;
        }
        Course.Line lately = course.line(end - HELD_S, end);
        if (lately.points() < FEWEST_POINTS || lately.slopeErrorKS() > 2 * Phases.FLAT_KS) {
            return false;
        }
        double sure = lately.slopeKS() - lately.slopeErrorKS();
        boolean flat = sure > -3 * Phases.FLAT_KS;
        Course.Line before = course.line(end - 2.5 * HELD_S, end - 1.5 * HELD_S);
        boolean braked = end - 3.5 * HELD_S > course.timeS[from]
                && before.points() >= FEWEST_POINTS
                && before.slopeKS() < BRAKED_FROM_KS
                && sure > BRAKED_TO * (before.slopeKS() + before.slopeErrorKS());
        return flat || braked;
    }

    /**
     * Marks what falls no faster than the straight stretch it comes down to: hotter and left alone it would have. The first
     * minutes of a ramp are too short to be told by their own shape.
     */
    static void joinBeginnings(Course course, int from, boolean[] straight) {
        int begin = from;
        for (int i = from + 1; i < course.size; i++) {
            if (straight[i] && !straight[i - 1]) {
                int end = i;
                while (end + 1 < course.size && straight[end + 1]) {
                    end++;
                }
                if (fallsNoFaster(course, course.timeS[begin], course.timeS[i], course.timeS[end])) {
                    Arrays.fill(straight, begin + 1, i, true);
                }
            }
            begin = straight[i] ? i : begin;
        }
    }

    /** Whether a kiln falls no faster up to a moment, at which elements lead it down, than it does after it. */
    static boolean fallsNoFaster(Course course, double fromS, double ledS, double toS) {
        double before = -course.line(fromS, ledS).slopeKS();
        double after = -course.line(ledS, toS).slopeKS();
        return before < FREE_FALLS_TIMES * after;
    }

    /** For how long elements were on once a kiln had come well below its top, s. */
    static double lastedS(Course course, Phases phases) {
        double belowC = course.temperatureC[phases.peak()] - WELL_BELOW_TOP_K;
        double lasted = 0;
        for (int i = phases.peak() + 1; i < course.size; i++) {
            int at = i;
            boolean free = phases.free().stream().anyMatch(span -> span.from() < at && at <= span.to());
            double step = course.timeS[i] - course.timeS[i - 1];
            lasted += !free && course.temperatureC[i] < belowC && step < HELD_S ? step : 0;
        }
        return lasted;
    }

    /** The latest point before which the kiln has lost 15 % of its height above the room; at most three hours back. */
    private static int stretchTo(Course course, int from, int at) {
        double enough = course.temperatureC[at] + 0.15 * (course.temperatureC[at] - ROOM_C);
        int begin = at;
        while (begin > from
                && course.timeS[at] - course.timeS[begin] < LONGEST_STRETCH_S
                && course.temperatureC[begin] < enough) {
            begin--;
        }
        return Math.max(from, begin);
    }
}
