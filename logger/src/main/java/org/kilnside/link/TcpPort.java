package org.kilnside.link;

import java.io.IOException;
import java.io.InputStream;
import java.net.ConnectException;
import java.net.InetSocketAddress;
import java.net.NoRouteToHostException;
import java.net.Socket;
import java.net.SocketOption;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import org.kilnside.wording.Words;

/**
 * A serial-over-network adapter. A peer may vanish without a word: the system probes an idle connection, and one that
 * has been silent for long is taken for dead and made anew.
 */
final class TcpPort implements Port {
    private static final int CONNECT_TIMEOUT_MS = 5_000;
    private static final int READ_TIMEOUT_MS = 100;
    private static final long GONE_AFTER_MS = 30_000;

    /** Seconds idle before the first probe, seconds between probes, probes: dead after about 20 s. */
    private static final Map<String, Integer> KEEP_ALIVE =
            Map.of("TCP_KEEPIDLE", 5, "TCP_KEEPINTERVAL", 5, "TCP_KEEPCOUNT", 3);

    private final LinkNotation.Tcp link;
    private final Words words;

    TcpPort(LinkNotation.Tcp link, Words words) {
        this.words = words;
        this.link = link;
    }

    @Override
    public ByteStream open() throws LinkTroubleException {
        Socket socket = new Socket();
        try {
            socket.setKeepAlive(true);
            probe(socket);
            socket.setTcpNoDelay(true);
            InetSocketAddress address = new InetSocketAddress(link.host(), link.port());
            if (address.isUnresolved()) {
                throw new UnknownHostException(link.host());
            }
            socket.connect(address, CONNECT_TIMEOUT_MS);
            socket.setSoTimeout(READ_TIMEOUT_MS);
            return new Stream(socket, socket.getInputStream());
        } catch (IOException e) {
            close(socket);
            throw trouble(e);
        }
    }

    @Override
    public String asLink() {
        return "tcp:" + title();
    }

    @Override
    public String title() {
        return link.host() + ":" + link.port();
    }

    @Override
    public boolean mayRestartController() {
        // Some adapters open their serial side when somebody connects.
        return true;
    }

    @Override
    public OptionalLong goneAfterSilenceMs() {
        return OptionalLong.of(GONE_AFTER_MS);
    }

    @Override
    public String noiseAdvice(Words its) {
        return its.text("wire.adapter_speed", title());
    }

    private LinkTroubleException trouble(IOException e) {
        if (e instanceof UnknownHostException) {
            return LinkTroubleException.passing(words.text("wire.no_host", link.host()));
        }
        if (e instanceof ConnectException) {
            return LinkTroubleException.passing(words.text("wire.refused", link.host(), link.port()));
        }
        if (e instanceof SocketTimeoutException || e instanceof NoRouteToHostException) {
            return LinkTroubleException.passing(words.text("wire.no_answer", link.host()));
        }
        return LinkTroubleException.passing(words.text("wire.no_connection", title(), e.getMessage()));
    }

    /** Sets how the system probes, where it can be set: the option objects belong to a module that may be missing. */
    private static void probe(Socket socket) throws IOException {
        Set<SocketOption<?>> supported = socket.supportedOptions();
        for (SocketOption<?> option : supported) {
            Integer value = KEEP_ALIVE.get(option.name());
            if (value != null) {
                @SuppressWarnings("unchecked")
                SocketOption<Integer> number = (SocketOption<Integer>) option;
                socket.setOption(number, value);
            }
        }
    }

    private static void close(Socket socket) {
        try {
            socket.close();
        } catch (IOException e) {
            // Whatever the peer makes of it, this side is done with the socket.
            return;
        }
    }

    private final class Stream implements ByteStream {
        private final Socket socket;
        private final InputStream in;

        Stream(Socket socket, InputStream in) {
            this.socket = socket;
            this.in = in;
        }

        @Override
        public int read(byte[] buffer) {
            try {
                return in.read(buffer);
            } catch (SocketTimeoutException e) {
                return 0;
            } catch (IOException e) {
                // Reset by the peer, or found dead by the system's probes: gone either way.
                return END;
            }
        }

        @Override
        public void write(byte[] bytes) throws LinkTroubleException {
            try {
                socket.getOutputStream().write(bytes);
            } catch (IOException e) {
                throw LinkTroubleException.passing(words.text("wire.broke", title(), e.getMessage()));
            }
        }

        @Override
        public void close() {
            TcpPort.close(socket);
        }
    }
}
