package org.kilnside.protocol;

import java.nio.charset.StandardCharsets;
import java.util.OptionalInt;

/** Writes messages as lines, as a controller would; used by the virtual kiln, by tests and by recorded streams. */
public final class LineEncoder {
    private LineEncoder() {}

    /**
     * The line with its LF.
     *
     * @throws IllegalArgumentException when a value is outside its range or the line would be longer than 120 bytes
     */
    public static byte[] encode(Message message) {
        StringBuilder line = new StringBuilder(LineFramer.LONGEST);
        if (message instanceof ReadingLine reading) {
            head(line, 'R', message);
            for (ChannelCodes codes : reading.channels()) {
                channel(line, codes);
            }
            put(line, Field.OUTPUT, reading.outputPermille());
            put(line, Field.SETPOINT, reading.setpointTenths());
            put(line, Field.SEGMENT, reading.segment());
        } else if (message instanceof KeptLine kept) {
            head(line, 'K', message);
            put(line, Field.KEPT_MINUTE, OptionalInt.of(kept.minute()));
            put(line, Field.SPAN, OptionalInt.of(kept.minutesCovered()));
            for (ChannelCodes codes : kept.channels()) {
                channel(line, codes);
            }
            put(line, Field.OUTPUT, kept.outputPermille());
            put(line, Field.SETPOINT, kept.setpointTenths());
            put(line, Field.SEGMENT, kept.segment());
        } else if (message instanceof KeptEnd kept) {
            head(line, 'E', message);
            put(line, Field.ASKED_MINUTE, OptionalInt.of(kept.fromMinute()));
            put(line, Field.LINES_SENT, OptionalInt.of(kept.sent()));
        } else if (message instanceof Hello hello) {
            head(line, 'H', message);
            hello(line, hello);
        }
        return closed(line);
    }

    /** Puts checksum and LF behind the text of a line. */
    static byte[] closed(StringBuilder line) {
        byte[] text = line.toString().getBytes(StandardCharsets.US_ASCII);
        line.append(String.format(" ~%04X\n", Crc16.of(text, 0, text.length)));
        if (line.length() > LineFramer.LONGEST) {
            throw new IllegalArgumentException("a line has at most 120 bytes, found " + line.length());
        }
        return line.toString().getBytes(StandardCharsets.US_ASCII);
    }

    private static void hello(StringBuilder line, Hello hello) {
        put(line, Field.VERSION, OptionalInt.of(hello.version()));
        hello.device().ifPresent(text -> line.append(" d=").append(text(text)));
        hello.firmware().ifPresent(text -> line.append(" w=").append(text(text)));
        put(line, Field.CHANNELS, hello.channelCount());
        for (Hello.HelloChannel channel : hello.channels()) {
            channel.thermocouple()
                    .ifPresent(text -> line.append(" p")
                            .append(channel.number())
                            .append('=')
                            .append(text(text)));
            channel.amplifier()
                    .ifPresent(text -> line.append(" a")
                            .append(channel.number())
                            .append('=')
                            .append(text(text)));
        }
        put(line, Field.LINE_INTERVAL, hello.lineIntervalMs());
        put(line, Field.MINUTES_KEPT, hello.keptMinutes());
        put(line, Field.RESET_CAUSE, hello.resetCauseBits());
    }

    private static void head(StringBuilder line, char kind, Message message) {
        line.append(kind).append(' ').append(message.sequence()).append(' ').append(message.uptimeMs());
    }

    private static void channel(StringBuilder line, ChannelCodes codes) {
        put(line, Field.THERMOCOUPLE, codes.number(), codes.thermocouple());
        put(line, Field.COLD_JUNCTION, codes.number(), codes.coldJunction());
        if (codes.faultBits().isEmpty()) {
            line.append(" f").append(codes.number()).append('=').append(Field.FAULT_BITS.unknown.getAsInt());
        } else if (codes.faultBits().getAsInt() != 0) {
            put(line, Field.FAULT_BITS, codes.number(), codes.faultBits());
        }
    }

    private static void put(StringBuilder line, Field field, OptionalInt value) {
        if (value.isPresent()) {
            line.append(' ').append(field.key).append('=').append(checked(field, value.getAsInt()));
        }
    }

    private static void put(StringBuilder line, Field field, int channel, OptionalInt value) {
        if (value.isPresent()) {
            line.append(' ').append(field.key).append(channel).append('=').append(checked(field, value.getAsInt()));
        }
    }

    private static int checked(Field field, int value) {
        if (value < field.minimum || value > field.maximum) {
            throw new IllegalArgumentException(
                    "field " + field.key + " lies in " + field.minimum + " … " + field.maximum + ", found " + value);
        }
        return value;
    }

    private static String text(String text) {
        if (!text.matches("[A-Za-z0-9._-]{1,16}")) {
            throw new IllegalArgumentException(
                    "a text has 1 to 16 letters, digits, dots, dashes or underscores, found \"" + text + "\"");
        }
        return text;
    }
}
