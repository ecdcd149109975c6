package org.kilnside.thermal;

import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;

/**
 * How a controller treats a kiln that lags, as far as its set-point shows. Those that wait let the set-point stand while the kiln
 * is behind; others let it rise on and wait at a ramp's end; others again go by the clock and end their plan wherever the kiln is.
 */
enum Steering {
    /** It waits for its kiln, or its kiln has kept up: nothing speaks against its plan being carried out. */
    WAITS,
    /** Its ramps rise on without the kiln; whether it waits at their ends was not seen. */
    RAMPS_RUN_ON,
    /** It left a ramp's end with the kiln far below: its plan ends by the clock. */
    BY_THE_CLOCK;

    /** Controllers that wait for their kiln do not let it fall so far behind, K. */
    private static final double LEFT_BEHIND_K = 40;

    /** The set-point has risen on so far since, K. */
    private static final double RISEN_ON_K = 20;

    /** A kiln nearer to a ramp's end than this may have been taken for there, K. */
    private static final double NOT_THERE_K = 25;

    /** So much longer than planned a set-point that stands waits, s. */
    private static final double WAITED_S = 900;

    /** A set-point this near to a ramp's end is there, K. */
    private static final double AT_END_K = 1;

    /** What a course shows; without a plan nobody knows where its ramps end. */
    static Steering of(Course course, Optional<Schedule> plan) {
        if (!ranAhead(course)) {
            return WAITS;
        }
        return plan.map(schedule -> atRampEnds(schedule, course)).orElse(RAMPS_RUN_ON);
    }

    private static boolean ranAhead(Course course) {
        double leftAtC = Double.NaN;
        for (int i = 0; i < course.size; i++) {
            boolean behind = course.setpointC[i] - course.temperatureC[i] > LEFT_BEHIND_K;
            if (!behind) {
                leftAtC = Double.NaN;
            } else if (Double.isNaN(leftAtC)) {
                leftAtC = course.setpointC[i];
            } else if (course.setpointC[i] > leftAtC + RISEN_ON_K) {
                return true;
            }
        }
        return false;
    }

    /** Where the set-point stood longer than planned with the kiln below it, it waits there; the latest ramp's end counts. */
    private static Steering atRampEnds(Schedule schedule, Course course) {
        Steering seen = RAMPS_RUN_ON;
        PlannedCurve curve = schedule.curveFrom(Temperature.ofCelsius(course.temperatureC[0]));
        for (PlannedCurve.Leg leg : curve.legs()) {
            if (leg.kind() != PlannedCurve.Kind.RAMP || leg.toC() <= leg.fromC()) {
                continue;
            }
            int at = 0;
            while (at < course.size && !(course.setpointC[at] >= leg.toC() - AT_END_K)) {
                at++;
            }
            if (at == course.size || course.temperatureC[at] > leg.toC() - NOT_THERE_K) {
                continue;
            }
            int left = at;
            while (left < course.size && Math.abs(course.setpointC[left] - leg.toC()) <= AT_END_K) {
                left++;
            }
            double stoodS = course.timeS[Math.min(left, course.last())] - course.timeS[at];
            boolean farBelow = course.temperatureC[Math.min(left, course.last())] < leg.toC() - NOT_THERE_K;
            if (stoodS > heldS(curve, leg) + WAITED_S) {
                seen = WAITS;
            } else if (left < course.size && farBelow) {
                seen = BY_THE_CLOCK;
            }
        }
        return seen;
    }

    private static double heldS(PlannedCurve curve, PlannedCurve.Leg ramp) {
        return curve.legs().stream()
                .filter(leg -> leg.kind() == PlannedCurve.Kind.HOLD && leg.segment() == ramp.segment())
                .mapToDouble(leg -> (leg.toMs() - leg.fromMs()) / 1000.0)
                .sum();
    }
}
