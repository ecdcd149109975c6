package org.kilnside.thermal;

import org.kilnside.thermal.Forecast.Reaches;

/**
 * A top that the log does not show: it begins when the kiln is already on its way down, or is silent where it turned. How
 * hot the kiln got is not in it then.
 */
final class UnseenTop {
    /** A kiln that rose by less than this to its highest reading was not seen to climb there, K. */
    private static final double ROSE_K = 2;

    /** How fast it climbed is looked for over so long before a gap, s. */
    private static final double CLIMB_LOOK_S = 900;

    /** A gap that begins so soon after the highest reading may hide a higher one, s. */
    private static final double SOON_S = 300;

    private UnseenTop() {}

    /** Whether a kiln on its way down has been at a temperature that is not among its readings. */
    static Reaches reaches(FiringData data, double celsius) {
        Course course = data.course;
        int peak = data.phases.peak();
        if (BrokenClimb.isJustBack(course, peak)) {
            return Reaches.CANNOT_SAY_YET;
        }
        boolean possible = beginsOnTheWayDown(course, peak) || possibleInGapC(course, peak) >= celsius;
        return possible ? Reaches.TOP_UNSEEN : Reaches.NO;
    }

    static boolean beginsOnTheWayDown(Course course, int peak) {
        double lowest = Double.POSITIVE_INFINITY;
        for (int i = 0; i <= peak; i++) {
            lowest = Math.min(lowest, course.temperatureC[i]);
        }
        return course.temperatureC[peak] - lowest < ROSE_K;
    }

    /** The highest it can have got to in a gap beside its highest reading, had it climbed through all of it as before. */
    private static double possibleInGapC(Course course, int peak) {
        double highest = course.temperatureC[peak];
        for (int i = Math.max(0, peak - 1); i < course.last() && course.timeS[i] <= course.timeS[peak] + SOON_S; i++) {
            double apart = course.timeS[i + 1] - course.timeS[i];
            if (course.overlapsGap(course.timeS[i], course.timeS[i] + apart / 2)) {
                double slope = course.line(course.timeS[i] - CLIMB_LOOK_S, course.timeS[i])
                        .slopeKS();
                highest = Math.max(highest, course.temperatureC[i] + Math.max(0, slope) * apart);
            }
        }
        return highest;
    }
}
