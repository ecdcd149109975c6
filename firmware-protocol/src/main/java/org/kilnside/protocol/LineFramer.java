package org.kilnside.protocol;

/**
 * Cuts a stream of bytes, handed over in any pieces, into lines. Begins anew after every LF, so that it is in step
 * again one line after any disturbance. Holds at most one line of the protocol in memory: whatever is longer is
 * counted as one overlong line and let go but for its beginning.
 */
public final class LineFramer {
    /** The longest line with its LF, bytes; a CR before the LF is not counted. */
    public static final int LONGEST = 120;

    /** One line without its LF but with a CR. */
    private final byte[] begun = new byte[LONGEST];

    private int begunLength;
    private boolean overlong;

    /** Takes lines. The bytes are lent for the call alone. */
    public interface Lines {
        /** A line without its LF, and without a CR before that; never empty. */
        void line(byte[] bytes, int from, int to);

        /** A line longer than the protocol allows ended; what is handed over is how it began. */
        void overlong(byte[] bytes, int from, int to);
    }

    /** Takes the next bytes of the stream. */
    public void take(byte[] bytes, int from, int to, Lines lines) {
        int start = from;
        for (int at = from; at < to; at++) {
            if (bytes[at] == '\n') {
                end(bytes, start, at, lines);
                start = at + 1;
            }
        }
        keep(bytes, start, to);
    }

    /** Forgets a begun line: the stream was opened anew. */
    public void reset() {
        begunLength = 0;
        overlong = false;
    }

    private void end(byte[] bytes, int start, int at, Lines lines) {
        if (begunLength == 0 && !overlong) {
            hand(bytes, start, at, lines);
            return;
        }
        keep(bytes, start, at);
        int length = begunLength;
        boolean tooLong = overlong;
        reset();
        if (tooLong) {
            lines.overlong(begun, 0, LONGEST);
        } else {
            hand(begun, 0, length, lines);
        }
    }

    private static void hand(byte[] bytes, int start, int at, Lines lines) {
        int end = at > start && bytes[at - 1] == '\r' ? at - 1 : at;
        if (end - start >= LONGEST) {
            lines.overlong(bytes, start, start + LONGEST);
        } else if (end > start) {
            lines.line(bytes, start, end);
        }
    }

    private void keep(byte[] bytes, int start, int to) {
        int length = to - start;
        if (overlong) {
            return;
        }
        if (length > LONGEST - begunLength) {
            overlong = true;
            length = LONGEST - begunLength;
        }
        System.arraycopy(bytes, start, begun, begunLength, length);
        begunLength += length;
    }
}
