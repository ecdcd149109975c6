package org.kilnside.thermal;

/**
 * A climb broken off by a gap in the readings, as when the power fails. How the kiln came down from there nobody saw: only
 * what it has done since tells whether it cools or climbs on.
 */
final class BrokenClimb {
    /** A gap that begins so soon after the highest temperature broke the climb off, s. */
    private static final double WITHIN_S = 300;

    private BrokenClimb() {}

    /** Whether the readings stopped at the highest temperature for a while. */
    static boolean is(Course course, int peak) {
        return course.overlapsGap(course.timeS[peak], course.timeS[peak] + WITHIN_S);
    }

    /** The same, with the log back for too short a time to tell how the kiln goes on. */
    static boolean isJustBack(Course course, int peak) {
        double now = course.lastS();
        return is(course, peak) && course.overlapsGap(now - Phases.LOOK_S, now);
    }
}
