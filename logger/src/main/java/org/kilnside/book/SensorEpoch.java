package org.kilnside.book;

import java.util.List;
import org.kilnside.sensor.Probe;

/**
 * What stood behind the channels from a time on.
 *
 * @param fromElapsedMs from when, on the recording's clock, ms
 * @param probes channel 1 first
 */
public record SensorEpoch(long fromElapsedMs, List<Probe> probes) {
    public SensorEpoch {
        probes = List.copyOf(probes);
    }
}
