package org.kilnside.schedule;

import java.time.Duration;
import java.util.Optional;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;

/** One step of a schedule. */
public sealed interface Segment permits Segment.Ramp, Segment.FreeCooling {
    /** The temperature this segment goes to; empty in free cooling. */
    Optional<Temperature> target();

    /**
     * Go to a temperature at a rate, then hold there. A ramp whose target is lower than where it starts is controlled
     * cooling at the same, positive, rate.
     *
     * @param rate always positive, at least 0.01 K/h: the plan's direction is that of the target
     * @param to the temperature to reach
     * @param hold how long to stay there, at most a year; zero = go on at once
     */
    record Ramp(HeatingRate rate, Temperature to, Duration hold) implements Segment {
        private static final double SLOWEST_K_PER_H = 0.01;
        private static final Duration LONGEST_HOLD = Duration.ofDays(365);

        public Ramp {
            if (!(rate.kelvinPerHour() > 0)) {
                throw new IllegalArgumentException("a ramp's rate is above 0 °C/h, found " + rate.kelvinPerHour());
            }
            // Slower or longer than this, planned time would leave the range of its numbers.
            if (rate.kelvinPerHour() < SLOWEST_K_PER_H || hold.compareTo(LONGEST_HOLD) > 0) {
                throw new IllegalArgumentException(
                        "a ramp is no slower than 0.01 °C/h and a hold no longer than a year," + " found "
                                + rate.kelvinPerHour() + " °C/h and " + hold);
            }
            if (hold.isNegative()) {
                throw new IllegalArgumentException("a hold is not negative, found " + hold);
            }
        }

        @Override
        public Optional<Temperature> target() {
            return Optional.of(to);
        }
    }

    /** Elements off; the kiln cools as it will. */
    record FreeCooling() implements Segment {
        @Override
        public Optional<Temperature> target() {
            return Optional.empty();
        }
    }
}
