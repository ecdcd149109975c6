package org.kilnside.thermal;

import java.util.OptionalDouble;

/**
 * A course freed from readings that jumped away and came back. Where they stayed away nobody can tell which side of the
 * jump is the kiln: only a jump early in a long log, as when the sensor was put in late, leaves a course to go by.
 *
 * @param course what is left to go by
 * @param firstS when the readings first jumped; empty where they never did
 * @param stays whether the newest readings lie beyond a jump that cannot be explained away
 */
record Jumps(Course course, OptionalDouble firstS, boolean stays) {
    /** A jump is more than this beyond the fastest a kiln or a sensor in an opened kiln goes, K and K/s. */
    private static final double JUMP_K = 60;

    private static final double FASTEST_KS = 1.5;

    /** While the readings were away the kiln itself may have gone on like this, K/s (500 K/h). */
    private static final double KILN_KS = 500 / 3600.0;

    /** So long a course after a jump, longer than what came before it, stands alone, s. */
    private static final double STANDS_ALONE_S = 3 * 3600;

    static Jumps of(Course whole) {
        Course course = whole;
        OptionalDouble first = OptionalDouble.empty();
        int at = next(course, 1);
        while (at > 0) {
            double jumpedS = course.timeS[at];
            first = first.isPresent() ? first : OptionalDouble.of(jumpedS);
            int back = back(course, at);
            if (back > 0) {
                course = course.without(jumpedS, course.timeS[back - 1]);
                at = next(course, at);
            } else if (course.lastS() - jumpedS > Math.max(STANDS_ALONE_S, jumpedS - course.timeS[0])) {
                course = course.without(course.timeS[0], course.timeS[at - 1]);
                at = next(course, 1);
            } else {
                return new Jumps(course, first, true);
            }
        }
        return new Jumps(course, first, false);
    }

    private static int next(Course course, int from) {
        for (int i = from; i < course.size; i++) {
            double seconds = Math.max(30, course.timeS[i] - course.timeS[i - 1]);
            if (Math.abs(course.temperatureC[i] - course.temperatureC[i - 1]) > JUMP_K + FASTEST_KS * seconds) {
                return i;
            }
        }
        return 0;
    }

    /** The first point after another jump that is where the kiln may have got to meanwhile; 0 where there is none. */
    private static int back(Course course, int jumped) {
        int again = next(course, jumped + 1);
        while (again > 0) {
            double seconds = course.timeS[again] - course.timeS[jumped - 1];
            double away = Math.abs(course.temperatureC[again] - course.temperatureC[jumped - 1]);
            if (away < JUMP_K + KILN_KS * seconds) {
                return again;
            }
            again = next(course, again + 1);
        }
        return 0;
    }
}
