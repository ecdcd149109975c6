package org.kilnside.review;

import java.util.List;

/**
 * One thing seen that speaks for a cause.
 *
 * @param amounts in the order in which the text of the kind names them
 */
public record Evidence(Kind kind, List<Amount> amounts) {
    public Evidence {
        amounts = List.copyOf(amounts);
    }

    static Evidence of(Kind kind, Amount... amounts) {
        return new Evidence(kind, List.of(amounts));
    }

    /** What was seen; behind each, what its amounts are. */
    public enum Kind {
        /** Top, hold and last ramp were those of the plan: level, minutes, rate. */
        TOP_HOLD_RAMP_AS_PLANNED,
        /** The highest the controller asked for; what the plan says. */
        ASKED_TOP,
        /** The level that was held; what the plan says. */
        HELD_AT,
        /** How long it was at the top; what the plan says. */
        HELD_FOR,
        /** The rate of the last 100 °C; what the plan says. */
        LAST_RAMP,
        /** The rate of the set-point over the last 100 °C; what the plan says. */
        ASKED_RATE,
        /** Output at its end for so long before the top was left. */
        FULL_OUTPUT,
        /** It fell, though more slowly than without any heat, while the output stood at its end: from, at. */
        GAVE_WAY_AT_FULL_OUTPUT,
        /** So far below the set-point on average over the last half hour of heating. */
        BEHIND_SETPOINT,
        /** The rate fell away: from, to. */
        RATE_FELL_AWAY,
        /** A step in the power: when, at what temperature, by which part. */
        POWER_STEP,
        /** The power came back: when. */
        POWER_BACK,
        /** Against the kiln's earlier firings the power is down by a part; how many firings. */
        POWER_AGAINST_EARLIER,
        /** It has fallen by a part a firing over so many firings. */
        POWER_FALLS,
        /** The power was short by a part of what the last ramp needs. */
        POWER_SHORT,
        /** The kiln fell from a temperature at a time while the controller still asked for heat. */
        FELL_WHILE_ASKING,
        /** Readings stopped at a time, for so long; the temperatures before and after. */
        FELL_IN_GAP,
        /** The log stops at a temperature and a time while the kiln was still rising. */
        LOG_ENDS_HEATING,
        /** The heat went off at a time and a temperature and came back so much later. */
        INTERRUPTED,
        /** The output went to nothing at a time and a temperature, the plan not done. */
        OUTPUT_ENDED,
        /** The heat ended at a time and a temperature, the plan not done. */
        HEAT_ENDED,
        /** Witness cones: the ware was hotter by a span than the sensor read; how far that may be off. */
        WARE_WAS_HOTTER,
        /** Witness cones: the ware was colder by a span than the sensor read; how far that may be off. */
        WARE_WAS_COLDER,
        /** From earlier firings or comparisons: the sensor reads too low by a span. */
        KNOWN_TO_READ_LOW,
        /** From earlier firings or comparisons: the sensor reads too high by a span. */
        KNOWN_TO_READ_HIGH,
        /** The difference of the shelves. */
        SHELVES_DIFFER,
        /** Shelf, and by how much it was hotter than the sensor read. */
        SHELF_HOTTER,
        /** Shelf, and by how much it was colder than the sensor read. */
        SHELF_COLDER,
        /** What an amplifier that does not linearise reads too low: span, at a temperature. */
        AMPLIFIER_ERROR,
        /** The numbers of the log come in quarter degrees, as such a chip gives them. */
        QUARTER_DEGREES,
        /** The controller held a number while the sensor, corrected, says another: set-point, true. */
        STEERED_BY_RAW_NUMBER,
        /** No readings from a time on for so long. */
        NO_READINGS,
        /** The log begins at a temperature, falling already. */
        LOG_BEGINS_FALLING,
        /** The same number for so long, at a temperature. */
        FROZEN,
        /** A range of the cooling: from, to, took, planned. */
        COOLED_IN,
        /** A range of the cooling: from, to, took, this kiln's usual. */
        COOLED_IN_USUALLY,
        /** A range of the cooling: from, to, took, what this kiln by itself would have taken by the rest of its fall. */
        COOLED_IN_BY_ITSELF
    }
}
