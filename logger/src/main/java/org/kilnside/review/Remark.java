package org.kilnside.review;

import java.util.List;

/**
 * What a review rests on and cannot know.
 *
 * @param amounts in the order in which the text of the kind names them
 */
public record Remark(Kind kind, List<Amount> amounts) {
    public Remark {
        amounts = List.copyOf(amounts);
    }

    static Remark of(Kind kind, Amount... amounts) {
        return new Remark(kind, List.of(amounts));
    }

    /** What is to be known; behind each, what its amounts are. */
    public enum Kind {
        /** The plan brings no cone down. */
        PLAN_WITHOUT_CONE,
        /** The firing went to a temperature, the plan to another: perhaps not its plan. */
        PLAN_OF_ANOTHER_FIRING,
        /** The log begins at a temperature. */
        BEGINS_WARM,
        /** The log begins within the last ramp or at the top. */
        BEGINS_NEAR_TOP,
        /** The log ends with the top: the cooling is taken as a kiln's usual one. */
        NO_COOLING,
        /** The log ends while it is still heating, at a temperature. */
        ENDS_HEATING,
        /** No readings for so long where the firing turned. */
        TOP_HIDDEN,
        /** No readings for so long on the way. */
        GAP,
        /** So many false readings were left out. */
        FALSE_READINGS,
        /** A lasting jump of the number. */
        JUMP,
        /** Without witness cones nobody knows how far the sensor is off. */
        NO_WITNESS,
        /** A pack contradicts itself: shelf, softer cone, harder cone. */
        PACK_CONTRADICTS_ITSELF,
        /** The cones are off the curve by more than a sensor can be: span. */
        CONES_CONTRADICT_CURVE,
        /** No error of the sensor explains a pack: shelf. */
        PACK_FITS_NOTHING,
        /** The sensor has drifted by a span over so many firings with cones, by a span a firing. */
        SENSOR_DRIFTS,
        /** The log has neither set-point nor output. */
        NO_CONTROLLER
    }
}
