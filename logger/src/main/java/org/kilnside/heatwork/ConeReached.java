package org.kilnside.heatwork;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.ConeSeries;
import org.kilnside.quantity.Interval;
import org.kilnside.quantity.Temperature;

/**
 * What a firing has come to, or has come to so far.
 *
 * @param series the cones meant
 * @param cone where the firing stands up to the top and until it has fallen 25 °C from it
 * @param between the same, read with everything the sensor and the chart may be off by; where the top was not seen its
 *     upper end is that of the part that was seen, see {@link #atMost}
 * @param coolingAdded by how many cones the rest of the cooling added, by the same law; no published source supports or
 *     denies it; empty when nothing is down
 * @param peak the highest temperature
 * @param peakMs when, on the recording's clock
 * @param top whether the top was seen
 * @param gaps how long readings were missing altogether; bridged by straight lines
 */
public record ConeReached(
        ConeSeries series,
        ConePosition cone,
        Interval<ConePosition> between,
        OptionalDouble coolingAdded,
        Temperature peak,
        long peakMs,
        Top top,
        Duration gaps) {
    /** A kiln at its room's temperature is colder, °C. */
    static final double WARM_C = 60;

    /** A studio warms a kiln by as much in a day. */
    private static final double HARDLY_WARMED_K = 12;

    /** Whether the top was seen. */
    public enum Top {
        SEEN,
        /** The last reading stands at the highest: the top is still to come, or the log ends with it. */
        NOT_PASSED,
        /** Readings are missing where the firing turned: the cone is at least this. */
        HIDDEN_BY_GAP,
        /** The first reading is the highest: the top was before it, and the cone is at least this. */
        BEFORE_FIRST_READING,
        /** The sensor stood at the highest number it can give: the top was hotter, and the cone is at least this. */
        AT_SENSORS_END;

        /** Whether the ware may have been hotter than any reading: then the cone is a lower bound only. */
        public boolean hidesMore() {
            return this == HIDDEN_BY_GAP || this == BEFORE_FIRST_READING || this == AT_SENSORS_END;
        }
    }

    /** Whether the cone is a lower bound only, because the top was not seen. */
    public boolean isAtLeast() {
        return top.hidesMore();
    }

    /** The upper end of what it may really be; empty where the top was not seen, as then there is none. */
    public Optional<ConePosition> atMost() {
        return isAtLeast() ? Optional.empty() : Optional.of(between.to());
    }

    /** The same with another range. */
    ConeReached withRange(Interval<ConePosition> range) {
        return new ConeReached(series, cone, range, coolingAdded, peak, peakMs, top, gaps);
    }

    /**
     * Whether these are the readings of a kiln that was not fired.
     *
     * @param first the first of them
     */
    public boolean isHardlyWarmed(Temperature first) {
        return (top == Top.NOT_PASSED || top == Top.SEEN)
                && first.celsius() < WARM_C
                && peak.celsius() - first.celsius() < HARDLY_WARMED_K;
    }

    /** Whether nothing at all is down yet. */
    public boolean isBelowScale() {
        return cone.past().isEmpty();
    }
}
