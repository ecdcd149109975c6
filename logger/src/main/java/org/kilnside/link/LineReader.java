package org.kilnside.link;

import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.session.Connection;
import org.kilnside.session.ReadingSource.Arrival;
import org.kilnside.session.ReadingSource.ControllerHello;

/** From bytes to arrivals: the protocol's own lines, or a controller's by a pattern. Confined to the link's thread. */
interface LineReader {
    /** Takes bytes received at a host time. */
    void take(byte[] buffer, int length, long hostMs);

    /** The stream was opened anew, likely in the middle of a line. */
    void joinMidStream();

    /** Hands over what waits for more that will not come. */
    void flush();

    Connection.Counts counts();

    /** Milliseconds between lines, where the controller says so. */
    OptionalInt lineIntervalMs();

    /** One sentence on what is wrong with what the lines say; empty when nothing is. */
    Optional<String> trouble();

    /** Takes what the lines say. */
    interface Ears {
        /** A line came with this uptime; hello also says why the controller started. */
        void uptime(long uptimeMs, OptionalInt resetCauseBits);

        void hello(ControllerHello hello);

        void arrival(Arrival arrival);
    }

    /** Makes a reader for a link's lifetime. */
    interface Maker {
        LineReader make(Ears ears, HeardLines heard);
    }
}
