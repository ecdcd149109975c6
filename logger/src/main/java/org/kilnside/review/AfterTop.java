package org.kilnside.review;

import org.kilnside.heatwork.HeatWork;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/** What a plan asks for once its top has been reached. */
final class AfterTop {
    private AfterTop() {}

    /** How long after its top a plan that cools slowly by the clock still asks for more than a kiln has that hangs back, s. */
    static double heldBackS(PlannedCurve planned, double levelC) {
        double topC = planned.schedule().top().celsius();
        boolean top = false;
        for (PlannedCurve.Leg leg : planned.legs()) {
            if (top && leg.toC() < topC) {
                double share = (leg.fromC() - levelC) / (leg.fromC() - leg.toC());
                return leg.kind() == PlannedCurve.Kind.CONTROLLED_COOLING
                        ? Math.max(0, Math.min(1, share)) * leg.durationMs() / 1000.0
                        : 0;
            }
            top |= leg.toC() >= topC;
        }
        return 0;
    }

    /** Whether the plan has the controller at work on the way down, and does not leave the kiln to itself. */
    static boolean leadsDown(Schedule plan) {
        return plan.segments().stream()
                .reduce((earlier, later) -> later instanceof Segment.FreeCooling ? earlier : later)
                .filter(last -> last instanceof Segment.Ramp ramp
                        && ramp.to().celsius() < plan.top().celsius())
                .isPresent();
    }

    static boolean heatsAgain(PlannedCurve planned) {
        double topC = planned.schedule().top().celsius();
        boolean top = false;
        for (PlannedCurve.Leg leg : planned.legs()) {
            if (top && leg.toC() > leg.fromC() && leg.fromC() < topC) {
                return true;
            }
            top |= leg.toC() >= topC;
        }
        return false;
    }

    /** A hold planned just below the top is no part of it. */
    static double nearTopK(PlannedCurve planned) {
        double topC = planned.schedule().top().celsius();
        double near = HeatWork.NEAR_TOP_K;
        boolean top = false;
        for (PlannedCurve.Leg leg : planned.legs()) {
            if (top && leg.toC() < topC) {
                return Math.min(near, Math.max(4, (topC - leg.toC()) / 2));
            }
            top |= leg.toC() >= topC;
        }
        return near;
    }
}
