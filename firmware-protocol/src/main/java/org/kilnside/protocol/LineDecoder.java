package org.kilnside.protocol;

import java.nio.charset.StandardCharsets;
import java.util.NoSuchElementException;

/**
 * Reads one line at a time. Works on the bytes as they are and makes nothing but the message itself, because a replay
 * goes through here at millions of lines a second. Confined to one thread.
 */
public final class LineDecoder {
    /** A space, a tilde and four hexadecimal digits. */
    private static final int TAIL = 6;

    private static final int MOST_UNKNOWN_KEYS = LineFramer.LONGEST / 4;
    private static final int LONGEST_TEXT = 16;

    private final SeenFields seen = new SeenFields();
    private final int[] unknownKeys = new int[MOST_UNKNOWN_KEYS];
    private int unknownKeyCount;

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
        if (!seen.suffice(kind)) {
            return Verdict.MISSING_FIELD;
        }
        message = seen.message(kind, sequence, uptimeMs);
        return unknownKeyCount == 0 ? Verdict.GOOD : Verdict.GOOD_WITH_UNKNOWN_KEYS;
    }

    private boolean fields(int kind) {
        seen.clear();
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
        if (!seen.begin(field, channel)) {
            return broken(Verdict.DOUBLED_KEY);
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
        seen.set(field, channel, (int) number);
        return true;
    }

    private boolean text(Field field, int channel) {
        int from = at;
        if (!text()) {
            return broken(Verdict.BAD_FIELD);
        }
        seen.set(field, channel, new String(bytes, from, at - from, StandardCharsets.US_ASCII));
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
