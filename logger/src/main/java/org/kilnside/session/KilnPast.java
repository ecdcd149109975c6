package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.SensorInPlace;

/**
 * What is known of the kiln from before this firing: the port through which the live firing learns from the book. Its
 * methods read from the disk and may take seconds; they are asked on the forecast's thread or on one of their own,
 * never on the session's.
 */
public interface KilnPast {
    /** Nothing is known. */
    KilnPast NONE = new KilnPast() {
        @Override
        public Optional<SensorInPlace> guide() {
            return Optional.empty();
        }

        @Override
        public List<Trace> earlier(long firing) {
            return List.of();
        }
    };

    /** The guiding sensor with all that is known of it now; empty when nobody has told. */
    Optional<SensorInPlace> guide();

    /** The true curves of this kiln's last firings before one, oldest first. */
    List<Trace> earlier(long firing);
}
