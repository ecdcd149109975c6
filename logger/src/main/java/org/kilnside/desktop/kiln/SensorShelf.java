package org.kilnside.desktop.kiln;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kilnside.book.ComparedPoint;
import org.kilnside.book.FittedSensor;
import org.kilnside.book.KilnEdit;
import org.kilnside.book.KilnHistory;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.SensorInPlace;

/** What the book knows of the kilns' sensors: a port the app fills. Every method waits for the disk, but {@link #now}. */
public interface SensorShelf {
    /** The time of day. Never waits. */
    Instant now();

    /**
     * All sensors a kiln has had, by channel, oldest first; none where there is no book yet.
     *
     * @throws RefusedException with one sentence when the book cannot be read
     */
    List<Known> sensors(String kiln);

    /**
     * Notes that a sensor was fitted; the one on its channel until then is taken out.
     *
     * @return the change, to be undone
     */
    KilnEdit fit(String kiln, int channel, SensorInPlace sensor, Instant at);

    /**
     * Notes a comparison.
     *
     * @param everywhere whether the correction is the same at all temperatures
     * @return the change, to be undone
     */
    KilnEdit compare(String kiln, long sensor, Calibration.Point point, boolean everywhere);

    /**
     * Does a change, or undoes one by its inverse.
     *
     * @throws ChangedElsewhereException when what is to be changed is no longer as it was; nothing is changed then
     */
    void apply(String kiln, KilnEdit edit);

    /** Another window has changed what was to be changed. */
    final class ChangedElsewhereException extends RuntimeException {
        private static final long serialVersionUID = 1L;

        public ChangedElsewhereException(Throwable cause) {
            super(cause);
        }
    }

    /**
     * One sensor with all that is known of it.
     *
     * @param fitted which it is, where and since when
     * @param sensor the same, with its calibration as it is now; showing the temperature where the book noted it by itself,
     *     so that nobody was asked what the controller shows
     * @param points what comparisons said
     * @param offsets what witness cones said
     * @param driftKPerFiring how much more the cones ask for from firing to firing, where they do
     */
    record Known(
            FittedSensor fitted,
            SensorInPlace sensor,
            List<ComparedPoint> points,
            List<KilnHistory.OffsetOfFiring> offsets,
            Optional<Double> driftKPerFiring) {
        public Known {
            points = List.copyOf(points);
            offsets = List.copyOf(offsets);
        }

        boolean isInPlace() {
            return fitted.removedAt().isEmpty();
        }
    }
}
