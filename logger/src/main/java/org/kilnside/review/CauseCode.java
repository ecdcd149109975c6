package org.kilnside.review;

import java.util.Locale;

/** What may have made a firing come out otherwise than planned; the codes are a contract and never change meaning. */
public enum CauseCode {
    /** Nothing that the curve, the controller or the witness cones can show. */
    AS_PLANNED,
    /** The controller was told, or settled for, a lower top than the plan's. */
    TOP_LOW,
    /** The hold at the top was shorter than planned. */
    HOLD_SHORT,
    /** The last 100 °C were faster than planned. */
    RAMP_FAST,
    /** The last 100 °C were slower than planned. */
    RAMP_SLOW,
    /** Full output, and still not enough heat: aged elements, or too much load for them. */
    WEAK_ELEMENTS,
    /** A third of the power, about, went at once: a ring, a relay or a phase. */
    ONE_PHASE_LOST,
    /** The mains gave less for a while. */
    MAINS_SAG,
    /** The kiln's power went while the controller still wanted heat. */
    POWER_CUT,
    /** The firing was ended before its plan was done, by a hand or by the controller. */
    ENDED_EARLY,
    /** The sensor says more than the ware has. */
    SENSOR_READS_HIGH,
    /** The sensor says less than the ware has. */
    SENSOR_READS_LOW,
    /** The controller steers by an amplifier's number that nobody corrects. */
    AMPLIFIER_UNCORRECTED,
    /** The sensor failed, or readings are missing, where it mattered. */
    SENSOR_FAULT,
    /** It cooled faster than the plan, or than this kiln does. */
    COOLING_FAST,
    /** It cooled more slowly than the plan, or than this kiln does. */
    COOLING_SLOW,
    /** The shelves differ. */
    UNEVEN,
    /** It went higher than planned. */
    OVER_FIRED_TOP,
    /** It was held longer than planned. */
    OVER_FIRED_HOLD;

    /** As it stands in JSON. */
    public String code() {
        return name().toLowerCase(Locale.ROOT);
    }
}
