package org.kilnside.protocol;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Reads one line at a time. Works on the bytes as they are and makes nothing but the message itself, because a replay
 * goes through here at millions of lines a second. Confined to one thread.
 */
public final class LineDecoder {
    /** A space, a tilde and four hexadecimal digits. */
    private static final int TAIL = 6;

    private static final int MOST_UNKNOWN_KEYS = LineFramer.LONGEST / 4;
    private static final int LONGEST_TEXT = 16;

    private final int[] values = new int[Field.values().length];
    private final int[][] channelValues = new int[Field.values().length][ChannelCodes.MOST];
    private final String[] texts = new String[Field.values().length];
    private final String[][] channelTexts = new String[Field.values().length][ChannelCodes.MOST];
    private final int[] unknownKeys = new int[MOST_UNKNOWN_KEYS];
    private int unknownKeyCount;

    /** A bit per field without channel, and per channel a bit per field with one: what this line has said so far. */
    private int seen;

    private final int[] channelSeen = new int[ChannelCodes.MOST];

    private byte[] bytes = {};
    private int at;
    private int end;
    private long number;
    private int sequence;
    private long uptimeMs;
    private Message message;

    /** What is wrong with the line; the methods below say {@code false} once it is set. */
    private Verdict defect = Verdict.GOOD;

    /**
     * Reads a line without its line end.
     *
     * @return what became of it; when good, {@link #message()} has it
     */
    public Verdict decode(byte[] line, int from, int to) {
        message = null;
        unknownKeyCount = 0;
        if (to - from >= LineFramer.LONGEST) {
            return Verdict.TOO_LONG;
        }
        Verdict verdict = ended(line, from, to);
        // The order of defects puts strange bytes first, but a line with any cannot be good: looked for only now.
        return (verdict.defect() || verdict == Verdict.UNKNOWN_KIND) && !printable(line, from, to)
                ? Verdict.NOT_ASCII
                : verdict;
    }

    /** The message of the last line, if that was good. */
    public Message message() {
        if (message == null) {
            throw new NoSuchElementException("the last line was not good");
        }
        return message;
    }

    /** The sequence number of the last line, if that was good or of an unknown kind. */
    public int sequence() {
        return sequence;
    }

    /** The uptime in ms of the last line, if that was good or of an unknown kind. */
    public long uptimeMs() {
        return uptimeMs;
    }

    /** How many keys of the last line were skipped. */
    public int unknownKeys() {
        return unknownKeyCount;
    }

    private Verdict ended(byte[] line, int from, int to) {
        int crcAt = to - TAIL;
        if (crcAt < from || line[crcAt] != ' ' || line[crcAt + 1] != '~') {
            return Verdict.CRC_MISSING;
        }
        int said = hex(line, crcAt + 2);
        if (said < 0) {
            return Verdict.CRC_MISSING;
        }
        if (said != Crc16.of(line, from, crcAt)) {
            return Verdict.CRC_WRONG;
        }
        bytes = line;
        at = from;
        end = crcAt;
        return checked();
    }

    private Verdict checked() {
        if (end - at < 2 || bytes[at] < 'A' || bytes[at] > 'Z' || bytes[at + 1] != ' ') {
            return Verdict.BAD_KIND;
        }
        int kind = bytes[at];
        at += 2;
        if (!natural(Message.SEQUENCE_MAX)) {
            return Verdict.BAD_SEQUENCE;
        }
        sequence = (int) number;
        if (at < end && bytes[at] != ' ') {
            return Verdict.BAD_SEQUENCE;
        }
        if (!space() || !natural(Message.UPTIME_MAX_MS) || at < end && bytes[at] != ' ') {
            return Verdict.BAD_UPTIME;
        }
        uptimeMs = number;
        if (kind != 'R' && kind != 'K' && kind != 'E' && kind != 'H') {
            return Verdict.UNKNOWN_KIND;
        }
        if (!fields(kind)) {
            return defect;
        }
        if (!required(kind)) {
            return Verdict.MISSING_FIELD;
        }
        message = switch (kind) {
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
            default -> hello();
        };
        return unknownKeyCount == 0 ? Verdict.GOOD : Verdict.GOOD_WITH_UNKNOWN_KEYS;
    }

    private boolean fields(int kind) {
        seen = 0;
        for (int channel = 0; channel < ChannelCodes.MOST; channel++) {
            channelSeen[channel] = 0;
        }
        while (at < end) {
            if (!space()) {
                return broken(Verdict.BAD_FIELD);
            }
            if (!field(kind)) {
                return false;
            }
        }
        return true;
    }

