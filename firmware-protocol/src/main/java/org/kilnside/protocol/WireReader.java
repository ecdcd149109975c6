package org.kilnside.protocol;

/**
 * From bytes to messages: framing, decoding, and the counts of everything that was not good. Nothing that comes in is
 * ever an error; memory is bounded by one line.
 */
public final class WireReader {
    private final LineFramer framer = new LineFramer();
    private final LineDecoder decoder = new LineDecoder();
    private final Listener listener;
    private final Lines lines = new Lines();

    private boolean joining;
    private int lastSequence = -1;
    private long lastUptimeMs;

    private long good;
    private long unknown;
    private long badChecksum;
    private long malformed;
    private long lost;
    private long bytes;

    /** Takes messages. */
    public interface Listener {
        void message(Message message);

        /** A line that gave no message; its bytes are lent for the call alone. */
        default void refused(Verdict verdict, byte[] line, int from, int to) {}
    }

    public WireReader(Listener listener) {
        this.listener = listener;
    }

    /** Takes the next bytes of the stream. */
    public void take(byte[] buffer, int from, int to) {
        bytes += to - from;
        framer.take(buffer, from, to, lines);
    }

    /**
     * The stream was opened anew, most likely in the middle of a line: a first line that is not good is let go
     * uncounted. Sequence numbers go on, so that what was missed while it was closed counts as lost.
     */
    public void joinMidStream() {
        framer.reset();
        joining = true;
    }

    /** Good lines. */
    public long good() {
        return good;
    }

    /** Lines of an unknown kind, or with unknown keys. */
    public long unknown() {
        return unknown;
    }

    public long badChecksum() {
        return badChecksum;
    }

    /** Lines that are none of the protocol. */
    public long malformed() {
        return malformed;
    }

    /** Lines missing by their sequence numbers. */
    public long lost() {
        return lost;
    }

    /** All bytes taken. */
    public long bytes() {
        return bytes;
    }

    private final class Lines implements LineFramer.Lines {
        @Override
        public void line(byte[] buffer, int from, int to) {
            Verdict verdict = decoder.decode(buffer, from, to);
            boolean first = joining;
            joining = false;
            switch (verdict) {
                case GOOD, GOOD_WITH_UNKNOWN_KEYS -> {
                    good++;
                    if (verdict == Verdict.GOOD_WITH_UNKNOWN_KEYS) {
                        unknown++;
                    }
                    Message message = decoder.message();
                    countLost(message);
                    listener.message(message);
                    return;
                }
                case UNKNOWN_KIND -> {
                    unknown++;
                    // Its sequence number counts, but is not read out of a line that is skipped: the next good line
                    // would show it as lost, so one step of leeway is given.
                    lastSequence = lastSequence < 0 ? -1 : (lastSequence + 1) & Message.SEQUENCE_MAX;
                }
                case BAD_CHECKSUM -> badChecksum += first ? 0 : 1;
                case MALFORMED -> malformed += first ? 0 : 1;
            }
            listener.refused(verdict, buffer, from, to);
        }

        @Override
        public void overlong() {
            malformed += joining ? 0 : 1;
            joining = false;
        }

        /** A step of the sequence; after a restart of the controller, which cannot know how far it was, none is lost. */
        private void countLost(Message message) {
            boolean restarted = message.uptimeMs() < lastUptimeMs && !Uptime.wrapped(lastUptimeMs, message.uptimeMs());
            if (lastSequence >= 0 && !restarted) {
                int step = (message.sequence() - lastSequence) & Message.SEQUENCE_MAX;
                // A step of 0 is a doubled line; one of more than half the range is a line that came late.
                if (step > 1 && step <= Message.SEQUENCE_MAX / 2) {
                    lost += step - 1;
                }
            }
            lastSequence = message.sequence();
            lastUptimeMs = message.uptimeMs();
        }
    }
}
