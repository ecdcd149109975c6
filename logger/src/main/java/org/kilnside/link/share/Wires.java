package org.kilnside.link.share;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.util.function.LongConsumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The two kinds of wire: a socket of this computer, and a TLS connection. */
public final class Wires {
    private static final Logger LOG = LoggerFactory.getLogger(Wires.class);
    private static final int PIECE = 16 * 1024;

    private Wires() {}

    /** A wire over a channel of this computer. */
    public static LineWire over(SocketChannel channel) {
        // The channel's own streams would keep a reader and a writer from working at once.
        return new Wire() {
            @Override
            int read(byte[] into) throws IOException {
                return channel.read(ByteBuffer.wrap(into));
            }

            @Override
            void write(byte[] bytes, int from, int count) throws IOException {
                ByteBuffer piece = ByteBuffer.wrap(bytes, from, count);
                while (piece.hasRemaining()) {
                    channel.write(piece);
                }
            }

            @Override
            public void close() {
                try {
                    channel.close();
                } catch (IOException e) {
                    LOG.debug("closing a stream's socket", e);
                }
            }
        };
    }

    /**
     * A wire over TLS.
     *
     * @param plain the socket underneath: closed without a farewell, which would wait for a peer that does not read
     */
    static LineWire over(InputStream in, OutputStream out, Socket plain) {
        return new Wire() {
            @Override
            int read(byte[] into) throws IOException {
                return in.read(into);
            }

            @Override
            void write(byte[] bytes, int from, int count) throws IOException {
                out.write(bytes, from, count);
                out.flush();
            }

            @Override
            public void close() {
                try {
                    plain.close();
                } catch (IOException e) {
                    LOG.debug("closing a stream's socket", e);
                }
            }
        };
    }

    private abstract static class Wire implements LineWire {
        private final byte[] buffer = new byte[PIECE];
        private int from;
        private int until;
        private byte[] line = new byte[1024];

        abstract int read(byte[] into) throws IOException;

        abstract void write(byte[] bytes, int from, int count) throws IOException;

        @Override
        public String readLine(int longest) throws IOException {
            int length = 0;
            while (true) {
                if (from == until) {
                    int count = read(buffer);
                    if (count < 0) {
                        return null;
                    }
                    from = 0;
                    until = count;
                }
                int end = from;
                while (end < until && buffer[end] != '\n') {
                    end++;
                }
                int piece = end - from;
                if (length + piece > longest) {
                    throw new IOException("a line is longer than " + longest + " bytes");
                }
                if (length + piece > line.length) {
                    line = java.util.Arrays.copyOf(line, Math.max(line.length * 2, length + piece));
                }
                System.arraycopy(buffer, from, line, length, piece);
                length += piece;
                from = end;
                if (end < until) {
                    from++;
                    return new String(line, 0, length, StandardCharsets.UTF_8);
                }
            }
        }

        @Override
        public void writeLine(String text, LongConsumer progress) throws IOException {
            byte[] bytes = (text + "\n").getBytes(StandardCharsets.UTF_8);
            for (int at = 0; at < bytes.length; at += PIECE) {
                int count = Math.min(PIECE, bytes.length - at);
                write(bytes, at, count);
                progress.accept(at + count);
            }
        }
    }
}
