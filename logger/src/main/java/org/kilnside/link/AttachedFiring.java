package org.kilnside.link;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.SocketAddress;
import java.net.StandardProtocolFamily;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.kilnside.files.SnapshotLines;
import org.kilnside.session.Connection;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Another Kilnside's live firing, followed over its stream. When the stream ends the last snapshot is shown on as
 * lost, never as live, and the recorder is looked for again.
 */
public final class AttachedFiring implements LiveFeed, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(AttachedFiring.class);
    private static final long LOOK_AGAIN_MS = 2_000;

    private final SocketAddress address;
    private final HostClock clock;
    private final CopyOnWriteArrayList<Consumer<Snapshot>> listeners = new CopyOnWriteArrayList<>();
    private volatile SocketChannel channel;
    private volatile Snapshot latest;
    private volatile boolean closed;

    private AttachedFiring(SocketAddress address, HostClock clock, SocketChannel channel, Snapshot first) {
        this.address = address;
        this.clock = clock;
        this.channel = channel;
        this.latest = first;
    }

    /**
     * Attaches to a recorder and waits for its first snapshot.
     *
     * @return the live firing; empty when no recorder is there
     * @throws IllegalArgumentException when the recorder is of another version, in one plain sentence
     */
    public static Optional<AttachedFiring> to(SocketAddress address, HostClock clock) {
        try {
            SocketChannel channel = connect(address);
            BufferedReader in = reader(channel);
            String line = in.readLine();
            if (line == null) {
                channel.close();
                return Optional.empty();
            }
            SnapshotLines.Reader lines = new SnapshotLines.Reader();
            AttachedFiring firing =
                    new AttachedFiring(address, clock, channel, lines.snapshot(line, clock.monotonicMs()));
            Thread thread = new Thread(() -> firing.follow(in, lines), "attached");
            thread.setDaemon(true);
            thread.start();
            return Optional.of(firing);
        } catch (IOException e) {
            LOG.debug("no recorder at {}", address, e);
            return Optional.empty();
        }
    }

    private static SocketChannel connect(SocketAddress address) throws IOException {
        SocketChannel channel = SocketChannel.open(StandardProtocolFamily.UNIX);
        try {
            channel.connect(address);
            return channel;
        } catch (IOException e) {
            channel.close();
            throw e;
        }
    }

    private static BufferedReader reader(SocketChannel channel) {
        return new BufferedReader(Channels.newReader(channel, StandardCharsets.UTF_8), 1 << 16);
    }

    private void follow(BufferedReader first, SnapshotLines.Reader firstLines) {
        BufferedReader in = first;
        SnapshotLines.Reader lines = firstLines;
        while (!closed) {
            try {
                String line;
                while ((line = in.readLine()) != null) {
                    publish(lines.snapshot(line, clock.monotonicMs()));
                }
            } catch (IOException | IllegalArgumentException e) {
                LOG.debug("the recorder's stream ended", e);
            }
            if (closed) {
                return;
            }
            publish(lost(latest));
            Optional<SocketChannel> again = lookAgain();
            if (again.isEmpty()) {
                return;
            }
            channel = again.get();
            in = reader(channel);
            lines = new SnapshotLines.Reader();
        }
    }

    private Optional<SocketChannel> lookAgain() {
        while (!closed) {
            try {
                Thread.sleep(LOOK_AGAIN_MS);
                return Optional.of(connect(address));
            } catch (IOException e) {
                LOG.debug("the recorder is not back yet", e);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return Optional.empty();
            }
        }
        return Optional.empty();
    }

    private Snapshot lost(Snapshot last) {
        Connection gone = new Connection(
                Connection.State.LOST,
                clock.monotonicMs(),
                Optional.of("The recording Kilnside is gone. Is its computer on? Start it again: kilnside record"),
                last.connection().counts());
        return last.with(gone, last.latest(), last.curve());
    }

    private void publish(Snapshot snapshot) {
        latest = snapshot;
        for (Consumer<Snapshot> listener : listeners) {
            listener.accept(snapshot);
        }
    }

    @Override
    public Snapshot latest() {
        return latest;
    }

    @Override
    public Subscription subscribe(Consumer<Snapshot> listener) {
        listeners.add(listener);
        return () -> listeners.remove(listener);
    }

    @Override
    public void note(String text) {
        say(new SnapshotLines.Request(Optional.of(text), Optional.empty()));
    }

    @Override
    public void firingBegins() {
        say(new SnapshotLines.Request(Optional.empty(), Optional.of(SnapshotLines.Request.BEGINS)));
    }

    @Override
    public void firingEnds() {
        say(new SnapshotLines.Request(Optional.empty(), Optional.of(SnapshotLines.Request.ENDS)));
    }

    private void say(SnapshotLines.Request request) {
        // A line of a note is short against the socket's buffer: this does not wait in practice, and the caller may be
        // a window, so it is done apart.
        Thread thread = new Thread(
                () -> {
                    try {
                        ByteBuffer line = ByteBuffer.wrap((request.line() + "\n").getBytes(StandardCharsets.UTF_8));
                        while (line.hasRemaining()) {
                            channel.write(line);
                        }
                    } catch (IOException e) {
                        LOG.warn("a note did not reach the recorder", e);
                    }
                },
                "attached-say");
        thread.setDaemon(true);
        thread.start();
    }

    @Override
    public void close() {
        closed = true;
        try {
            channel.close();
        } catch (IOException e) {
            LOG.debug("closing the stream", e);
        }
    }
}
