package org.kilnside.outlook;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;

/**
 * What stands in the kiln, as far as it decides how fast it may be fired.
 *
 * @param state raw, or fired before; empty when nobody said
 * @param thicknessMm the thickest piece's wall, mm; empty when nobody said
 * @param limit the highest its clay or glaze bears, from the maker; empty when nobody said
 */
public record Ware(Optional<State> state, OptionalDouble thicknessMm, Optional<Temperature> limit) {
    /** Nothing is known of it. */
    public static final Ware UNKNOWN = new Ware(Optional.empty(), OptionalDouble.empty(), Optional.empty());

    private static final double THIN_MM = 6;
    private static final double THICK_MM = 25;

    /** The trade knows its limits no finer, K/h. */
    private static final double ROUND_TO_K = 10;

    public Ware {
        if (thicknessMm.isPresent() && !(thicknessMm.getAsDouble() > 0 && thicknessMm.getAsDouble() <= 500)) {
            throw new IllegalArgumentException(
                    "a wall is above 0 and up to 500 mm thick, found " + thicknessMm.getAsDouble());
        }
    }

    /** Whether it was fired before. */
    public enum State {
        /** Not fired yet: it holds water, bound and perhaps free, and organic matter. */
        RAW,
        /** Fired before, and glazed. */
        GLAZED
    }

    public boolean isRaw() {
        return state.equals(Optional.of(State.RAW));
    }

    /** 0 = thin, 1 = thick; thin when nobody said, so that a warning given is not for want of knowledge. */
    private double thickness() {
        double mm = thicknessMm.orElse(THIN_MM);
        return Math.max(0, Math.min(1, (mm - THIN_MM) / (THICK_MM - THIN_MM)));
    }

    /** A limit of common practice, to the degree it is one. */
    private static HeatingRate rounded(double kelvinPerHour) {
        return HeatingRate.ofKelvinPerHour(Math.round(kelvinPerHour / ROUND_TO_K) * ROUND_TO_K);
    }

    /**
     * The fastest up to 600 °C: raw 100 °C/h for thin ware, 50 for thick or hand-built (the trade agrees on 50 to 100);
     * fired before or unknown 150 °C/h (common practice).
     */
    HeatingRate fastestTo600() {
        return rounded(isRaw() ? 100 - 50 * thickness() : 150);
    }

    /** The fastest while organic matter burns out, 650 to 900 °C: raw 150 °C/h, 100 for thick ware (the trade agrees). */
    Optional<HeatingRate> fastestInBurnOut() {
        return isRaw() ? Optional.of(rounded(150 - 50 * thickness())) : Optional.empty();
    }

    /** The fastest fall through quartz inversion: 150 °C/h, 100 for thick ware (common practice). */
    HeatingRate fastestDownThroughQuartz() {
        return rounded(150 - 50 * thickness());
    }

    /** How long raw ware is candled at 80 to 85 °C: 2 h for thin to 12 h for thick ware, by the hour (common practice). */
    Optional<Duration> candling() {
        return isRaw() ? Optional.of(Duration.ofHours(Math.round(2 + 10 * thickness()))) : Optional.empty();
    }
}
