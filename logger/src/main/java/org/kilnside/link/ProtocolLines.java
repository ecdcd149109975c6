package org.kilnside.link;

import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.KeptEnd;
import org.kilnside.protocol.KeptLine;
import org.kilnside.protocol.Message;
import org.kilnside.protocol.Verdict;
import org.kilnside.protocol.WireReader;
import org.kilnside.session.Connection;
import org.kilnside.session.LineView;
import org.kilnside.session.ReadingSource.Arrival;
import org.kilnside.session.ReadingSource.ControllerHello;
import org.kilnside.wording.Words;

/** Reads the protocol's own lines. */
final class ProtocolLines implements LineReader {
    private final Ears ears;
    private final HeardLines heard;
    private final WireReader wire = new WireReader(new WireReader.Listener() {
        @Override
        public void message(Message message) {
            take(message);
        }

        @Override
        public void line(WireReader.Fate fate, Verdict verdict, byte[] line, int from, int to) {
            heard.add(line, from, to, verdict == Verdict.TOO_LONG, hostMs, became(fate, verdict));
        }
    });
    private final Conversion conversion;
    private long hostMs;

    /** What the message of the line in hand is. */
    private LineView.Verdict said = LineView.Verdict.READING;

    /** Makes a reader whose troubles are said in these words. */
    static Maker saying(Words words) {
        return (ears, heard) -> new ProtocolLines(ears, heard, words);
    }

    /** @param words says why readings cannot be read */
    ProtocolLines(Ears ears, HeardLines heard, Words words) {
        this.ears = ears;
        this.heard = heard;
        this.conversion = new Conversion(
                new Conversion.Sink() {
                    @Override
                    public void hello(ControllerHello hello) {
                        ears.hello(hello);
                    }

                    @Override
                    public void arrival(Arrival arrival) {
                        ears.arrival(arrival);
                    }
                },
                words);
    }

    @Override
    public void take(byte[] buffer, int length, long receivedAtMs) {
        hostMs = receivedAtMs;
        wire.take(buffer, 0, length);
    }

    @Override
    public void joinMidStream() {
        wire.joinMidStream();
    }

    @Override
    public void flush() {
        conversion.flush();
    }

    @Override
    public Connection.Counts counts() {
        return new Connection.Counts(
                wire.good(),
                wire.unknown() + conversion.impossibleCodes(),
                wire.badChecksum(),
                wire.malformed() + wire.repeated(),
                wire.lost(),
                wire.bytes());
    }

    @Override
    public OptionalInt lineIntervalMs() {
        return conversion.lineIntervalMs();
    }

    @Override
    public Optional<String> trouble() {
        return conversion.trouble();
    }

    private void take(Message message) {
        ears.uptime(message.uptimeMs(), message instanceof Hello hello ? hello.resetCauseBits() : OptionalInt.empty());
        long impossible = conversion.impossibleCodes();
        conversion.take(message, hostMs);
        if (message instanceof Hello) {
            said = LineView.Verdict.HELLO;
        } else if (message instanceof KeptEnd) {
            said = LineView.Verdict.END_OF_KEPT;
        } else if (conversion.impossibleCodes() > impossible) {
            said = LineView.Verdict.READING_WITH_IMPOSSIBLE_CODE;
        } else {
            said = message instanceof KeptLine ? LineView.Verdict.KEPT_READING : LineView.Verdict.READING;
        }
    }

    private LineView.Verdict became(WireReader.Fate fate, Verdict verdict) {
        return switch (fate) {
            case TAKEN ->
                verdict == Verdict.GOOD_WITH_UNKNOWN_KEYS && said == LineView.Verdict.READING
                        ? LineView.Verdict.READING_WITH_UNKNOWN_FIELDS
                        : said;
            case SKIPPED ->
                verdict == Verdict.UNKNOWN_KIND ? LineView.Verdict.UNKNOWN_KIND : LineView.Verdict.LATER_VERSION;
            case REPEATED -> LineView.Verdict.REPEATED;
            case JOINED -> LineView.Verdict.HALF;
            case SPOILT -> spoilt(verdict);
        };
    }

    private static LineView.Verdict spoilt(Verdict verdict) {
        return switch (verdict) {
            case TOO_LONG -> LineView.Verdict.TOO_LONG;
            case NOT_ASCII -> LineView.Verdict.STRANGE_BYTE;
            case CRC_MISSING -> LineView.Verdict.CHECKSUM_MISSING;
            case CRC_WRONG -> LineView.Verdict.CHECKSUM_WRONG;
            case BAD_KIND -> LineView.Verdict.BAD_KIND;
            case BAD_SEQUENCE -> LineView.Verdict.BAD_SEQUENCE;
            case BAD_UPTIME -> LineView.Verdict.BAD_UPTIME;
            case BAD_FIELD -> LineView.Verdict.BAD_FIELD;
            case DOUBLED_KEY -> LineView.Verdict.DOUBLED_FIELD;
            case OUT_OF_RANGE -> LineView.Verdict.OUT_OF_RANGE;
            case MISSING_FIELD -> LineView.Verdict.MISSING_FIELD;
            case GOOD, GOOD_WITH_UNKNOWN_KEYS, UNKNOWN_KIND ->
                throw new IllegalArgumentException(verdict + " is no defect");
        };
    }
}
