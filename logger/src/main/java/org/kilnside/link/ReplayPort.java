package org.kilnside.link;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;

/** A captured stream, read again at a speed. Paced by the uptimes in its lines. */
final class ReplayPort implements Port {
    private final LinkNotation.Replay link;
    private final LinkSurroundings around;

    ReplayPort(LinkNotation.Replay link, LinkSurroundings around) {
        this.link = link;
        this.around = around;
    }

    @Override
    public ByteStream open() throws LinkTroubleException {
        if (!Files.exists(link.file())) {
            throw LinkTroubleException.hopeless(
                    "There is no file " + link.file() + ": check the name of the stream to replay.");
        }
        if (Files.isDirectory(link.file()) || !Files.isReadable(link.file())) {
            throw LinkTroubleException.hopeless(link.file()
                    + (Files.isDirectory(link.file())
                            ? " is a folder: name the file with the stream to replay."
                            : " may not be read by this user: change its permissions."));
        }
        try {
            InputStream file = Files.newInputStream(link.file());
            return link.speed() == LinkNotation.UNPACED ? new Whole(file) : new Paced(file);
        } catch (IOException e) {
            throw LinkTroubleException.hopeless(link.file() + " cannot be read: " + e.getMessage() + ".");
        }
    }

    @Override
    public String title() {
        return link.file().toString();
    }

    @Override
    public double speed() {
        return link.speed();
    }

    @Override
    public boolean finite() {
        return true;
    }

    /** As fast as it can be read. */
    private class Whole implements ByteStream {
        final InputStream file;

        Whole(InputStream file) {
            this.file = file;
        }

        @Override
        public int read(byte[] buffer) throws LinkTroubleException, InterruptedException {
            try {
                return file.read(buffer);
            } catch (IOException e) {
                throw LinkTroubleException.hopeless(link.file() + " cannot be read: " + e.getMessage() + ".");
            }
        }

        @Override
        public void write(byte[] bytes) {
            // A captured stream answers nothing.
        }

        @Override
        public void close() {
            try {
                file.close();
            } catch (IOException e) {
                // It was only read; nothing can be lost by a failing close, and there is nothing to do about it.
                return;
            }
        }
    }

    /** Line by line, each when its uptime comes. */
    private final class Paced extends Whole {
        /** Lines longer than this are handed on in pieces. */
        private static final int PIECE_BYTES = 4_096;

        /** A stream without uptimes is taken to have one line a second. */
        private static final long USUAL_INTERVAL_MS = 1_000;

        private final Pace pace = new Pace(around.clock(), around.pauses(), link.speed());
        private final byte[] line = new byte[PIECE_BYTES];
        private int length;
        private boolean ended;
        private boolean anyUptime;
        private long lastUptimeMs;
        private long streamMs;

        Paced(InputStream file) {
            super(new BufferedInputStream(file, 1 << 16));
        }

        @Override
        public int read(byte[] buffer) throws LinkTroubleException, InterruptedException {
            int filled = 0;
            while (true) {
                if (length == 0 && !nextLine()) {
                    return filled == 0 ? END : filled;
                }
                if (filled + length > buffer.length) {
                    return filled;
                }
                if (!pace.isDue(streamMs)) {
                    if (filled == 0) {
                        pace.await(streamMs);
                    }
                    return filled;
                }
                System.arraycopy(line, 0, buffer, filled, length);
                filled += length;
                length = 0;
            }
        }

        private boolean nextLine() throws LinkTroubleException {
            if (ended) {
                return false;
            }
            try {
                while (length < PIECE_BYTES) {
                    int b = file.read();
                    if (b < 0) {
                        ended = true;
                        break;
                    }
                    line[length++] = (byte) b;
                    if (b == '\n') {
                        break;
                    }
                }
            } catch (IOException e) {
                throw LinkTroubleException.hopeless(link.file() + " cannot be read: " + e.getMessage() + ".");
            }
            advance();
            return length > 0;
        }

        private void advance() {
            long uptimeMs = uptimeMs();
            if (uptimeMs < 0) {
                streamMs += anyUptime ? 0 : USUAL_INTERVAL_MS;
                return;
            }
            if (anyUptime) {
                long step = uptimeMs - lastUptimeMs;
                // A fall is a restart of the controller; how long it took is not in the stream.
                streamMs += step >= 0 ? step : USUAL_INTERVAL_MS;
            }
            anyUptime = true;
            lastUptimeMs = uptimeMs;
        }

        /** The third word of a line of the protocol; −1 where it is none. */
        private long uptimeMs() {
            if (length < 2 || line[0] < 'A' || line[0] > 'Z' || line[1] != ' ') {
                return -1;
            }
            int at = 2;
            while (at < length && line[at] >= '0' && line[at] <= '9') {
                at++;
            }
            if (at == 2 || at >= length || line[at] != ' ') {
                return -1;
            }
            int from = ++at;
            long sum = 0;
            while (at < length && line[at] >= '0' && line[at] <= '9' && at - from < 10) {
                sum = sum * 10 + line[at++] - '0';
            }
            return at == from || at >= length || line[at] != ' ' ? -1 : sum;
        }
    }
}
