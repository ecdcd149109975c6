package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;

/** The parts of a shortfall as a potter's words have them; rounded so that they still add up. */
final class Costs {
    /** Parts smaller than this are not worth a line. */
    private static final double LEAST = 0.005;

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

    private static void add(List<Review.Cost> costs, CauseCode code, double cones, Amount... amounts) {
        if (Math.abs(cones) >= LEAST) {
            costs.add(new Review.Cost(code, cones, List.of(amounts)));
        }
    }
}
