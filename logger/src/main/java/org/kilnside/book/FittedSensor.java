package org.kilnside.book;

import java.time.Instant;
import java.util.Optional;
import org.kilnside.sensor.SensorInPlace;

/**
 * A sensor that stands or stood in a kiln.
 *
 * @param number its number in the book
 * @param kiln the kiln's name, as in its firings
 * @param channel 1 is the channel that guides
 * @param sensor what it is and where its tip is; without its calibration, which {@link KilnHistory} works out
 * @param fittedAt since when it has been there
 * @param removedAt until when; empty while it is there
 */
public record FittedSensor(
        long number, String kiln, int channel, SensorInPlace sensor, Instant fittedAt, Optional<Instant> removedAt) {
    public FittedSensor {
        if (channel < 1 || channel > 4) {
            throw new IllegalArgumentException("a controller has the channels 1 to 4, found " + channel);
        }
    }

    /** The same, taken out. */
    FittedSensor removed(Instant at) {
        return new FittedSensor(number, kiln, channel, sensor, fittedAt, Optional.of(at));
    }

    /** Whether it was there at a moment. */
    boolean wasThere(Instant at) {
        return !at.isBefore(fittedAt) && removedAt.map(at::isBefore).orElse(true);
    }
}
