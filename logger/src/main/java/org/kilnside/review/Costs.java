package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;

/** The parts of a shortfall as a potter's words have them. */
final class Costs {
    private Costs() {}

    static List<Review.Cost> of(Case facts) {
        List<Review.Cost> costs = new ArrayList<>();
        Shape real = facts.real();
        Shape plan = facts.plan();
        double level = facts.cost(Attribution.Part.LEVEL);
        add(
                costs,
                level >= 0 ? CauseCode.TOP_LOW : CauseCode.OVER_FIRED_TOP,
                level,
                Amount.degrees(real.levelC()),
                Amount.degrees(plan.levelC()),
                Amount.span(real.levelC() - plan.levelC()));
        double hold = facts.cost(Attribution.Part.HOLD);
        add(
                costs,
                hold >= 0 ? CauseCode.HOLD_SHORT : CauseCode.OVER_FIRED_HOLD,
                hold,
                Amount.minutes(facts.heldMinutes()),
                Amount.minutes(facts.plannedHoldMinutes()));
        double rise = facts.cost(Attribution.Part.RISE);
        add(
                costs,
                rise >= 0 ? CauseCode.RAMP_FAST : CauseCode.RAMP_SLOW,
                rise,
                Amount.speed(real.lastRateKPerH()),
                Amount.speed(plan.lastRateKPerH()));
        double fall = facts.cost(Attribution.Part.FALL);
        add(costs, fall >= 0 ? CauseCode.COOLING_FAST : CauseCode.COOLING_SLOW, fall);
        double sensor = facts.cost(Attribution.Part.SENSOR);
        add(
                costs,
                sensor >= 0 ? CauseCode.SENSOR_READS_HIGH : CauseCode.SENSOR_READS_LOW,
                sensor,
                Amount.span(facts.offsetK()),
                Amount.span(facts.halfWidthK()));
        costs.sort((one, other) -> Double.compare(Math.abs(other.cones()), Math.abs(one.cones())));
        return costs;
    }

    /**
     * Parts in whole steps of a cone that add up to the whole in such steps: each goes to its nearest step, and those that
     * lie nearest to the middle between two go the other way until the sum is right. What comes to nothing is left out.
     *
     * @param perCone how many steps make a cone
     */
    static List<Review.Cost> inSteps(List<Review.Cost> exact, double whole, int perCone) {
        long[] steps = new long[exact.size()];
        long missing = Math.round(whole * perCone);
        for (int i = 0; i < steps.length; i++) {
            steps[i] = Math.round(exact.get(i).cones() * perCone);
            missing -= steps[i];
        }
        for (; missing != 0 && steps.length > 0; missing -= Long.signum(missing)) {
            int nearest = 0;
            for (int i = 1; i < steps.length; i++) {
                boolean nearer = roundedDown(exact, steps, i, perCone) * Long.signum(missing)
                        > roundedDown(exact, steps, nearest, perCone) * Long.signum(missing);
                nearest = nearer ? i : nearest;
            }
            steps[nearest] += Long.signum(missing);
        }
        List<Review.Cost> rounded = new ArrayList<>();
        for (int i = 0; i < steps.length; i++) {
            if (steps[i] != 0) {
                Review.Cost cost = exact.get(i);
                rounded.add(new Review.Cost(cost.code(), (double) steps[i] / perCone, cost.amounts()));
            }
        }
        return rounded;
    }

    /** By how many steps a part has been rounded down. */
    private static double roundedDown(List<Review.Cost> exact, long[] steps, int i, int perCone) {
        return exact.get(i).cones() * perCone - steps[i];
    }

    private static void add(List<Review.Cost> costs, CauseCode code, double cones, Amount... amounts) {
        if (cones != 0) {
            costs.add(new Review.Cost(code, cones, List.of(amounts)));
        }
    }
}
