package org.kilnside.link;

import java.util.OptionalInt;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;

/** A kiln and controller that exist in the computer alone, stepped second by second. Confined to the link's thread. */
public interface VirtualController {
    /** What its controller calls itself: 1 to 16 letters, digits, dots, dashes or underscores. */
    String device();

    /** What stands behind its one channel. */
    Probe probe();

    /** Lets one second of kiln time pass. */
    Said next();

    /** Whether the firing and its cooling are through. */
    boolean finished();

    /**
     * What the controller has to say after a second.
     *
     * @param signal what its amplifier gave
     * @param outputPermille element output 0 … 1000
     * @param setpointTenths set-point in 0.1 °C; empty when there is none
     * @param segment the segment it is in, from 1; empty when in none
     */
    record Said(RawSignal signal, OptionalInt outputPermille, OptionalInt setpointTenths, OptionalInt segment) {}
}
