package org.kilnside.tracking;

import java.util.List;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.PlannedCurve.Kind;
import org.kilnside.schedule.PlannedCurve.Leg;

/** The straight legs of a plan, and where among them a temperature fits. Legs are counted from 0. */
final class PlanLegs {
    /** A kiln this close to a hold's temperature, and level, may be holding there. */
    private static final double AT_HOLD_K = 8;

    private final PlannedCurve curve;
    private final List<Leg> legs;
    private final int lastHeatingSegment;

    PlanLegs(PlannedCurve curve) {
        this.curve = curve;
        this.legs = curve.legs();
        int last = 1;
        for (Leg leg : legs) {
            last = leg.kind() == Kind.RAMP ? leg.segment() : last;
        }
        this.lastHeatingSegment = last;
    }

    List<Leg> all() {
        return legs;
    }

    int size() {
        return legs.size();
    }

    Leg get(int index) {
        return legs.get(index);
    }

    Temperature start() {
        return curve.start();
    }

    /** The last segment that heats, counted from 1. */
    int lastHeatingSegment() {
        return lastHeatingSegment;
    }

    /** The first leg of a segment, which is counted from 1; the number of legs where it has none: free cooling. */
    int firstOf(int segment) {
        for (int i = 0; i < legs.size(); i++) {
            if (legs.get(i).segment() == segment) {
                return i;
            }
        }
        return legs.size();
    }

    /** The leg a kiln is on that is heated and has a temperature: a hold there if it is level, else the ramp through it. */
    int heatingAt(double celsius, boolean level) {
        int ramp = -1;
        for (int i = 0; i < legs.size(); i++) {
            Leg leg = legs.get(i);
            if (level && leg.kind() == Kind.HOLD && Math.abs(celsius - leg.toC()) <= AT_HOLD_K) {
                return i;
            }
            if (ramp < 0 && leg.kind() == Kind.RAMP && celsius <= leg.toC() + PlanTracker.THERE_K) {
                ramp = i;
            }
        }
        return ramp < 0 ? firstOf(curve.schedule().topSegment()) : ramp;
    }

    /** The leg of controlled cooling that goes through a temperature; negative when there is none. */
    int coolingAt(double celsius) {
        for (int i = 0; i < legs.size(); i++) {
            Leg leg = legs.get(i);
            if (leg.kind() == Kind.CONTROLLED_COOLING
                    && celsius <= leg.fromC() + LegCurve.NEAR_K
                    && celsius >= leg.toC() - LegCurve.NEAR_K) {
                return i;
            }
        }
        return -1;
    }

    /** Of the legs from one on, the one that has a temperature nearest to a planned time; negative when none has it. */
    int nearest(int from, double celsius, double expectedMs) {
        int best = -1;
        double bestMiss = Double.POSITIVE_INFINITY;
        for (int i = from; i < legs.size(); i++) {
            Leg leg = legs.get(i);
            boolean fits = celsius >= Math.min(leg.fromC(), leg.toC()) - AT_HOLD_K
                    && celsius <= Math.max(leg.fromC(), leg.toC()) + AT_HOLD_K;
            double planned = leg.kind() == Kind.HOLD
                    ? Math.min(leg.toMs(), Math.max(leg.fromMs(), expectedMs))
                    : plannedTimeOf(leg, celsius);
            if (fits && Math.abs(planned - expectedMs) < bestMiss) {
                best = i;
                bestMiss = Math.abs(planned - expectedMs);
            }
        }
        return best;
    }

    /** The planned time at which a leg has a temperature: its nearer end outside it, its beginning for a hold. */
    static double plannedTimeOf(Leg leg, double celsius) {
        double share = leg.toC() == leg.fromC() ? 0 : (celsius - leg.fromC()) / (leg.toC() - leg.fromC());
        return leg.fromMs() + Math.min(1, Math.max(0, share)) * leg.durationMs();
    }
}
