package org.kilnside.link.share;

import java.io.IOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.SocketChannel;
import java.util.Optional;
import java.util.function.Supplier;

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

    /**
     * On this computer.
     *
     * @param address the socket the recorder announced; asked again each time
     */
    static RecorderPlace here(Supplier<Optional<UnixDomainSocketAddress>> address) {
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
                return "The recording Kilnside is gone. Start it again: kilnside record";
            }
        };
    }

    /** On another computer of the network. */
    static RecorderPlace onTheNetwork(String host, int port, Token token) {
        return new RecorderPlace() {
            @Override
            public LanWire.Admitted connect() throws IOException {
                return LanWire.connect(host, port, token);
            }

            @Override
            public String absence() {
                return "No Kilnside answers on " + host + ". Is its computer on, is the network up, and does it share:"
                        + " kilnside record --share=lan?";
            }
        };
    }
}
