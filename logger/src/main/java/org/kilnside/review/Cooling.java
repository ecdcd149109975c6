package org.kilnside.review;

import java.util.List;
import java.util.Optional;
import org.kilnside.schedule.PlannedCurve;

/**
 * How the kiln came down through the ranges that matter to a glaze: against the plan where it says how, else against
 * the kiln's own earlier coolings.
 *
 * @param fromC the range, °C
 * @param toC its lower end, °C
 * @param tookS how long it was in it
 * @param goalS how long the plan, or the kiln's habit, has it there
 * @param planned whether the plan says so
 */
record Cooling(double fromC, double toC, double tookS, double goalS, boolean planned) {
    private static final double FAST = 0.65;
    private static final double SLOW = 1.6;
    private static final double LEAST_S = 1200;
    private static final double LEAST_SEEN_K = 60;
    private static final double HABIT_FROM_C = 1000;
    private static final double HABIT_TO_C = 700;

    static Optional<Cooling> of(Bins bins, TopPhase phase, PlannedCurve plan, Shape.FreeFall fall, List<Bins> earlier) {
        if (!phase.falls()) {
            return Optional.empty();
        }
        double topC = plan.schedule().top().celsius();
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
                double least = leg.kind() == PlannedCurve.Kind.HOLD ? 0 : naturalS(fall, leg.fromC(), endC);
                goalS += Math.max(share * leg.durationMs() / 1000.0, least);
                toC = endC - 5;
            }
            top |= leg.toC() >= topC;
        }
        if (!Double.isNaN(toC) && toC < fromC - 20) {
            double goal = goalS;
            return passed(bins, phase, fromC, toC)
                    .map(found -> new Cooling(found.fromC, found.toC, found.tookS, goal, true));
        }
        return habit(bins, phase, earlier);
    }

    private static Optional<Cooling> habit(Bins bins, TopPhase phase, List<Bins> earlier) {
        double fromC = Math.min(HABIT_FROM_C, phase.levelC() - 60);
        double[] usual = earlier.stream()
                .map(before -> passed(before, TopPhase.of(before, 25), fromC, HABIT_TO_C))
                .flatMap(Optional::stream)
                .mapToDouble(Cooling::tookS)
                .sorted()
                .toArray();
        if (usual.length == 0) {
            return Optional.empty();
        }
        return passed(bins, phase, fromC, HABIT_TO_C)
                .map(found -> new Cooling(fromC, HABIT_TO_C, found.tookS, usual[usual.length / 2], false));
    }

    private static double naturalS(Shape.FreeFall fall, double fromC, double toC) {
        return fall.constantS() * Math.log(Math.max(1, (fromC - 20) / Math.max(1, toC - 20)));
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
                : Optional.of(new Cooling(fromC, toC, bins.timeS[j] - bins.timeS[i], 0, false));
    }

    boolean isFast() {
        return tookS < FAST * goalS && goalS - tookS > LEAST_S;
    }

    boolean isSlow() {
        return tookS > SLOW * goalS && tookS - goalS > 2 * LEAST_S;
    }
}
