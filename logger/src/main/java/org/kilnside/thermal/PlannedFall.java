package org.kilnside.thermal;

import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;

/**
 * Where the plan's ramps led a kiln down whose controller tells no output. What falls as fast as its plan leads it down says
 * nothing of how it would fall alone, and what has come below the last of its plan is left alone from there.
 */
final class PlannedFall {
    /** A plan's ramp on the way down is followed by a rate like its own, over this time, within this part. */
    private static final double LED_LOOK_S = 900;

    private static final double LED_WITHIN = 0.15;

    /** So near to the plan's ramp drawn back from now the kiln was on it, K. */
    private static final double LED_BAND_K = 6;

    private PlannedFall() {}

    /**
     * What the plan makes of where the elements were on.
     *
     * @param ahead what is left of it; empty when it is over
     * @return empty where the curve's own shape says all there is
     */
    static Optional<Phases> phases(Optional<Schedule> plan, Optional<PlanAhead> ahead, FiringData data) {
        if (ahead.isPresent()) {
            return data.phases.drivenNow()
                    ? Optional.empty()
                    : ledSince(data, ahead.get()).map(since -> data.phases.ledDownSince(data.course, since));
        }
        return plan.flatMap(schedule -> letGo(schedule, data)).map(at -> Phases.letGo(data.course, at));
    }

    /** Since when the kiln has fallen as its plan leads it down, if it does. */
    private static Optional<Double> ledSince(FiringData data, PlanAhead ahead) {
        PlanAhead.Corner next = ahead.corners().get(0);
        double planned = (data.nowC - next.temperatureC()) / Math.max(1, next.elapsedS() - data.nowS);
        Course course = data.course;
        Course.Line lately = course.line(data.nowS - LED_LOOK_S, data.nowS);
        double off = Math.abs(planned + lately.slopeKS());
        if (planned <= 0 || lately.points() < 3 || off > LED_WITHIN * planned + 2 * lately.slopeErrorKS()) {
            return Optional.empty();
        }
        int i = course.last();
        while (i > data.phases.peak()
                && Math.abs(course.temperatureC[i] - data.nowC - planned * (data.nowS - course.timeS[i]))
                        < LED_BAND_K) {
            i--;
        }
        return Optional.of(course.timeS[i]);
    }

    /** The last point of the course at which a plan that led it down still held it; empty for one that just lets go at the top. */
    private static Optional<Integer> letGo(Schedule schedule, FiringData data) {
        Course course = data.course;
        PlannedCurve curve = schedule.curveFrom(Temperature.ofCelsius(course.temperatureC[0]));
        PlannedCurve.Leg end = curve.legs().get(curve.legs().size() - 1);
        int i = course.last();
        while (i > data.phases.peak() && course.temperatureC[i] < end.toC() - PlanRun.THERE_K) {
            i--;
        }
        boolean led = end.segment() > schedule.topSegment();
        return led && i > data.phases.peak() && i < course.last() ? Optional.of(i) : Optional.empty();
    }
}
