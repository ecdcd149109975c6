package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.kilnside.firing.Trace;

/**
 * How strong a kiln's elements were, firing by firing. Wall and leak are the kiln's and the same in all of them; the load
 * is each firing's own; what is left over is the power. A step from one firing to the next by a third is a ring, relay or
 * phase; a slope is ageing; single per cents are the mains.
 *
 * @param firings oldest first, those whose output is told
 */
public record ElementStrength(List<Strength> firings) {
    /** What model and mains leave of doubt in one firing: ln, one standard deviation. */
    private static final double LEAST_ERROR = 0.015;

    private static final double NINE_IN_TEN = 1.645;
    private static final int FEWEST_FOR_SLOPE = 3;
    private static final int FEWEST_READINGS = 20;

    /** From one firing to the next so much of the power gone is no ageing: one ring, relay or phase of three is a third. */
    private static final double STEP = 0.8;

    public ElementStrength {
        firings = List.copyOf(firings);
    }

    /**
     * One firing's strength.
     *
     * @param number which of the earlier firings it was, oldest = 0
     * @param ofFirst power over that of the first in the list; 1 = as strong
     * @param from and {@code to}: nine in ten
     */
    public record Strength(int number, double ofFirst, double from, double to) {}

    /**
     * A slope over firings.
     *
     * @param lostPerTen part of its power the kiln loses in ten firings; negative = gains
     * @param from and {@code to}: nine in ten
     */
    public record Ageing(double lostPerTen, double from, double to) {}

    /**
     * What firings of one kiln say; empty list where none tells its output.
     *
     * @param firings their curves, oldest first
     * @param wall the kiln's wall, where its owner said it
     */
    public static ElementStrength of(List<Trace> firings, Optional<WallKind> wall) {
        KilnMemory memory = KilnMemory.none(wall);
        List<FittedKiln> powered = new ArrayList<>();
        List<Integer> numbers = new ArrayList<>();
        for (int i = 0; i < firings.size(); i++) {
            if (tellsOutput(firings.get(i))) {
                Course course = Course.of(firings.get(i));
                FiringData data = FiringData.of(course, OptionalDouble.empty());
                if (!ContradictedOutput.isIn(course) && !data.powered.isEmpty()) {
                    powered.add(memory.fit(data).get(0).fit());
                    numbers.add(i);
                }
            }
        }
        return of(powered, numbers);
    }

    private static boolean tellsOutput(Trace curve) {
        return curve.size() >= FEWEST_READINGS
                && IntStream.range(0, curve.size())
                        .anyMatch(i -> curve.output(i).isPresent());
    }

    private static ElementStrength of(List<FittedKiln> powered, List<Integer> numbers) {
        if (powered.isEmpty()) {
            return new ElementStrength(List.of());
        }
        WallKind kind = powered.get(powered.size() - 1).kind();
        List<FittedKiln> alike = powered.stream()
                .map(each -> each.kind() == kind ? each : FiringFit.fit(each.data(), kind))
                .toList();
        double[] middle = new double[Prior.BASIC];
        for (FittedKiln each : alike) {
            for (int p = 0; p < Prior.BASIC; p++) {
                middle[p] += each.solution().parameters()[p] / alike.size();
            }
        }
        double[] logs = new double[alike.size()];
        double[] errors = new double[alike.size()];
        for (int i = 0; i < logs.length; i++) {
            FittedKiln each = alike.get(i);
            Prior pinned = each.prior().pinned(middle);
            FittedKiln fit = FiringFit.fit(each.data(), kind, pinned);
            logs[i] = pinned.logPsi(fit.solution().parameters());
            errors[i] =
                    Math.hypot(LEAST_ERROR, pinned.logPsiError(fit.solution().covariance()));
        }
        List<Strength> firings = new ArrayList<>();
        for (int i = 0; i < logs.length; i++) {
            double log = logs[i] - logs[0];
            double half = i == 0 ? 0 : NINE_IN_TEN * Math.hypot(errors[i], errors[0]);
            firings.add(new Strength(numbers.get(i), Math.exp(log), Math.exp(log - half), Math.exp(log + half)));
        }
        return new ElementStrength(firings);
    }

    /** The newest firing from which on a part of the power is missing at once: a ring, relay or phase; empty without. */
    public Optional<Strength> step() {
        for (int i = firings.size() - 1; i > 0; i--) {
            if (firings.get(i).ofFirst() < STEP * firings.get(i - 1).ofFirst()) {
                return Optional.of(firings.get(i));
            }
        }
        return Optional.empty();
    }

    /** The slope over all firings; empty for fewer than three. */
    public Optional<Ageing> ageing() {
        int count = firings.size();
        if (count < FEWEST_FOR_SLOPE) {
            return Optional.empty();
        }
        double meanNumber =
                firings.stream().mapToInt(Strength::number).average().orElseThrow();
        double meanLog = firings.stream()
                .mapToDouble(each -> Math.log(each.ofFirst()))
                .average()
                .orElseThrow();
        double squares = 0;
        double products = 0;
        double known = 0;
        for (Strength each : firings) {
            double apart = each.number() - meanNumber;
            squares += apart * apart;
            products += apart * (Math.log(each.ofFirst()) - meanLog);
            known = Math.max(known, Math.log(each.to() / each.from()) / 2);
        }
        double slope = products / squares;
        double half = Math.max(known, NINE_IN_TEN * LEAST_ERROR) / Math.sqrt(squares);
        return Optional.of(new Ageing(
                1 - Math.exp(10 * slope), 1 - Math.exp(10 * (slope + half)), 1 - Math.exp(10 * (slope - half))));
    }
}
