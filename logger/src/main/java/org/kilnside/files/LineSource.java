package org.kilnside.files;

import java.io.IOException;
import java.io.Reader;
import java.util.Arrays;
import org.kilnside.files.FileRefusedException.Problem;

/** The lines of a text, one after the other in one buffer, so that a long log costs no object a line. */
final class LineSource {
    /** No row of a log comes near this; what does is no log. */
    private static final int LONGEST_LINE = 65_536;

    private final Reader reader;
    private final String file;
    private final char[] buffer = new char[65_536];
    private int position;
    private int filled;
    private boolean ended;
    private char[] line = new char[512];
    private int length;
    private int number;
    private boolean skipLineFeed;
    private boolean zerosMayStand;

    LineSource(Reader reader, String file) {
        this.reader = reader;
        this.file = file;
    }

    /** The line's letters; those from {@link #length()} on are left over from earlier lines. */
    char[] line() {
        return line;
    }

    int length() {
        return length;
    }

    /** The line's number, counted from 1. */
    int number() {
        return number;
    }

    /**
     * Says that this is a text for certain: what zero bytes come from here on are damage, such as a power cut leaves on a
     * memory card, and spoil the line they stand in. A run of them counts as one letter.
     */
    void zerosAreDamage() {
        zerosMayStand = true;
    }

    /** What gzip packs begins with two bytes of its own; the second is no letter of any text. */
    private boolean isPacked() {
        return number == 1 && length >= 2 && line[0] == 0x1f && line[1] == '\ufffd';
    }

    /**
     * Goes to the next line; false when there is none.
     *
     * @throws FileRefusedException when the text is binary or has an endless line
     */
    boolean next() throws IOException {
        length = 0;
        boolean any = false;
        while (true) {
            if (position == filled && !fill()) {
                number += any ? 1 : 0;
                return any;
            }
            if (skipLineFeed) {
                skipLineFeed = false;
                if (buffer[position] == '\n') {
                    position++;
                    continue;
                }
            }
            any = true;
            int start = position;
            int at = start;
            while (at < filled && buffer[at] != '\n' && buffer[at] != '\r' && buffer[at] != 0) {
                at++;
            }
            append(start, at);
            position = at;
            if (at < filled) {
                char end = buffer[position++];
                if (end == 0 && zerosMayStand) {
                    if (length == 0 || line[length - 1] != 0) {
                        append(at, at + 1);
                    }
                    continue;
                }
                number++;
                if (end == 0) {
                    throw new FileRefusedException(new Problem(
                            file,
                            number,
                            length + 1,
                            isPacked()
                                    ? "this is a packed file (gzip), expected a log as CSV text; unpack it first"
                                    : "this is a binary file, expected a log as CSV text; choose another file"));
                }
                skipLineFeed = end == '\r';
                return true;
            }
        }
    }

    private void append(int from, int to) {
        if (length + to - from > LONGEST_LINE) {
            throw new FileRefusedException(new Problem(
                    file,
                    number + 1,
                    0,
                    "this line is longer than " + LONGEST_LINE
                            + " characters, expected a log as CSV text; check that it" + " is the right file"));
        }
        if (length + to - from > line.length) {
            line = Arrays.copyOf(line, Math.max(2 * line.length, length + to - from));
        }
        System.arraycopy(buffer, from, line, length, to - from);
        length += to - from;
    }

    private boolean fill() throws IOException {
        if (ended) {
            return false;
        }
        position = 0;
        filled = Math.max(0, reader.read(buffer));
        ended = filled == 0;
        return !ended;
    }
}
