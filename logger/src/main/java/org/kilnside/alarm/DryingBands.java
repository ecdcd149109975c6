package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.alarm.DryingTake.Stretch;

/** Gathers a firing's {@link DryingTake} look by look. Confined to one thread. */
final class DryingBands {
    /** What is stored and lost is known only over some minutes. */
    private static final long WINDOW_MS = 480_000;

    private static final double RAMP_LEAST_K_PER_H = 25;
    private static final int LOOKS_LEAST = 30;
    private static final double SMOOTH_SHARE = 0.8;

    private final Band below = new Band(55, 80);
    private final Band boiling = new Band(102, 122);
    private final Band past = new Band(126, 160);
    private int smooth;
    private int looks;
    private double celsius;
    private long belowEndedMs;
    private long boilingBeganMs;

    private static final class Band {
        private final double fromC;
        private final double toC;
        private double units;
        private double rates;
        private int looks;

        Band(double fromC, double toC) {
            this.fromC = fromC;
            this.toC = toC;
        }

        boolean holds(double celsius) {
            return celsius > fromC && celsius < toC;
        }

        void add(double unit, double rate) {
            units += unit;
            rates += rate;
            looks++;
        }

        /** Nearly all of it, so that it is compared with the whole of another firing's. */
        boolean isNearlyThrough(double celsius) {
            return celsius > fromC + 0.8 * (toC - fromC);
        }

        Optional<Stretch> stretch() {
            return looks < LOOKS_LEAST || units <= 0
                    ? Optional.empty()
                    : Optional.of(new Stretch(units / looks, rates / looks));
        }
    }

    /** Looks at the newest beat. */
    void look(Beats beats) {
        OptionalDouble output = beats.meanOutput(WINDOW_MS, 0);
        OptionalDouble rate = beats.slope(WINDOW_MS);
        celsius = beats.meanC(WINDOW_MS, 0).orElse(Double.NEGATIVE_INFINITY);
        if (output.isEmpty() || rate.isEmpty() || rate.getAsDouble() < RAMP_LEAST_K_PER_H) {
            return;
        }
        double now = beats.meanOutput(9_000, 0).orElse(0);
        looks++;
        smooth += now > 0.02 && now < 0.98 ? 1 : 0;
        double unit = output.getAsDouble() / WaterWatch.storedAndLost(rate.getAsDouble(), celsius);
        if (below.holds(celsius) && boiling.looks == 0) {
            below.add(unit, rate.getAsDouble());
            belowEndedMs = beats.nowMs();
        } else if (boiling.holds(celsius)) {
            boilingBeganMs = boiling.looks == 0 ? beats.nowMs() : boilingBeganMs;
            boiling.add(unit, rate.getAsDouble());
        } else if (past.holds(celsius)) {
            past.add(unit, rate.getAsDouble());
        }
    }

    /**
     * What it took, each stretch once it is nearly through; empty until it is at the boiling point, and where the output
     * comes in bursts.
     */
    Optional<DryingTake> take() {
        Optional<Stretch> lower = below.stretch();
        Optional<Stretch> middle = boiling.isNearlyThrough(celsius) ? boiling.stretch() : Optional.empty();
        if (smooth < SMOOTH_SHARE * looks || lower.isEmpty() || middle.isEmpty()) {
            return Optional.empty();
        }
        Optional<Stretch> upper = past.isNearlyThrough(celsius) ? past.stretch() : Optional.empty();
        return Optional.of(new DryingTake(lower.get(), middle.get(), upper, boilingBeganMs - belowEndedMs));
    }
}
