package org.kilnside.protocol;

/**
 * From bytes to messages: framing, decoding, and the counts of everything that was not good. Nothing that comes in is
 * ever an error; memory is bounded by one line.
 */
public final class WireReader {
    /** The version of the protocol read here. */
    public static final int VERSION = 1;

    private final LineFramer framer = new LineFramer();
    private final LineDecoder decoder = new LineDecoder();
    private final Listener listener;
    private final Lines lines = new Lines();

    private boolean joining;
    private boolean laterVersion;
    private int lastSequence = -1;
    private long lastUptimeMs;

    private long good;
    private long unknown;
    private long badChecksum;
    private long malformed;
    private long repeated;
    private long lost;
    private long bytes;

    /** Takes messages. */
    public interface Listener {
        void message(Message message);

        /**
         * Each line as it came, after its message if it gave one. Its bytes are lent for the call alone; of a line
         * that is too long they are its beginning.
         */
        default void line(Fate fate, Verdict verdict, byte[] line, int from, int to) {}
    }

    /** What became of a line in the stream; its own {@link Verdict} says what it is by itself. */
    public enum Fate {
        /** Its message was handed over. */
        TAKEN,
        /** Good, but not for this reader: of a kind, or of a version of the protocol, that it does not know. */
        SKIPPED,
        /** Good, and had come before. */
        REPEATED,
        /** Not good. */
        SPOILT,
        /** Not good, but the first after the stream was opened anew: likely half a line, and not counted. */
        JOINED
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

    /** Lines that came a second time and were dropped. */
    public long repeated() {
        return repeated;
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
                case GOOD, GOOD_WITH_UNKNOWN_KEYS ->
                    listener.line(good(decoder.message(), verdict), verdict, buffer, from, to);
                case UNKNOWN_KIND -> {
                    unknown++;
                    countLost(decoder.sequence(), decoder.uptimeMs());
                    listener.line(Fate.SKIPPED, verdict, buffer, from, to);
                }
                default -> {
                    if (!first) {
                        count(verdict);
                    }
                    listener.line(first ? Fate.JOINED : Fate.SPOILT, verdict, buffer, from, to);
                }
            }
        }

        @Override
        public void overlong(byte[] buffer, int from, int to) {
            boolean first = joining;
            joining = false;
            if (!first) {
                malformed++;
            }
            listener.line(first ? Fate.JOINED : Fate.SPOILT, Verdict.TOO_LONG, buffer, from, to);
        }

        private void count(Verdict defect) {
            if (defect == Verdict.CRC_WRONG) {
                badChecksum++;
            } else {
                malformed++;
            }
        }

        private Fate good(Message message, Verdict verdict) {
            if (message.sequence() == lastSequence && message.uptimeMs() == lastUptimeMs) {
                repeated++;
                return Fate.REPEATED;
            }
            countLost(message.sequence(), message.uptimeMs());
            if (message instanceof Hello hello) {
                laterVersion = hello.version() > VERSION;
            } else if (laterVersion) {
                unknown++;
                return Fate.SKIPPED;
            }
            good++;
            if (verdict == Verdict.GOOD_WITH_UNKNOWN_KEYS) {
                unknown++;
            }
            listener.message(message);
            return Fate.TAKEN;
        }

        /** A step of the sequence; after a restart, which begins it anew, nothing is known to be lost. */
        private void countLost(int sequence, long uptimeMs) {
            boolean fell = uptimeMs < lastUptimeMs;
            if (lastSequence >= 0 && !(fell && !Uptime.throughTheWrap(lastUptimeMs, uptimeMs))) {
                int step = (sequence - lastSequence) & Message.SEQUENCE_MAX;
                // One of more than half the range is a line that came late.
                if (step > 1 && step <= Message.SEQUENCE_MAX / 2) {
                    lost += step - 1;
                }
            }
            lastSequence = sequence;
            lastUptimeMs = uptimeMs;
        }
    }
}
