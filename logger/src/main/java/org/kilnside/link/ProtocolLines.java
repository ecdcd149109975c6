package org.kilnside.link;

import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.Message;
import org.kilnside.protocol.WireReader;
import org.kilnside.session.Connection;
import org.kilnside.session.ReadingSource.Arrival;
import org.kilnside.session.ReadingSource.ControllerHello;

/** Reads the protocol's own lines. */
final class ProtocolLines implements LineReader {
    private final Ears ears;
    private final WireReader wire = new WireReader(this::message);
    private final Conversion conversion;
    private long hostMs;

    ProtocolLines(Ears ears) {
        this.ears = ears;
        this.conversion = new Conversion(new Conversion.Sink() {
            @Override
            public void hello(ControllerHello hello) {
                ears.hello(hello);
            }

            @Override
            public void arrival(Arrival arrival) {
                ears.arrival(arrival);
            }
        });
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

    private void message(Message message) {
        ears.uptime(message.uptimeMs(), message instanceof Hello hello ? hello.resetCauseBits() : OptionalInt.empty());
        conversion.take(message, hostMs);
    }
}
