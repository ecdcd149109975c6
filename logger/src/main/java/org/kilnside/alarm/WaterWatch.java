package org.kilnside.alarm;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Water that still leaves raw ware above the boiling point takes heat: the output is larger than what the same kiln and
 * load took on the way there says. What a dry load takes is split into storing (with the rate) and losing (with the
 * temperature) in a proportion that hardly differs from kiln to kiln (from simulated kilns), so a ramp's output at
 * 72–88 °C foretells that at 125–165 °C. It needs a controller that says its output and regulates smoothly. Where earlier
 * firings of the kiln are known, what they took at the boiling point is a surer measure, after a hold and in a fast ramp too.
 */
final class WaterWatch {
    private static final double LEARN_FROM_C = 72;
    private static final double LEARN_TO_C = 88;
    private static final double JUDGE_FROM_C = 125;
    private static final double JUDGE_TO_C = 165;

    /** Where it boils the whole load's water takes its heat, and a ramp that has just begun takes more too. */
    private static final double BOILS_FROM_C = 104;

    private static final double BOILS_TO_C = 122;
    private static final double MUCH_LARGER = 1.18;

    /** Until ware and walls keep pace with a faster ramp it is at the boiling point already. */
    private static final double BALANCED_UP_TO_K_PER_H = 80;

    private static final double ROOM_C = 15;

    /** Losing over storing, K/h for each K above the room; 0.23–0.65 in simulated kilns. */
    private static final double LOSES = 0.45;

    private static final double LARGER = 1.12;
    private static final double RAMP_LEAST_K_PER_H = 25;

    /** Faster, a kiln is never in the balance this rests on. */
    private static final double RAMP_MOST_K_PER_H = 120;

    private static final long WINDOW_MS = 480_000;

    /** A ramp that has just begun takes more than it will. */
    private static final long SETTLED_MS = 1_500_000;

    private static final int SEEN_OFTEN = 18;
    private static final int BOILING_LEAST = 36;

    /** So many times what earlier firings took, and so many times their own spread, is water; of one or two more. */
    private static final double OF_EARLIER = 1.06;

    private static final double OF_FEW_EARLIER = 1.15;
    private static final int FEW = 3;
    private static final double SURE = 2.5;

    private static final double THROUGH_C = 175;

    private final DryingBands bands = new DryingBands();
    private List<DryingTake> earlier = List.of();
    private long learnedOnMs = Long.MIN_VALUE;
    private double learnedSum;
    private int learned;
    private int smooth;
    private int looks;
    private int seen;
    private double boilingSum;
    private int boiling;
    private Optional<Finding> found = Optional.empty();

    /** What a kiln's power goes into, storing and losing, K/h. */
    static double storedAndLost(double perHour, double celsius) {
        return perHour + LOSES * (celsius - ROOM_C);
    }

    /** What this kiln's earlier firings took; they may become known in mid-firing. */
    void earlier(List<DryingTake> takes) {
        earlier = List.copyOf(takes);
    }

    /** Against earlier firings with ramps and holds alike: whatever the load, dry ware takes as much more as theirs did. */
    private void againstEarlier(Beats beats) {
        Optional<DryingTake> now = earlier.isEmpty() ? Optional.empty() : bands.take();
        if (now.isEmpty()) {
            return;
        }
        double[] times = now.get().timesOf(earlier);
        if (times.length == 0 || found.isPresent()) {
            return;
        }
        double usual = Arrays.stream(times).average().orElseThrow();
        double squares = Arrays.stream(times)
                .map(each -> (each - usual) * (each - usual))
                .sum();
        double spread = Math.sqrt(squares / Math.max(1, times.length - 1));
        double limit = usual * (times.length < FEW ? OF_FEW_EARLIER : OF_EARLIER) + SURE * spread;
        if (now.get().times() > limit) {
            double taken = beats.meanOutput(WINDOW_MS, 0).orElse(0);
            found = Optional.of(Finding.since(
                    beats.nowMs() - WINDOW_MS,
                    Measure.ofShare(taken),
                    Measure.ofShare(taken * usual / now.get().times())));
        }
    }

    /**
     * Looks.
     *
     * @param rampsSinceMs since when the plan's ramps follow each other: what was learned before a hold does not foretell
     *     what is taken after it
     */
    Optional<Finding> look(Beats beats, boolean heated, long rampsSinceMs) {
        double nowC = beats.nowC();
        if (heated && nowC < THROUGH_C) {
            bands.look(beats);
            againstEarlier(beats);
        }
        if (rampsSinceMs != learnedOnMs) {
            learnedOnMs = rampsSinceMs;
            learnedSum = 0;
            learned = 0;
        }
        if (beats.nowMs() - rampsSinceMs < SETTLED_MS) {
            return found;
        }
        if (!heated || nowC > JUDGE_TO_C + 15) {
            found = Optional.empty();
            return found;
        }
        OptionalDouble output = beats.meanOutput(WINDOW_MS, 0);
        OptionalDouble rate = beats.slope(WINDOW_MS);
        OptionalDouble middle = beats.meanC(WINDOW_MS, 0);
        if (output.isEmpty()
                || rate.isEmpty()
                || middle.isEmpty()
                || rate.getAsDouble() < RAMP_LEAST_K_PER_H
                || rate.getAsDouble() > RAMP_MOST_K_PER_H) {
            return found;
        }
        double now = beats.meanOutput(9_000, 0).orElse(0);
        looks++;
        smooth += now > 0.02 && now < 0.98 ? 1 : 0;
        double storedAndLost = storedAndLost(rate.getAsDouble(), middle.getAsDouble());
        double unit = output.getAsDouble() / storedAndLost;
        if (middle.getAsDouble() > LEARN_FROM_C && middle.getAsDouble() < LEARN_TO_C) {
            learnedSum += unit;
            learned++;
        }
        double celsius = middle.getAsDouble();
        boolean boils = celsius > BOILS_FROM_C && celsius < BOILS_TO_C;
        boolean judged =
                (boils || celsius > JUDGE_FROM_C && celsius < JUDGE_TO_C) && learned >= 12 && smooth > 0.8 * looks;
        if (judged) {
            double expected = learnedSum / learned;
            double times = unit / expected;
            seen = times > LARGER ? seen + 1 : 0;
            if (boils && rate.getAsDouble() < BALANCED_UP_TO_K_PER_H) {
                boilingSum += times;
                boiling++;
            }
            boolean much = boils && boiling >= BOILING_LEAST && boilingSum > MUCH_LARGER * boiling;
            if (much || !boils && seen >= SEEN_OFTEN) {
                found = Optional.of(Finding.since(
                        beats.nowMs() - WINDOW_MS,
                        Measure.ofShare(output.getAsDouble()),
                        Measure.ofShare(expected * storedAndLost)));
            }
        }
        return found;
    }
}
