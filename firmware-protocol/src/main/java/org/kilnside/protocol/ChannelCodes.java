package org.kilnside.protocol;

import java.util.OptionalInt;

/**
 * What one channel's amplifier said, to the code.
 *
 * @param number the channel, 1 … 4
 * @param thermocouple the chip's thermocouple code, in the steps of the amplifier that hello named; empty when unknown
 * @param coldJunction its cold-junction code; empty when unknown
 * @param faultBits 1 open circuit, 2 short to ground, 4 short to supply, 8 out of range, 16 cold junction out of range,
 *     32 input voltage, 64 the chip does not answer; 0 when none is reported, empty when the
 *     controller says it does not know
 */
public record ChannelCodes(int number, OptionalInt thermocouple, OptionalInt coldJunction, OptionalInt faultBits) {
    /** The most channels a controller can have. */
    public static final int MOST = 4;

    /** No fault reported; what a line without the field says. */
    public static final OptionalInt NO_FAULT = OptionalInt.of(0);

    public ChannelCodes {
        if (number < 1 || number > MOST) {
            throw new IllegalArgumentException("channels are numbered 1 … 4, found " + number);
        }
    }
}
