package org.kilnside.session;

import java.util.Optional;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Reading;

/** Whether the sensor reports a fault, as something that begins and ends. Confined to the session's thread. */
final class FaultWatch {
    /** A loose wire that comes and goes must not fill the record. */
    private static final int GOOD_IN_A_ROW = 10;

    private boolean faulted;
    private int goodSince;

    /** Takes the next reading; says what happened with it, if anything did. */
    Optional<FiringEvent> take(Reading reading) {
        if (reading instanceof Reading.Faulted its) {
            goodSince = 0;
            if (!faulted) {
                faulted = true;
                return Optional.of(FiringEvent.of(
                        reading.elapsedMs(), Kind.SENSOR_FAULT, its.faults().toString()));
            }
        } else if (faulted && reading instanceof Reading.Measured && ++goodSince >= GOOD_IN_A_ROW) {
            faulted = false;
            return Optional.of(FiringEvent.of(reading.elapsedMs(), Kind.SENSOR_BACK));
        }
        return Optional.empty();
    }
}