    private boolean field(int kind) {
        if (at >= end || !letter(bytes[at])) {
            return broken(Verdict.BAD_FIELD);
        }
        int key = bytes[at++];
        int second = 0;
        if (at < end && letter(bytes[at])) {
            second = bytes[at++];
        }
        int channel = 0;
        if (at < end && bytes[at] >= '1' && bytes[at] < '1' + ChannelCodes.MOST) {
            channel = bytes[at++] - '0';
        }
        if (at >= end || bytes[at] != '=') {
            return broken(Verdict.BAD_FIELD);
        }
        at++;
        Field field = second == 0 ? Field.of(kind, key) : null;
        if (field == null || field.perChannel != (channel > 0)) {
            return skip(kind, key << 16 | second << 8 | channel);
        }
        int bit = 1 << field.ordinal();
        if (channel > 0) {
            if ((channelSeen[channel - 1] & bit) != 0) {
                return broken(Verdict.DOUBLED_KEY);
            }
            channelSeen[channel - 1] |= bit;
        } else {
            if ((seen & bit) != 0) {
                return broken(Verdict.DOUBLED_KEY);
            }
            seen |= bit;
        }
        return field.text ? text(field, channel) : integer(field, channel);
    }

    private boolean integer(Field field, int channel) {
        if (!integer() || at < end && bytes[at] != ' ') {
            return broken(Verdict.BAD_FIELD);
        }
        if (!field.allows((int) number)) {
            return broken(Verdict.OUT_OF_RANGE);
        }
        if (channel > 0) {
            channelValues[field.ordinal()][channel - 1] = (int) number;
        } else {
            values[field.ordinal()] = (int) number;
        }
        return true;
    }

    private boolean text(Field field, int channel) {
        int from = at;
        if (!text()) {
            return broken(Verdict.BAD_FIELD);
        }
        String found = new String(bytes, from, at - from, StandardCharsets.US_ASCII);
        if (channel > 0) {
            channelTexts[field.ordinal()][channel - 1] = found;
        } else {
            texts[field.ordinal()] = found;
        }
        return true;
    }

    private boolean skip(int kind, int key) {
        for (int i = 0; i < unknownKeyCount; i++) {
            if (unknownKeys[i] == key) {
                return broken(Verdict.DOUBLED_KEY);
            }
        }
        unknownKeys[unknownKeyCount++] = key;
        boolean whole = kind == 'H' ? text() : integer();
        return whole || broken(Verdict.BAD_FIELD);
    }

    private boolean broken(Verdict what) {
        defect = what;
        return false;
    }

    private boolean required(int kind) {
        return switch (kind) {
            case 'K' -> has(Field.KEPT_MINUTE) && has(Field.SPAN);
            case 'E' -> has(Field.ASKED_MINUTE) && has(Field.LINES_SENT);
            case 'H' -> has(Field.VERSION);
            default -> true;
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

    private Hello hello() {
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

    private boolean space() {
        return at < end && bytes[at++] == ' ';
    }

    /** A decimal number without sign or leading zero. */
    private boolean natural(long maximum) {
        int from = at;
        long sum = 0;
        while (at < end && bytes[at] >= '0' && bytes[at] <= '9') {
            sum = sum * 10 + bytes[at++] - '0';
            if (sum > maximum) {
                return false;
            }
        }
        number = sum;
        return at > from && (bytes[from] != '0' || at == from + 1);
    }

    /** A decimal number of 32 bits, with a minus where it is negative. */
    private boolean integer() {
        if (at < end && bytes[at] == '-') {
            at++;
            boolean whole = natural(-(long) Integer.MIN_VALUE) && number != 0;
            number = -number;
            return whole && (at == end || bytes[at] == ' ');
        }
        return natural(Integer.MAX_VALUE) && (at == end || bytes[at] == ' ');
    }

    private boolean text() {
        int from = at;
        while (at < end && bytes[at] != ' ') {
            int b = bytes[at++];
            boolean allowed =
                    letter(b) || b >= 'A' && b <= 'Z' || b >= '0' && b <= '9' || b == '.' || b == '_' || b == '-';
            if (!allowed) {
                return false;
            }
        }
        return at > from && at - from <= LONGEST_TEXT;
    }

    private static boolean printable(byte[] line, int from, int to) {
        for (int i = from; i < to; i++) {
            if (line[i] < ' ' || line[i] > '~') {
                return false;
            }
        }
        return true;
    }

    private static boolean letter(int b) {
        return b >= 'a' && b <= 'z';
    }

    /** Four upper-case hexadecimal digits; −1 where they are none. */
    private static int hex(byte[] line, int from) {
        int sum = 0;
        for (int i = from; i < from + 4; i++) {
            int b = line[i];
            int digit;
            if (b >= '0' && b <= '9') {
                digit = b - '0';
            } else if (b >= 'A' && b <= 'F') {
                digit = b - 'A' + 10;
            } else {
                return -1;
            }
            sum = sum << 4 | digit;
        }
        return sum;
    }
}
