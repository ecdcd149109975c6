package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.PlannedCurve.Leg;

/**
 * Which of its plan's rises and falls a firing is on, by walking the whole course along them: a plan that heats again on the way
 * down wants the same temperature several times, and the temperature alone does not say which of them it is.
 */
final class PlanTurns {
    /** A set-point this far from where a rise or fall ends may have been there between two readings; a kiln may be held there, K. */
    private static final double SETPOINT_NEAR_K = 10;

    private static final double KILN_NEAR_K = 15;

    /** So far back from there it is on the next rise or fall, K. */
    private static final double SETPOINT_BACK_K = 1;

    private static final double KILN_BACK_K = 8;

    /** As near as this to where it turned it never left, K. */
    private static final double BACK_AGAIN_K = 3;

    /** A set-point so far beyond all that is wanted is none: some controllers say 0 where they want nothing, K. */
    private static final double NO_SETPOINT_K = 50;

    /**
     * Legs that all lead up, or all down, with their holds.
     *
     * @param fromC where it begins, °C
     */
    record Stretch(boolean up, double fromC, List<Leg> legs) {
        double endC() {
            return last().toC();
        }

        double endS() {
            return last().toMs() / 1000.0;
        }

        private double spanK() {
            return Math.abs(endC() - fromC);
        }

        private Leg last() {
            return legs.get(legs.size() - 1);
        }
    }

    private final List<Stretch> stretches;
    private final Course course;
    private int at;
    private int since;
    private double furthest = Double.NEGATIVE_INFINITY;

    private PlanTurns(List<Stretch> stretches, Course course) {
        this.stretches = stretches;
        this.course = course;
    }

    /** Walks a course along a plan's rises and falls. */
    static PlanTurns of(PlannedCurve curve, Course course) {
        PlanTurns turns = new PlanTurns(stretches(curve), course);
        for (int i = 0; i < course.size && turns.heatsAgain(); i++) {
            turns.take(i);
        }
        return turns;
    }

    private static List<Stretch> stretches(PlannedCurve curve) {
        List<Stretch> found = new ArrayList<>();
        List<Leg> legs = new ArrayList<>();
        boolean up = true;
        for (Leg leg : curve.legs()) {
            // What leads nowhere turns nothing: a hold, or a ramp to where the kiln is.
            boolean leads = leg.kind() != PlannedCurve.Kind.HOLD && leg.durationMs() > 0;
            boolean leadsUp = leg.kind() == PlannedCurve.Kind.RAMP;
            if (leads && leadsUp != up && !legs.isEmpty()) {
                found.add(new Stretch(up, legs.get(0).fromC(), List.copyOf(legs)));
                legs.clear();
            }
            up = leads ? leadsUp : up;
            legs.add(leg);
        }
        found.add(new Stretch(up, legs.get(0).fromC(), List.copyOf(legs)));
        return List.copyOf(found);
    }

    /** Whether the plan heats again after it has cooled. */
    boolean heatsAgain() {
        return stretches.size() > 2;
    }

    Stretch stretch() {
        return stretches.get(at);
    }

    boolean isFirst() {
        return at == 0;
    }

    /** Whether this rise or fall has been as far as it leads. */
    boolean isThere() {
        return furthest >= sign() * stretch().endC() - nearK(isTold(course.last()));
    }

    /** Whether it has been there and has left it again. */
    boolean hasLeft() {
        boolean told = isTold(course.last());
        double end = sign() * stretch().endC();
        return isThere() && sign() * valueC(course.last()) < Math.min(furthest, end) - backK(told);
    }

    boolean isLast() {
        return at == stretches.size() - 1;
    }

    /** Leaves the first rise for the fall after it. */
    void goOn() {
        turn(1, course.last(), valueC(course.last()));
    }

    /** The hottest the kiln was on this rise, °C. */
    double hottestC() {
        double hottest = Double.NEGATIVE_INFINITY;
        for (int i = since; i < course.size; i++) {
            hottest = Math.max(hottest, course.temperatureC[i]);
        }
        return hottest;
    }

    private void take(int i) {
        double value = valueC(i);
        double along = sign() * value;
        double end = sign() * stretch().endC();
        if (isTold(i) && along > end + NO_SETPOINT_K) {
            return;
        }
        boolean there = furthest >= end - nearK(isTold(i));
        if (!there && at > 0 && hasComeBack(value)) {
            turn(-1, i, stretches.get(at - 1).endC());
            return;
        }
        furthest = Math.max(furthest, along);
        if (there && !isLast() && along < Math.min(furthest, end) - backK(isTold(i))) {
            turn(1, i, value);
        }
    }

    /** What seemed to leave a hold was a dip or a swing of it. */
    private boolean hasComeBack(double value) {
        Stretch before = stretches.get(at - 1);
        double left = before.up() ? before.endC() - value : value - before.endC();
        return left < Math.min(BACK_AGAIN_K, stretch().spanK() / 4);
    }

    private void turn(int by, int i, double value) {
        at += by;
        since = i;
        furthest = sign() * value;
    }

    private int sign() {
        return stretch().up() ? 1 : -1;
    }

    private boolean isTold(int i) {
        return !Double.isNaN(course.setpointC[i]);
    }

    private double valueC(int i) {
        return isTold(i) ? course.setpointC[i] : course.temperatureC[i];
    }

    private double nearK(boolean told) {
        return Math.min(told ? SETPOINT_NEAR_K : KILN_NEAR_K, smallerK() / 4);
    }

    private double backK(boolean told) {
        return told ? Math.min(SETPOINT_BACK_K, smallerK() / 4) : Math.min(KILN_BACK_K, smallerK() / 2);
    }

    /** Of the way to where it turns and the way on from there. */
    private double smallerK() {
        double after = at + 1 < stretches.size()
                ? stretches.get(at + 1).spanK()
                : stretch().spanK();
        return Math.min(stretch().spanK(), after);
    }
}
