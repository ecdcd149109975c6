package org.kilnside.firing;

import java.util.List;
import java.util.Set;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.SensorFault;

/**
 * What one line of the controller said about one instant. The first channel decides what kind of reading it is.
 *
 * <p>Elapsed time is the controller's own: milliseconds since the recording's zero, the 32-bit wrap of its uptime
 * already bridged. It never falls within a firing but where a gap is filled in.
 */
public sealed interface Reading permits Reading.Measured, Reading.Faulted, Reading.Missing {
    /** Milliseconds since the recording's zero, on the controller's clock. */
    long elapsedMs();

    /** All channels the line carried, the guiding one first; never empty. */
    List<Channel> channels();

    ControllerReport controller();

    Origin origin();

    default Channel first() {
        return channels().get(0);
    }

    /** A good temperature on the guiding channel. */
    record Measured(long elapsedMs, List<Channel> channels, ControllerReport controller, Origin origin)
            implements Reading {
        public Measured {
            channels = List.copyOf(channels);
            if (channels.get(0).temperature().isEmpty()) {
                throw new IllegalArgumentException("a measured reading has a temperature on its first channel");
            }
        }

        public Temperature temperature() {
            return first().temperature().orElseThrow();
        }
    }

    /** The amplifier reports a fault on the guiding channel: there is no temperature to trust. */
    record Faulted(long elapsedMs, List<Channel> channels, ControllerReport controller, Origin origin)
            implements Reading {
        public Faulted {
            channels = List.copyOf(channels);
        }

        public Set<SensorFault> faults() {
            return SensorFault.ofBits(first().raw().faultBits());
        }
    }

    /** The line came, but says the temperature is unknown or gives one the thermocouple cannot have. */
    record Missing(long elapsedMs, List<Channel> channels, ControllerReport controller, Origin origin)
            implements Reading {
        public Missing {
            channels = List.copyOf(channels);
        }
    }

    /** The kind of reading these channels make: faulted when the first reports a fault, missing when it has no temperature. */
    static Reading of(long elapsedMs, List<Channel> channels, ControllerReport controller, Origin origin) {
        Channel first = channels.get(0);
        if (first.raw().faultBits() != 0) {
            return new Faulted(elapsedMs, channels, controller, origin);
        }
        return first.temperature().isEmpty()
                ? new Missing(elapsedMs, channels, controller, origin)
                : new Measured(elapsedMs, channels, controller, origin);
    }
}
