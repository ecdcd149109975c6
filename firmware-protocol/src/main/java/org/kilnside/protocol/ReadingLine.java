package org.kilnside.protocol;

import java.util.List;
import java.util.OptionalInt;

/**
 * A reading as it was taken (kind R).
 *
 * @param channels the channels of this line, at most two, in rising order; empty when the line carries none
 * @param outputPermille element output 0 … 1000; empty when not said
 * @param setpointTenths set-point in 0.1 °C; empty when not said
 * @param segment the controller's segment from 1; empty when not said
 */
public record ReadingLine(
        int sequence,
        long uptimeMs,
        List<ChannelCodes> channels,
        OptionalInt outputPermille,
        OptionalInt setpointTenths,
        OptionalInt segment)
        implements Message {
    public ReadingLine {
        Message.checkHead(sequence, uptimeMs);
        channels = List.copyOf(channels);
    }
}
