package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;

/**
 * What the kiln's earlier firings say of its power.
 *
 * @param firings how many of them tell
 * @param strength their middle, in {@link Power}'s unit; 0 where none tells
 * @param fallsByPart by which part it fell from firing to firing; 0 where it does not or nobody can tell
 */
record Habit(int firings, double strength, double fallsByPart) {
    private static final int FEWEST_FOR_SLOPE = 3;
    private static final double LEAST_SLOPE = 0.004;

    static Habit of(List<Bins> earlier, List<Double> leftS) {
        List<Double> strengths = new ArrayList<>();
        for (int i = 0; i < earlier.size(); i++) {
            double strength = Power.strengthOf(earlier.get(i), leftS.get(i));
            if (strength > 0) {
                strengths.add(strength);
            }
        }
        if (strengths.isEmpty()) {
            return new Habit(0, 0, 0);
        }
        List<Double> sorted = new ArrayList<>(strengths);
        sorted.sort(Double::compare);
        return new Habit(strengths.size(), sorted.get(sorted.size() / 2), slope(strengths));
    }

    /** A straight line through the logarithms; counted only where it is more than twice its own error. */
    private static double slope(List<Double> strengths) {
        int n = strengths.size();
        if (n < FEWEST_FOR_SLOPE) {
            return 0;
        }
        double meanX = (n - 1) / 2.0;
        double meanY = strengths.stream().mapToDouble(Math::log).average().orElseThrow();
        double xy = 0;
        double xx = 0;
        for (int i = 0; i < n; i++) {
            xy += (i - meanX) * (Math.log(strengths.get(i)) - meanY);
            xx += (i - meanX) * (i - meanX);
        }
        double slope = xy / xx;
        double squares = 0;
        for (int i = 0; i < n; i++) {
            double miss = Math.log(strengths.get(i)) - meanY - slope * (i - meanX);
            squares += miss * miss;
        }
        double error = Math.sqrt(squares / Math.max(1, n - 2) / xx);
        return -slope > Math.max(LEAST_SLOPE, 2 * error) ? -slope : 0;
    }
}
