package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;

/**
 * A number too high to be the kiln's: the wire is of another type than the amplifier takes it for, and the ware stays
 * cold under a fine curve. Told by two things no shut kiln does, whoever made it:
 * <ul>
 *   <li>it is hotter than heating wire stands (common practice: chambers up to some 1,350 °C), and neither the plan nor
 *       the kiln's maker says that this one goes there;
 *   <li>it climbs or stands, hotter than it has been in this firing, on far less power than such heat leaks away. Of 24
 *       simulated kilns of every family none did so on less than half its power above 1,000 °C, and on less than a share
 *       of {@code 0.48} for each 1,000 °C above 500 °C; half of that is wanted before anything is said.
 * </ul>
 * The other way round, a number too low, is {@link HungryKilnWatch}'s.
 */
final class TooHighNumberWatch {
    private static final long MINUTE_MS = 60_000;
    private static final double HOTTEST_WIRE_KILN_C = 1400;
    private static final double ABOVE_ITS_OWN_K = 50;
    private static final long HOT_MS = 2 * MINUTE_MS;

    private static final long POWER_MS = 30 * MINUTE_MS;
    private static final double FROM_C = 600;
    private static final double LEAST_PER_1000_C = 0.24;

    /** Some output: more than a share of one taken for percent. */
    private static final double POWERED = 0.0105;

    /** An output that reads nothing while the kiln climbs on like this is wrong itself, and tells nothing of the number. */
    private static final double CLIMBS_K_PER_H = 60;

    private static final double FALLS_K_PER_H = 10;
    private static final double NEW_GROUND_K = 10;

    /** Where a relay sticks the number climbs away from the set-point; that is another alarm. */
    private static final double AT_SETPOINT_K = 25;

    private final Supplier<AlarmLimits> limits;
    private final double plannedC;
    private double highestC = Double.NEGATIVE_INFINITY;
    private boolean gainsaid;

    TooHighNumberWatch(Supplier<AlarmLimits> limits, Optional<Schedule> plan) {
        this.limits = limits;
        this.plannedC = plan.map(its -> its.top().celsius()).orElse(0.0);
    }

    private double hottestC() {
        double madeC = limits.get().kilnMaximum().map(Temperature::celsius).orElse(0.0);
        return Math.max(HOTTEST_WIRE_KILN_C, Math.max(plannedC, madeC) + ABOVE_ITS_OWN_K);
    }

    Optional<Finding> look(Beats beats) {
        highestC = Math.max(highestC, beats.nowC());
        gainsaid |= beats.unpoweredMs() >= POWER_MS && beats.slope(POWER_MS).orElse(0) > CLIMBS_K_PER_H;
        return tooHot(beats).or(() -> onTooLittlePower(beats));
    }

    private Optional<Finding> tooHot(Beats beats) {
        double coolestC = beats.lowestBetween(HOT_MS, 0);
        return beats.spanMs() > HOT_MS && coolestC > hottestC()
                ? Optional.of(Finding.since(
                        beats.nowMs() - HOT_MS, Measure.ofCelsius(beats.nowC()), Measure.ofCelsius(hottestC())))
                : Optional.empty();
    }

    private Optional<Finding> onTooLittlePower(Beats beats) {
        OptionalDouble takes = beats.meanOutput(POWER_MS, 0);
        OptionalDouble earlier = beats.meanOutput(POWER_MS, POWER_MS / 2);
        OptionalDouble rate = beats.slope(POWER_MS);
        OptionalDouble middle = beats.meanC(POWER_MS, 0);
        OptionalDouble wanted = beats.setpointC();
        boolean led = wanted.isEmpty() || Math.abs(wanted.getAsDouble() - beats.nowC()) < AT_SETPOINT_K;
        if (takes.isEmpty() || earlier.isEmpty() || rate.isEmpty() || middle.isEmpty() || !led) {
            return Optional.empty();
        }
        double least = LEAST_PER_1000_C * middle.getAsDouble() / 1000;
        boolean onItsOwn = middle.getAsDouble() > FROM_C
                && rate.getAsDouble() > -FALLS_K_PER_H
                && beats.nowC() > highestC - NEW_GROUND_K;
        // Without any power it is a relay that sticks, or a kiln this controller has not lit; where the output is
        // written as
        // a share instead of percent it never comes above this.
        boolean powered = takes.getAsDouble() > POWERED && earlier.getAsDouble() > POWERED;
        return onItsOwn && powered && !gainsaid && takes.getAsDouble() < least
                ? Optional.of(Finding.since(
                        beats.nowMs() - POWER_MS, Measure.ofShare(takes.getAsDouble()), Measure.ofShare(2 * least)))
                : Optional.empty();
    }
}
