package org.kilnside.protocol;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * The controller says who it is (kind H): as its first line after a start, each minute, and when asked.
 *
 * @param version of the protocol
 * @param device its name; empty when not said
 * @param firmware its firmware's name and version; empty when not said
 * @param channelCount how many channels the controller has; empty when not said
 * @param channels what this line says of single channels, in rising order; those of a controller with more than two
 *     come in further lines
 * @param lineIntervalMs ms between its readings; empty when not said
 * @param keptMinutes how many minutes back it keeps readings, 0 for none; empty when not said
 * @param resetCauseBits why it started last, in the bits of its own chip; empty when not said
 */
public record Hello(
        int sequence,
        long uptimeMs,
        int version,
        Optional<String> device,
        Optional<String> firmware,
        OptionalInt channelCount,
        List<HelloChannel> channels,
        OptionalInt lineIntervalMs,
        OptionalInt keptMinutes,
        OptionalInt resetCauseBits)
        implements Message {
    public Hello {
        Message.checkHead(sequence, uptimeMs);
        channels = List.copyOf(channels);
    }

    /**
     * What stands behind one channel.
     *
     * @param number the channel, 1 … 4
     * @param thermocouple the letter of IEC 60584-1; empty when not said
     * @param amplifier the amplifier's name as the protocol spells it; empty when not said
     */
    public record HelloChannel(int number, Optional<String> thermocouple, Optional<String> amplifier) {}
}
