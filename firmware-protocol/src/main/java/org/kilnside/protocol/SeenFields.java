package org.kilnside.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What one line has said so far, field by field, and the message that makes. Used again for each line, so that nothing is
 * made but the message itself. Confined to one thread.
 */
final class SeenFields {
    private final int[] values = new int[Field.values().length];
    private final int[][] channelValues = new int[Field.values().length][ChannelCodes.MOST];
    private final String[] texts = new String[Field.values().length];
    private final String[][] channelTexts = new String[Field.values().length][ChannelCodes.MOST];

    /** A bit per field without channel, and per channel a bit per field with one. */
    private int seen;

    private final int[] channelSeen = new int[ChannelCodes.MOST];

    void clear() {
        seen = 0;
        for (int channel = 0; channel < ChannelCodes.MOST; channel++) {
            channelSeen[channel] = 0;
        }
    }

    /**
     * A field begins.
     *
     * @param channel counted from 1; 0 for a field without one
     * @return whether it is the first of its key in this line
     */
    boolean begin(Field field, int channel) {
        int bit = 1 << field.ordinal();
        if (channel > 0) {
            boolean first = (channelSeen[channel - 1] & bit) == 0;
            channelSeen[channel - 1] |= bit;
            return first;
        }
        boolean first = (seen & bit) == 0;
        seen |= bit;
        return first;
    }

    void set(Field field, int channel, int value) {
        if (channel > 0) {
            channelValues[field.ordinal()][channel - 1] = value;
        } else {
            values[field.ordinal()] = value;
        }
    }

    void set(Field field, int channel, String text) {
        if (channel > 0) {
            channelTexts[field.ordinal()][channel - 1] = text;
        } else {
            texts[field.ordinal()] = text;
        }
    }

    /** Whether all is there that a line of this kind must have. */
    boolean suffice(int kind) {
        return switch (kind) {
            case 'K' -> has(Field.KEPT_MINUTE) && has(Field.SPAN);
            case 'E' -> has(Field.ASKED_MINUTE) && has(Field.LINES_SENT);
            case 'H' -> has(Field.VERSION);
            default -> true;
        };
    }

    /** The message of a line of this kind, one of R, K, E and H. */
    Message message(int kind, int sequence, long uptimeMs) {
        return switch (kind) {
            case 'R' ->
                new ReadingLine(
                        sequence,
                        uptimeMs,
                        channels(),
                        value(Field.OUTPUT),
                        value(Field.SETPOINT),
                        value(Field.SEGMENT));
            case 'K' ->
                new KeptLine(
                        sequence,
                        uptimeMs,
                        values[Field.KEPT_MINUTE.ordinal()],
                        values[Field.SPAN.ordinal()],
                        channels(),
                        value(Field.OUTPUT),
                        value(Field.SETPOINT),
                        value(Field.SEGMENT));
            case 'E' ->
                new KeptEnd(
                        sequence, uptimeMs, values[Field.ASKED_MINUTE.ordinal()], values[Field.LINES_SENT.ordinal()]);
            default -> hello(sequence, uptimeMs);
        };
    }

    private boolean has(Field field) {
        return (seen & 1 << field.ordinal()) != 0;
    }

    private OptionalInt value(Field field) {
        return has(field) ? field.known(values[field.ordinal()]) : OptionalInt.empty();
    }

    private Optional<String> textOf(Field field) {
        return has(field) ? Optional.of(texts[field.ordinal()]) : Optional.empty();
    }

    private OptionalInt value(Field field, int channel) {
        return (channelSeen[channel] & 1 << field.ordinal()) != 0
                ? field.known(channelValues[field.ordinal()][channel])
                : OptionalInt.empty();
    }

    private Optional<String> textOf(Field field, int channel) {
        return (channelSeen[channel] & 1 << field.ordinal()) != 0
                ? Optional.of(channelTexts[field.ordinal()][channel])
                : Optional.empty();
    }

    private List<ChannelCodes> channels() {
        if (channelSeen[0] != 0 && (channelSeen[1] | channelSeen[2] | channelSeen[3]) == 0) {
            return List.of(codes(0));
        }
        List<ChannelCodes> channels = new ArrayList<>(2);
        for (int channel = 0; channel < ChannelCodes.MOST; channel++) {
            if (channelSeen[channel] != 0) {
                channels.add(codes(channel));
            }
        }
        return channels;
    }

    private ChannelCodes codes(int channel) {
        boolean saysFaults = (channelSeen[channel] & 1 << Field.FAULT_BITS.ordinal()) != 0;
        return new ChannelCodes(
                channel + 1,
                value(Field.THERMOCOUPLE, channel),
                value(Field.COLD_JUNCTION, channel),
                saysFaults ? value(Field.FAULT_BITS, channel) : ChannelCodes.NO_FAULT);
    }

    private Hello hello(int sequence, long uptimeMs) {
        List<Hello.HelloChannel> channels = new ArrayList<>(2);
        for (int channel = 0; channel < ChannelCodes.MOST; channel++) {
            if (channelSeen[channel] != 0) {
                channels.add(new Hello.HelloChannel(
                        channel + 1, textOf(Field.THERMOCOUPLE_TYPE, channel), textOf(Field.AMPLIFIER, channel)));
            }
        }
        return new Hello(
                sequence,
                uptimeMs,
                values[Field.VERSION.ordinal()],
                textOf(Field.DEVICE),
                textOf(Field.FIRMWARE),
                value(Field.CHANNELS),
                channels,
                value(Field.LINE_INTERVAL),
                value(Field.MINUTES_KEPT),
                value(Field.RESET_CAUSE));
    }
}
