package org.kilnside.heatwork;

import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * What one witness cone of a firing showed, as the potter noted it.
 *
 * @param cone which cone
 * @param degrees how far it went, 0 … 180: 0 upright, 90 its tip level with its base, beyond that down by who knows how
 *     much; empty when only the time is known
 * @param seenDownMs when it was seen to go down, on the recording's clock: worth more than any angle; empty when nobody
 *     looked
 */
public record WitnessCone(Cone cone, OptionalDouble degrees, OptionalLong seenDownMs) {
    /** How a cone looks. */
    public enum Bend {
        /** Not bent at all. */
        UPRIGHT,
        /** A little, the tip to one or two o'clock. */
        BEGUN,
        /** Half way, the tip at three o'clock. */
        HALF,
        /** The tip level with the base: just down. */
        DOWN,
        /** Flat or melted: down, by who knows how much. */
        PAST;

        /**
         * The look of an angle in degrees: 0 = upright, 90 = the tip level with the base.
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
