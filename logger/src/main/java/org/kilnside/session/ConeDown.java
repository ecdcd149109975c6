package org.kilnside.session;

import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.heatwork.Cone;

/**
 * When the cone a plan aims for is down.
 *
 * @param cone which
 * @param when empty where that cannot be said
 * @param whyNot why it cannot
 */
public record ConeDown(Cone cone, Optional<When> when, Optional<WhyNot> whyNot) {
    /**
     * The time with the interval that holds it nine times in ten: all that the kiln, the sensor and the chart may make of it.
     *
     * @param atMs probably, ms on the recording's clock
     * @param toMs empty where the firing may end short of the cone
     */
    public record When(long atMs, long fromMs, OptionalLong toMs) {}

    /** Why there is no time. */
    public enum WhyNot {
        /** By the curve it is down already. */
        IS_DOWN,
        /** As the firing goes on it does not come to it. */
        NOT_ON_ITS_WAY,
        /** The kiln falls short of its top, and how it goes on from here is not known. */
        WAY_NOT_KNOWN
    }

    static ConeDown at(Cone cone, When when) {
        return new ConeDown(cone, Optional.of(when), Optional.empty());
    }

    static ConeDown unsaid(Cone cone, WhyNot why) {
        return new ConeDown(cone, Optional.empty(), Optional.of(why));
    }
}
