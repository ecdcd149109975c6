package org.kilnside.review;

import java.util.List;
import java.util.Optional;
import org.kilnside.heatwork.FreeFall;
import org.kilnside.schedule.PlannedCurve;

/**
 * How the kiln came down through the ranges that matter to a glaze: against the plan where it says how, else against
 * the kiln's own earlier coolings, else against itself.
 *
 * @param fromC the range, °C
 * @param toC its lower end, °C
 * @param tookS how long it was in it
 * @param goalS how long the plan, or the kiln's habit, has it there
 * @param against what says so
 */
record Cooling(double fromC, double toC, double tookS, double goalS, Against against) {
    /** What a cooling is held against. */
    enum Against {
        /** The plan. */
        PLAN,
        /** The kiln's earlier coolings. */
        HABIT,
        /** What the kiln did before and after in the same fall. */
        ITSELF
    }

    private static final double FAST = 0.65;
    private static final double SLOW = 1.6;
    private static final double LEAST_S = 1200;
    private static final double LEAST_SEEN_K = 60;
    private static final double HABIT_FROM_C = 1000;
    private static final double HABIT_TO_C = 700;
    private static final double WINDOW_S = 1800;
    private static final double STILL_HOT_C = 450;

    /** By so much of itself the time constant has grown when a kiln is down to nothing. */
    private static final double LATER = 0.6;

    static Optional<Cooling> of(Bins bins, TopPhase phase, PlannedCurve plan, FreeFall fall, List<Bins> earlier) {
        if (!phase.falls()) {
            return Optional.empty();
        }
        double topC = plan.schedule().top().celsius();
        double constantS = Math.min(fall.slowS(), fastestS(bins, phase));
        double fromC = Double.NaN;
        double toC = Double.NaN;
        double goalS = 0;
        boolean top = false;
        boolean cutShort = false;
        double lowestSeen = bins.celsius[bins.last()];
        for (PlannedCurve.Leg leg : plan.legs()) {
            if (top && leg.toC() < topC && leg.fromC() > lowestSeen + LEAST_SEEN_K && !cutShort) {
                fromC = Double.isNaN(fromC) ? Math.min(phase.levelC(), leg.fromC()) - 15 : fromC;
                // A log that ends on the way down is judged as far as it goes.
                double endC = Math.max(leg.toC(), lowestSeen + 10);
                cutShort = endC > leg.toC();
                double share = leg.fromC() > leg.toC() ? (leg.fromC() - endC) / (leg.fromC() - leg.toC()) : 1;
                double least = leg.kind() == PlannedCurve.Kind.HOLD ? 0 : naturalS(constantS, leg.fromC(), endC);
                goalS += Math.max(share * leg.durationMs() / 1000.0, least);
                toC = endC - 5;
            }
            top |= leg.toC() >= topC;
        }
        if (!Double.isNaN(toC) && toC < fromC - 20) {
            double goal = goalS;
            return passed(bins, phase, fromC, toC)
                    .map(found -> new Cooling(found.fromC, found.toC, found.tookS, goal, Against.PLAN));
        }
        return habit(bins, phase, earlier)
                .filter(cooling -> cooling.isFast() || cooling.isSlow())
                .or(() -> UnplannedCooling.of(bins, phase));
    }

    /** Against the kiln's earlier coolings, as far down as this one was seen. */
    private static Optional<Cooling> habit(Bins bins, TopPhase phase, List<Bins> earlier) {
        double fromC = Math.min(HABIT_FROM_C, phase.levelC() - 60);
        double toC = Math.max(HABIT_TO_C, bins.celsius[bins.last()] + 3);
        if (toC > fromC - LEAST_SEEN_K) {
            return Optional.empty();
        }
        double[] usual = earlier.stream()
                .map(before -> passed(before, TopPhase.of(before, 25), fromC, toC))
                .flatMap(Optional::stream)
                .mapToDouble(Cooling::tookS)
                .sorted()
                .toArray();
        if (usual.length == 0) {
            return Optional.empty();
        }
        return passed(bins, phase, fromC, toC)
                .map(found -> new Cooling(fromC, toC, found.tookS, usual[usual.length / 2], Against.HABIT));
    }

    private static double naturalS(double constantS, double fromC, double toC) {
        return constantS * Math.log(Math.max(1, (fromC - 20) / Math.max(1, toC - 20)));
    }

    /**
     * The time constant of the steepest half hour on the way down while still hot: a cooling that was held back by heat
     * shows there what the kiln does when it is let go, s. Later it falls more slowly than from its top (simulated kilns
     * of four families).
     */
    private static double fastestS(Bins bins, TopPhase phase) {
        double fastest = Double.POSITIVE_INFINITY;
        for (double at = phase.leftS() + WINDOW_S; at + WINDOW_S <= bins.timeS[bins.last()]; at += WINDOW_S / 2) {
            double celsius = bins.meanC(at, at + WINDOW_S);
            double slope = -bins.slopeKPerH(at, at + WINDOW_S) / 3600;
            if (celsius < STILL_HOT_C) {
                break;
            }
            double below = Math.max(0, (phase.levelC() - celsius) / phase.levelC());
            double constant = slope <= 0 ? Double.POSITIVE_INFINITY : (celsius - 20) / slope * (1 - LATER * below);
            fastest = Math.min(fastest, constant);
        }
        return fastest;
    }

    /** How long it took from first falling below one temperature until first below another. */
    private static Optional<Cooling> passed(Bins bins, TopPhase phase, double fromC, double toC) {
        int i = bins.at(phase.leftS());
        while (i < bins.size && bins.celsius[i] > fromC) {
            i++;
        }
        int j = i;
        while (j < bins.size && bins.celsius[j] > toC) {
            j++;
        }
        return i == 0 || j >= bins.size
                ? Optional.empty()
                : Optional.of(new Cooling(fromC, toC, bins.timeS[j] - bins.timeS[i], 0, Against.HABIT));
    }

    boolean isFast() {
        return tookS < FAST * goalS && goalS - tookS > LEAST_S / 2;
    }

    boolean isSlow() {
        return tookS > SLOW * goalS && tookS - goalS > 2 * LEAST_S;
    }
}
