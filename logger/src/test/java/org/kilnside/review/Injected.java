package org.kilnside.review;

/** What is done to a simulated firing. */
enum Injected {
    TOP_LOW(CauseCode.TOP_LOW),
    HOLD_SHORT(CauseCode.HOLD_SHORT),
    RAMP_FAST(CauseCode.RAMP_FAST),
    RAMP_SLOW(CauseCode.RAMP_SLOW),
    WEAK_ELEMENTS(CauseCode.WEAK_ELEMENTS),
    ONE_PHASE_LOST(CauseCode.ONE_PHASE_LOST),
    MAINS_SAG(CauseCode.MAINS_SAG),
    POWER_CUT(CauseCode.POWER_CUT),
    ENDED_EARLY(CauseCode.ENDED_EARLY),
    SENSOR_READS_HIGH(CauseCode.SENSOR_READS_HIGH),
    SENSOR_READS_LOW(CauseCode.SENSOR_READS_LOW),
    AMPLIFIER_UNCORRECTED(CauseCode.AMPLIFIER_UNCORRECTED),
    SENSOR_FAULT(CauseCode.SENSOR_FAULT),
    COOLING_FAST(CauseCode.COOLING_FAST),
    COOLING_SLOW(CauseCode.COOLING_SLOW),
    UNEVEN(CauseCode.UNEVEN),
    OVER_FIRED_TOP(CauseCode.OVER_FIRED_TOP),
    OVER_FIRED_HOLD(CauseCode.OVER_FIRED_HOLD);

    final CauseCode code;

    Injected(CauseCode code) {
        this.code = code;
    }
}
