package org.kilnside.link;

import java.util.Optional;
import org.kilnside.wording.Words;

/**
 * Tells what a stream looks like in which no good line has come: noise of a wrong speed, text that is not the protocol,
 * or text without line ends.
 */
final class Noise {
    private static final int ENOUGH_BYTES = 48;
    private static final int ENOUGH_LINES = 4;
    private static final int LONG_WITHOUT_LINE_END = 1_000;

    /** A wrong speed makes about half of all bytes no text; a worn cable makes one in a hundred. */
    private static final double NOISY_PART = 0.15;

    private long bytes;
    private long strange;
    private long lineEnds;

    /** Takes the bytes as they came. */
    void take(byte[] buffer, int length) {
        bytes += length;
        for (int i = 0; i < length; i++) {
            int b = buffer[i];
            if (b == '\n') {
                lineEnds++;
            } else if ((b < ' ' || b > '~') && b != '\r' && b != '\t') {
                strange++;
            }
        }
    }

    void forget() {
        bytes = 0;
        strange = 0;
        lineEnds = 0;
    }

    /** Whether the bytes are those of a line at another speed. */
    boolean isNoise() {
        return bytes >= ENOUGH_BYTES && strange > bytes * NOISY_PART;
    }

    /** One sentence on what comes from a port instead of good lines; empty while there is too little to tell. */
    Optional<String> sentence(Port port, Words words) {
        if (isNoise()) {
            return Optional.of(words.text("wire.noise", port.title(), strange, bytes) + " " + port.noiseAdvice(words));
        }
        if (lineEnds >= ENOUGH_LINES) {
            return Optional.of(words.text("wire.foreign_text", port.title(), lineEnds, port.asLink()));
        }
        if (lineEnds > 0) {
            return Optional.of(words.text("wire.little_text", port.title(), lineEnds));
        }
        if (lineEnds == 0 && bytes >= LONG_WITHOUT_LINE_END) {
            return Optional.of(words.text("wire.no_line_end", bytes, port.title()) + " " + port.noiseAdvice(words));
        }
        return Optional.empty();
    }
}
