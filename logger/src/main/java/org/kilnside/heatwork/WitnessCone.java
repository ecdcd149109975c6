package org.kilnside.heatwork;

import java.util.Optional;
import java.util.OptionalLong;

/**
 * What one witness cone of a firing showed, as the potter noted it.
 *
 * @param cone which cone; of the series of the table it is compared with
 * @param bend how far it went
 * @param seenDownMs when it was seen to go down, on the recording's clock: worth more than any angle; empty when nobody
 *     looked
 */
public record WitnessCone(Cone cone, Bend bend, OptionalLong seenDownMs) {
    /** How far a cone bent. */
    public enum Bend {
        /** Not at all: the firing came to less than where it begins to bend. */
        UPRIGHT(Optional.empty(), Optional.of(0.5)),
        /** A little, the tip to one or two o'clock. */
        BEGUN(Optional.of(0.45), Optional.of(0.8)),
        /** Half way, the tip at three o'clock. */
        HALF(Optional.of(0.65), Optional.of(0.95)),
        /** The tip level with the base: just down. */
        DOWN(Optional.of(0.9), Optional.of(1.15)),
        /** Flat or melted: down, by who knows how much. */
        PAST(Optional.of(1.0), Optional.empty());

        private final Optional<Double> least;
        private final Optional<Double> most;

        Bend(Optional<Double> least, Optional<Double> most) {
            this.least = least;
            this.most = most;
        }

        /** The least share of its heat work that this takes; common practice, no published source. */
        Optional<Double> least() {
            return least;
        }

        /** The most share of its heat work at which this is still seen; common practice, no published source. */
        Optional<Double> most() {
            return most;
        }

        /**
         * The bend of an angle in degrees: 0 = upright, 90 = the tip level with the base.
         *
         * @throws IllegalArgumentException below 0 or above 180
         */
        public static Bend ofDegrees(double degrees) {
            if (!(degrees >= 0 && degrees <= 180)) {
                throw new IllegalArgumentException(
                        "a cone bends from 0° (upright) past 90° (down) to 180° at most, found " + degrees);
            }
            if (degrees < 5) {
                return UPRIGHT;
            }
            if (degrees < 35) {
                return BEGUN;
            }
            if (degrees < 75) {
                return HALF;
            }
            return degrees <= 95 ? DOWN : PAST;
        }
    }
}
