package org.kilnside.protocol;

import java.util.List;
import java.util.OptionalInt;

/**
 * A reading the controller had kept, sent because the host asked (kind K).
 *
 * @param minute the uptime minute it stands for
 * @param minutesCovered how many minutes one such reading stands for, from {@code minute} on
 * @param channels as in a {@link ReadingLine}
 * @param outputPermille element output 0 … 1000; empty when not said
 * @param setpointTenths set-point in 0.1 °C; empty when not said
 * @param segment the controller's segment from 1; empty when not said
 */
public record KeptLine(
        int sequence,
        long uptimeMs,
        int minute,
        int minutesCovered,
        List<ChannelCodes> channels,
        OptionalInt outputPermille,
        OptionalInt setpointTenths,
        OptionalInt segment)
        implements Message {
    public KeptLine {
        Message.checkHead(sequence, uptimeMs);
        channels = List.copyOf(channels);
    }
}
