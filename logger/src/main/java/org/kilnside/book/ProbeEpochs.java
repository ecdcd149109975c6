package org.kilnside.book;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.Thermometer;

/** What stood behind each channel, and from when on; until the controller has said, a probe whose °C are taken as they are. */
final class ProbeEpochs {
    private static final Thermometer UNTIL_SAID = Thermometer.of(Probe.UNKNOWN);

    private final Map<Integer, TreeMap<Long, Thermometer>> byChannel = new HashMap<>();

    ProbeEpochs(List<SensorEpoch> epochs) {
        for (SensorEpoch epoch : epochs) {
            for (int i = 0; i < epoch.probes().size(); i++) {
                byChannel
                        .computeIfAbsent(i + 1, channel -> new TreeMap<>())
                        .put(
                                epoch.fromElapsedMs(),
                                Thermometer.of(epoch.probes().get(i)));
            }
        }
    }

    Thermometer at(int channel, long elapsedMs) {
        TreeMap<Long, Thermometer> epochs = byChannel.get(channel);
        if (epochs == null) {
            return UNTIL_SAID;
        }
        Map.Entry<Long, Thermometer> epoch = epochs.floorEntry(elapsedMs);
        return epoch == null ? UNTIL_SAID : epoch.getValue();
    }

    /** When a channel next has another probe, ms; +∞ when it keeps this one. */
    long nextChangeMs(int channel, long elapsedMs) {
        TreeMap<Long, Thermometer> epochs = byChannel.get(channel);
        Long next = epochs == null ? null : epochs.higherKey(elapsedMs);
        return next == null ? Long.MAX_VALUE : next;
    }
}
