package org.kilnside.link.share;

import java.io.IOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.SocketChannel;
import java.util.Optional;
import java.util.function.Supplier;
import org.kilnside.wording.Words;

/** Where a recorder is looked for. */
public interface RecorderPlace {
    /**
     * Connects to the recorder.
     *
     * @throws LanWire.RefusedException with a sentence when it turns this copy away
     * @throws IOException when none is there now
     */
    LanWire.Admitted connect() throws IOException;

    /** What to say when none is there: one or two plain sentences. */
    String absence();

    /** What to say when it does not take the token: one or two plain sentences. */
    default String refusal(LanWire.RefusedException refused) {
        return refused.getMessage();
    }

    /**
     * On this computer.
     *
     * @param address the socket the recorder announced; asked again each time
     * @param words says that it is gone
     */
    static RecorderPlace here(Supplier<Optional<UnixDomainSocketAddress>> address, Words words) {
        return new RecorderPlace() {
            @Override
            public LanWire.Admitted connect() throws IOException {
                UnixDomainSocketAddress socket =
                        address.get().orElseThrow(() -> new IOException("no recorder announced itself"));
                SocketChannel channel = SocketChannel.open(StandardProtocolFamily.UNIX);
                try {
                    channel.connect(socket);
                    return new LanWire.Admitted(Wires.over(channel), true);
                } catch (IOException e) {
                    channel.close();
                    throw e;
                }
            }

            @Override
            public String absence() {
                return words.text("attach.gone_here");
            }
        };
    }

    /**
     * On another computer of the network.
     *
     * @param words says that it is gone, or does not take the token
     */
    static RecorderPlace onTheNetwork(String host, int port, Token token, Words words) {
        return new RecorderPlace() {
            @Override
            public LanWire.Admitted connect() throws IOException {
                return LanWire.connect(host, port, token);
            }

            @Override
            public String absence() {
                return words.text("attach.gone", host);
            }

            @Override
            public String refusal(LanWire.RefusedException refused) {
                return words.text(refused.wasTold() ? "attach.token_refused" : "attach.token_unknown", host);
            }
        };
    }
}
