package org.kilnside.session;

import java.util.Optional;

/**
 * How the link stands.
 *
 * @param state what it is doing
 * @param sinceHostMs since when, on the host's monotonic clock, ms
 * @param detail one plain sentence on what is wrong or what the person should do; empty when all is well
 * @param counts what came over the wire so far
 */
public record Connection(State state, long sinceHostMs, Optional<String> detail, Counts counts) {
    /** What a link can be doing. */
    public enum State {
        CONNECTING,
        /** Open, and lines come. */
        RECEIVING,
        /** Open, and nothing comes. */
        SILENT,
        /** Gone; will be opened again by itself. */
        LOST,
        /** Will not be opened again by itself: doing so restarted the controller, or a person must act. */
        GIVEN_UP,
        /** A replay or virtual firing came to its end. */
        FINISHED,
        CLOSED
    }

    /**
     * What came over the wire.
     *
     * @param lines good lines
     * @param unknown well-formed lines of a kind this program does not know, with keys it does not know, or with codes
     *     the amplifier cannot give
     * @param badChecksum lines whose CRC does not match
     * @param malformed lines that are no lines of the protocol, or came twice
     * @param lost lines missing by their sequence numbers
     * @param bytes all bytes
     */
    public record Counts(long lines, long unknown, long badChecksum, long malformed, long lost, long bytes) {
        public static final Counts NONE = new Counts(0, 0, 0, 0, 0, 0);
    }
}
