package org.kilnside.alarm;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Share;

/**
 * What a firing of a kiln took at and above the boiling point, against what it took on the way there: load and age of the
 * elements are in both and fall out.
 *
 * @param below from 55 to 80 °C
 * @param boiling from 102 to 122 °C
 * @param past from 126 to 160 °C; empty where it has not been there
 * @param betweenMs from the end of the first to the beginning of the second: a hold between them warms the walls
 */
public record DryingTake(Stretch below, Stretch boiling, Optional<Stretch> past, long betweenMs) {
    /** Ramps and holds that far apart are no measure for each other. */
    private static final double ALIKE = 1.3;

    private static final double ALIKE_BETWEEN = 1.6;
    private static final long BETWEEN_LEAST_MS = 1_200_000;
    private static final double THROUGH_C = 185;

    /**
     * What was taken in one stretch.
     *
     * @param unit share of full power for each K/h stored and lost
     * @param perHour how fast it heated, K/h
     */
    public record Stretch(double unit, double perHour) {
        private boolean isLike(Stretch other) {
            return within(perHour / other.perHour, ALIKE);
        }
    }

    /** The take of a whole firing; empty where it never went through, or its output is not known or bursts. */
    public static Optional<DryingTake> of(Trace curve) {
        Beats beats = new Beats();
        DryingBands bands = new DryingBands();
        for (int i = 0; i < curve.size() && curve.temperatureC(i) < THROUGH_C; i++) {
            ControllerReport report =
                    new ControllerReport(share(curve.output(i)), Optional.empty(), OptionalInt.empty());
            if (beats.add(curve.elapsedMs(i), curve.temperatureC(i), report)) {
                bands.look(beats);
            }
        }
        return bands.take();
    }

    private static Optional<Share> share(OptionalDouble output) {
        return output.isPresent()
                ? Optional.of(new Share(Math.max(0, Math.min(1, output.getAsDouble()))))
                : Optional.empty();
    }

    /** How much more was taken above than below: past the boiling point where it has been there, else at it. */
    double times() {
        return past.orElse(boiling).unit() / below.unit();
    }

    /** How much more earlier firings with ramps and holds alike took in the same stretch. */
    double[] timesOf(List<DryingTake> earlier) {
        return earlier.stream()
                .filter(other -> below.isLike(other.below) && isBetweenLike(other))
                .filter(other -> past.isPresent()
                        ? other.past.filter(past.get()::isLike).isPresent()
                        : boiling.isLike(other.boiling))
                .mapToDouble(other ->
                        (past.isPresent() ? other.past.orElseThrow() : other.boiling).unit() / other.below.unit())
                .toArray();
    }

    private boolean isBetweenLike(DryingTake other) {
        double between = (double) Math.max(BETWEEN_LEAST_MS, betweenMs) / Math.max(BETWEEN_LEAST_MS, other.betweenMs);
        return within(between, ALIKE_BETWEEN);
    }

    private static boolean within(double ratio, double times) {
        return ratio < times && ratio > 1 / times;
    }
}
