package org.kilnside.schedule;

import java.time.Duration;
import java.util.Optional;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;

/** What a plan may hold; beyond it a number can only be a slip. The same for a file and for a field on a screen. */
public final class PlanLimits {
    public static final Temperature COOLEST_TARGET = Temperature.ofCelsius(0);
    public static final Temperature HOTTEST_TARGET = Temperature.ofCelsius(1500);
    public static final HeatingRate SLOWEST = HeatingRate.ofKelvinPerHour(0.1);
    public static final HeatingRate FASTEST = HeatingRate.ofKelvinPerHour(5000);
    public static final Duration LONGEST_HOLD = Duration.ofDays(7);
    public static final int MOST_SEGMENTS = 99;
    public static final int LONGEST_NAME = 80;
    public static final int LONGEST_CLAY = 200;
    public static final int LONGEST_NOTES = 4000;

    private PlanLimits() {}

    /** The temperature, where a plan may go to it. */
    public static Optional<Temperature> target(Temperature to) {
        return to.compareTo(COOLEST_TARGET) < 0 || to.compareTo(HOTTEST_TARGET) > 0
                ? Optional.empty()
                : Optional.of(to);
    }

    /** The rate, where a plan may have it. */
    public static Optional<HeatingRate> rate(HeatingRate rate) {
        return rate.compareTo(SLOWEST) < 0 || rate.compareTo(FASTEST) > 0 ? Optional.empty() : Optional.of(rate);
    }

    /** The hold, where a plan may have it. */
    public static Optional<Duration> hold(Duration hold) {
        return hold.isNegative() || hold.compareTo(LONGEST_HOLD) > 0 ? Optional.empty() : Optional.of(hold);
    }
}
