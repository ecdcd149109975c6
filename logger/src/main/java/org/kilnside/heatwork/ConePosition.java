package org.kilnside.heatwork;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A place on the scale of whole cones: past one, and how far on the way to the next.
 *
 * @param past the last cone that is down; empty below the softest
 * @param next the first that is not; empty past the hardest
 * @param fraction how far from the one to the other, 0 … 1; empty at the ends of the scale, where there is no telling
 */
public record ConePosition(Optional<Cone> past, Optional<Cone> next, OptionalDouble fraction)
        implements Comparable<ConePosition> {
    /**
     * The place where ln H crosses 0 along the whole cones, straight between neighbours.
     *
     * <p>A softer cone stands no longer than a harder one, whatever the rounding of the chart made of its constants:
     * so the largest ln H of any harder cone counts for it too.
     *
     * @param bending the integrals
     * @param shiftK °C by which the whole curve is taken to have been hotter than read
     */
    static ConePosition of(Bending bending, double shiftK) {
        List<Cone> cones = bending.table().cones();
        Optional<Cone> next = Optional.empty();
        double logNext = Double.NEGATIVE_INFINITY;
        for (int i = cones.size() - 1; i >= 0; i--) {
            if (!cones.get(i).isWhole()) {
                continue;
            }
            double logWork = StrictMath.log(bending.work(i)) + shiftK * bending.slopePerK(i);
            logWork = Math.max(logWork, logNext);
            if (logWork >= 0) {
                OptionalDouble fraction = next.isEmpty()
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(logNext == Double.NEGATIVE_INFINITY ? 0 : logWork / (logWork - logNext));
                return new ConePosition(Optional.of(cones.get(i)), next, fraction);
            }
            next = Optional.of(cones.get(i));
            logNext = logWork;
        }
        return new ConePosition(Optional.empty(), next, OptionalDouble.empty());
    }

    /** Exactly at a cone: it has just gone down. */
    public static ConePosition at(Cone cone) {
        List<Cone> whole = Cone.whole();
        int index = whole.indexOf(cone);
        if (index < 0) {
            throw new IllegalArgumentException(cone + " is no whole cone");
        }
        return new ConePosition(
                Optional.of(cone),
                index + 1 < whole.size() ? Optional.of(whole.get(index + 1)) : Optional.empty(),
                OptionalDouble.of(0));
    }

    /**
     * The place as a number of whole cones above the softest: 022 = 0, 01 = 21, 1 = 22, 14 = 35. Differences of it are
     * differences in cones. Empty below the scale.
     */
    public OptionalDouble steps() {
        return past.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(Cone.whole().indexOf(past.get()) + fraction.orElse(0));
    }

    /**
     * The place a number of whole cones above the softest, the reverse of {@link #steps}; below 0 it is below the scale.
     */
    public static ConePosition ofSteps(double steps) {
        List<Cone> whole = Cone.whole();
        if (steps < 0) {
            return new ConePosition(Optional.empty(), Optional.of(whole.get(0)), OptionalDouble.empty());
        }
        int index = (int) steps;
        return index >= whole.size() - 1
                ? new ConePosition(Optional.of(whole.get(whole.size() - 1)), Optional.empty(), OptionalDouble.empty())
                : new ConePosition(
                        Optional.of(whole.get(index)),
                        Optional.of(whole.get(index + 1)),
                        OptionalDouble.of(steps - index));
    }

    /** How many cones the other place is above this one, negative when below; empty when one is below the scale. */
    public OptionalDouble stepsTo(ConePosition other) {
        return steps().isEmpty() || other.steps().isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(other.steps().getAsDouble() - steps().getAsDouble());
    }

    /** The nearer of the two cones. */
    public Optional<Cone> nearest() {
        return past.isEmpty() || fraction.orElse(0) > 0.5 ? next.or(() -> past) : past;
    }

    @Override
    public int compareTo(ConePosition other) {
        return Double.compare(steps().orElse(-1), other.steps().orElse(-1));
    }
}
