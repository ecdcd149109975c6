package org.kilnside.thermal;

import java.util.Comparator;
import java.util.List;

/**
 * Something done to a kiln's openings at a known moment: what a person noted, so that nobody has to guess it from the
 * curve.
 *
 * @param sinceS when, s on the recording's clock
 * @param how what was done
 */
public record Ventilated(double sinceS, How how) {
    /** What was done. */
    public enum How {
        /** Everything shut again. */
        SHUT,
        /** A bung or peep-hole plug pulled. */
        BUNG_OUT,
        /** A vent's fan on. */
        VENT_ON,
        /** The lid propped, or the door ajar: from here on the sensor reads air. */
        LID_PROPPED
    }

    /** In the order of time; of those at one moment the last said counts. */
    static List<Ventilated> inOrder(List<Ventilated> all) {
        return all.stream()
                .sorted(Comparator.comparingDouble(Ventilated::sinceS))
                .toList();
    }
}
