package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.Probe;

/**
 * Where readings come from. The world fills this port; whatever the link (serial, TCP, replay, virtual kiln), the same
 * bytes have gone through the same reader before anything arrives here.
 */
public interface ReadingSource extends AutoCloseable {
    /** The link in the notation a person types, such as {@code serial:/dev/ttyUSB0?baud=115200}. */
    String notation();

    /** Kiln time over host time: 1 for a real kiln, more for a replay or a virtual kiln that runs faster. */
    double speed();

    /** Opens the link and begins to deliver, on the link's own thread. Returns at once; failures go to the listener. */
    void start(Listener listener);

    /**
     * Asks the controller to send what it kept since an uptime; a controller may ignore it, and a link that cannot
     * ask does nothing.
     *
     * @param sinceUptimeMs the uptime in ms from which readings are missing
     */
    void askForKept(long sinceUptimeMs);

    /** The last lines as they came over the wire. From any thread; never waits for the wire, nor it for this. */
    LineView lines();

    /** Closes the link for good. Waits for its thread; nothing is delivered afterwards. */
    @Override
    void close();

    /** Takes what arrives; called on the link's thread, and must return at once. */
    interface Listener {
        /** The controller said who it is: at its boot, each minute, or when asked. */
        void controllerSaidHello(ControllerHello hello);

        /** A reading arrived. */
        void readingArrived(Arrival arrival);

        /** The connection changed, or its counts did. */
        void connectionChanged(Connection connection);
    }

    /**
     * One reading as it came off the wire.
     *
     * @param uptimeMs the controller's uptime in ms as sent (wraps at 2³²); empty when the controller gives none.
     *     For a filled-in reading the beginning of its minute, negative when that was before the controller's last start
     * @param sequence the line's sequence number; empty when it gives none
     * @param channels the channels of the line, converted by the probe known so far; never empty
     * @param controller what the controller says of itself
     * @param origin live, or filled in from what the controller kept
     * @param hostMs the host's monotonic clock at reception, ms
     */
    record Arrival(
            OptionalLong uptimeMs,
            OptionalInt sequence,
            List<Channel> channels,
            ControllerReport controller,
            Origin origin,
            long hostMs) {
        public Arrival {
            channels = List.copyOf(channels);
        }

        /** This arrival as a reading at a time of the recording. */
        public Reading at(long elapsedMs) {
            return Reading.of(elapsedMs, channels, controller, origin);
        }
    }

    /**
     * Who the controller says it is.
     *
     * @param device its name; empty when it gives none
     * @param firmware its firmware's name and version; empty when it gives none
     * @param probes what stands behind each channel, channel 1 first
     * @param lineIntervalMs ms between its lines; empty when it does not say
     * @param uptimeMs its uptime in ms as sent
     */
    record ControllerHello(
            Optional<String> device,
            Optional<String> firmware,
            List<Probe> probes,
            OptionalInt lineIntervalMs,
            OptionalLong uptimeMs) {
        public ControllerHello {
            probes = List.copyOf(probes);
        }
    }
}
