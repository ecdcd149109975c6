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
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.kilnside.files.SnapshotLines;
import org.kilnside.session.Connection;
import org.kilnside.session.HostClock;
import org.kilnside.session.LineView;
import org.kilnside.session.Listeners;
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

    private final Supplier<Optional<? extends SocketAddress>> place;
    private final HostClock clock;
    private final Listeners listeners = new Listeners();
    private volatile Optional<SocketChannel> channel = Optional.empty();
    private volatile Snapshot latest;
    private volatile LineView heard = LineView.NONE;
    private volatile boolean closed;

    private AttachedFiring(Supplier<Optional<? extends SocketAddress>> place, HostClock clock, Snapshot first) {
        this.place = place;
        this.clock = clock;
        this.latest = first;
    }

    /**
     * Attaches to a recorder that is there now, and waits for its first snapshot.
     *
     * @param place where the recorder is; asked again each time it is looked for
     * @return the live firing; empty when no recorder is there
     * @throws IllegalArgumentException when the recorder is of another version, in one plain sentence
     */
    public static Optional<AttachedFiring> now(Supplier<Optional<? extends SocketAddress>> place, HostClock clock) {
        try {
            Optional<? extends SocketAddress> address = place.get();
            if (address.isEmpty()) {
                return Optional.empty();
            }
            SocketChannel channel = connect(address.get());
            BufferedReader in = reader(channel);
            String line = in.readLine();
            if (line == null) {
                channel.close();
                return Optional.empty();
            }
            SnapshotLines.Reader lines = new SnapshotLines.Reader();
            AttachedFiring firing = new AttachedFiring(place, clock, lines.snapshot(line, clock.monotonicMs()));
            firing.heard = lines.heard();
            firing.channel = Optional.of(channel);
            firing.begin(() -> firing.follow(in, lines));
            return Optional.of(firing);
        } catch (IOException e) {
            LOG.debug("no recorder is there", e);
            return Optional.empty();
        }
    }

    /**
     * Attaches to a recorder as soon as there is one.
     *
     * @param meanwhile what to show until then
     */
    public static AttachedFiring whenThere(
            Supplier<Optional<? extends SocketAddress>> place, HostClock clock, Snapshot meanwhile) {
        AttachedFiring firing = new AttachedFiring(place, clock, meanwhile);
        firing.begin(firing::lookAndFollow);
        return firing;
    }

    private void begin(Runnable work) {
        Thread thread = new Thread(work, "attached");
        thread.setDaemon(true);
        thread.start();
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

    private void follow(BufferedReader in, SnapshotLines.Reader lines) {
        readAll(in, lines);
        lookAndFollow();
    }

    private void lookAndFollow() {
        while (!closed) {
            channel = lookAgain();
            channel.ifPresent(open -> readAll(reader(open), new SnapshotLines.Reader()));
        }
    }

    private void readAll(BufferedReader in, SnapshotLines.Reader lines) {
        String why = "The recording Kilnside is gone. Is its computer on? Start it again: kilnside record";
        try {
            String line;
            while ((line = in.readLine()) != null) {
                Snapshot next = lines.snapshot(line, clock.monotonicMs());
                heard = lines.heard();
                publish(next);
            }
        } catch (IOException e) {
            LOG.debug("the recorder's stream ended", e);
        } catch (IllegalArgumentException e) {
            why = e.getMessage();
        }
        if (!closed) {
            publish(lost(latest, why));
        }
    }

    private Optional<SocketChannel> lookAgain() {
        while (!closed) {
            try {
                Thread.sleep(LOOK_AGAIN_MS);
                Optional<? extends SocketAddress> address = place.get();
                if (address.isPresent()) {
                    return Optional.of(connect(address.get()));
                }
            } catch (IOException e) {
                LOG.debug("no recorder is there yet", e);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                closed = true;
            }
        }
        return Optional.empty();
    }

    private Snapshot lost(Snapshot last, String why) {
        Connection gone = new Connection(
                Connection.State.LOST,
                clock.monotonicMs(),
                Optional.of(why),
                last.connection().counts());
        return last.with(gone, last.latest(), last.curve());
    }

    private void publish(Snapshot snapshot) {
        latest = snapshot;
        listeners.tell(snapshot);
    }

    @Override
    public Snapshot latest() {
        return latest;
    }

    @Override
    public Subscription subscribe(Consumer<Snapshot> listener) {
        return listeners.add(listener);
    }

    @Override
    public LineView lines() {
        return heard;
    }

    @Override
    public void note(String text) {
        say(SnapshotLines.Request.ofNote(text));
    }

    @Override
    public void acknowledge(String alarmId) {
        say(SnapshotLines.Request.ofAcknowledgement(alarmId));
    }

    @Override
    public void firingBegins() {
        say(SnapshotLines.Request.ofFiring(SnapshotLines.Request.BEGINS));
    }

    @Override
    public void firingEnds() {
        say(SnapshotLines.Request.ofFiring(SnapshotLines.Request.ENDS));
    }

    private void say(SnapshotLines.Request request) {
        // A line of a note is short against the socket's buffer: this does not wait in practice, and the caller may be
        // a window, so it is done apart.
        Thread thread = new Thread(
                () -> {
                    try {
                        ByteBuffer line = ByteBuffer.wrap((request.line() + "\n").getBytes(StandardCharsets.UTF_8));
                        SocketChannel open = channel.orElseThrow(() -> new IOException("no recorder is there to tell"));
                        while (line.hasRemaining()) {
                            open.write(line);
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
            if (channel.isPresent()) {
                channel.get().close();
            }
        } catch (IOException e) {
            LOG.debug("closing the stream", e);
        }
    }
}
