package org.kilnside.review;

import java.util.EnumMap;
import java.util.Map;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.sensor.SensorUncertainty;

/**
 * Shares a shortfall out among its parts: one part of the real firing after the other is exchanged for the plan's, the
 * cone worked out anew each time, and what each exchange brings averaged over all orders of exchanging (the Shapley
 * value), so that the parts add up to the whole exactly.
 */
final class Attribution {
    /** What can be exchanged. */
    enum Part {
        /** The temperature of the top. */
        LEVEL,
        /** How long it was at the top, and how steadily. */
        HOLD,
        /** How fast it came there. */
        RISE,
        /** How it fell from there. */
        FALL,
        /** By how much the sensor reads wrong. */
        SENSOR
    }

    private final ConeTable table;
    private final Shape real;
    private final Shape plan;
    private final double offsetK;
    private final Map<Integer, Double> known = new java.util.HashMap<>();

    /**
     * @param real the firing as the sensor showed it
     * @param plan what it was meant to be
     * @param offsetK by how much the ware was hotter than the sensor read, K
     */
    Attribution(ConeTable table, Shape real, Shape plan, double offsetK) {
        this.table = table;
        this.real = real;
        this.plan = plan;
        this.offsetK = offsetK;
    }

    /** Whole cones above the softest that the firing came to, cooling counted. */
    double reachedSteps() {
        return steps(0);
    }

    /** Whole cones above the softest that the plan comes to in this kiln, cooling counted. */
    double plannedSteps() {
        return steps((1 << Part.values().length) - 1);
    }

    /** What the firing came to, with its place on the scale. */
    ConeReached reached() {
        return work(0, 0);
    }

    ConeReached planned() {
        return work((1 << Part.values().length) - 1, 0);
    }

    /** What the firing would have come to if the sensor were off by so much more, K. */
    double reachedSteps(double furtherK) {
        return stepsOf(work(0, furtherK));
    }

    /** In cones, positive = it made the firing fall short. */
    Map<Part, Double> shares() {
        int parts = Part.values().length;
        Map<Part, Double> shares = new EnumMap<>(Part.class);
        for (Part part : Part.values()) {
            int bit = 1 << part.ordinal();
            double sum = 0;
            for (int set = 0; set < 1 << parts; set++) {
                if ((set & bit) == 0) {
                    int others = Integer.bitCount(set);
                    double weight = 1.0 / (parts * binomial(parts - 1, others));
                    sum += weight * (steps(set | bit) - steps(set));
                }
            }
            shares.put(part, sum);
        }
        return shares;
    }

    private static double binomial(int of, int choose) {
        double result = 1;
        for (int i = 1; i <= choose; i++) {
            result = result * (of - choose + i) / i;
        }
        return result;
    }

    private double steps(int exchanged) {
        return known.computeIfAbsent(exchanged, set -> stepsOf(work(set, 0)));
    }

    /** Below the scale counts as its lower end: a firing that brought nothing down. */
    private static double stepsOf(ConeReached reached) {
        return reached.cone().steps().orElse(0) + reached.coolingAdded().orElse(0);
    }

    private ConeReached work(int exchanged, double furtherK) {
        Shape rise = has(exchanged, Part.RISE) ? plan : real;
        Shape top = has(exchanged, Part.HOLD) ? plan : real;
        Shape fall = has(exchanged, Part.FALL) ? plan : real;
        double level = has(exchanged, Part.LEVEL) ? plan.levelC() : real.levelC();
        double shift = level + (has(exchanged, Part.SENSOR) ? 0 : offsetK) + furtherK;
        Trace.Builder line = new Trace.Builder();
        long atMs = add(line, 0, rise.rise(), shift);
        atMs = add(line, atMs, top.top(), shift);
        add(line, atMs, fall.fall(), shift);
        return HeatWork.ofLine(table, line.view()).reached(SensorUncertainty.UNKNOWN);
    }

    private static boolean has(int exchanged, Part part) {
        return (exchanged & 1 << part.ordinal()) != 0;
    }

    private static long add(Trace.Builder line, long fromMs, Line part, double shiftC) {
        long atMs = fromMs;
        for (int i = 0; i < part.size(); i++) {
            atMs = Math.max(atMs, fromMs + Math.round((part.seconds(i) - part.seconds(0)) * 1000));
            line.add(atMs, Math.max(-200, part.celsius(i) + shiftC));
        }
        return atMs;
    }
}
