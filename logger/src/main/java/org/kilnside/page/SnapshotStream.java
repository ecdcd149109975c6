package org.kilnside.page;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.UnixDomainSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicReference;
import org.kilnside.files.SnapshotLines;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The recorder's side of attaching: gives its snapshots to every Kilnside of the same user that connects to its
 * socket, at most five a second and at least one, and takes their notes. A follower that does not read for five
 * seconds is dropped; the session is never held up, since it only leaves its newest snapshot in a mailbox.
 */
public final class SnapshotStream implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(SnapshotStream.class);
    private static final long SHORTEST_MS = 200;
    private static final long LONGEST_MS = 1_000;
    private static final long PATIENCE_MS = 5_000;

    private final LiveFeed feed;
    private final HostClock clock;
    private final UnixDomainSocketAddress address;
    private final ServerSocketChannel server;
    private final Set<Follower> followers = ConcurrentHashMap.newKeySet();
    private volatile boolean closed;

    private SnapshotStream(
            LiveFeed feed, HostClock clock, UnixDomainSocketAddress address, ServerSocketChannel server) {
        this.feed = feed;
        this.clock = clock;
        this.address = address;
        this.server = server;
    }

    /**
     * Opens the socket. Whoever calls holds the recorder's lock, so that a socket left behind by a killed recorder may
     * be removed.
     *
     * @throws IOException when the socket cannot be opened
     */
    public static SnapshotStream open(LiveFeed feed, HostClock clock, UnixDomainSocketAddress address)
            throws IOException {
        Files.deleteIfExists(address.getPath());
        ServerSocketChannel server = ServerSocketChannel.open(java.net.StandardProtocolFamily.UNIX);
        server.bind(address);
        SnapshotStream stream = new SnapshotStream(feed, clock, address, server);
        daemon("stream", stream::accept);
        daemon("stream-watch", stream::dropTheDeaf);
        return stream;
    }

    private static void daemon(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    private void accept() {
        while (!closed) {
            try {
                Follower follower = new Follower(server.accept());
                followers.add(follower);
                daemon("stream-out", follower::send);
                daemon("stream-in", follower::receive);
            } catch (IOException e) {
                if (!closed) {
                    LOG.warn("could not take a follower", e);
                }
                return;
            }
        }
    }

    private void dropTheDeaf() {
        while (!closed) {
            long now = clock.monotonicMs();
            for (Follower follower : followers) {
                long since = follower.writingSinceMs;
                if (since != Follower.NOT_WRITING && now - since > PATIENCE_MS) {
                    LOG.warn("dropped a follower that did not read for {} ms", now - since);
                    follower.close();
                }
            }
            pause(LONGEST_MS);
        }
    }

    private static void pause(long ms) {
        try {
            Thread.sleep(ms);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        closed = true;
        try {
            server.close();
            Files.deleteIfExists(address.getPath());
        } catch (IOException e) {
            LOG.warn("the stream's socket could not be removed", e);
        }
        followers.forEach(Follower::close);
    }

    /** One attached Kilnside. */
    private final class Follower {
        private static final long NOT_WRITING = Long.MIN_VALUE;

        private final SocketChannel channel;
        private final AtomicReference<Snapshot> mailbox;
        private final LiveFeed.Subscription subscription;
        private final SnapshotLines.Writer writer = new SnapshotLines.Writer();
        private volatile long writingSinceMs = NOT_WRITING;

        Follower(SocketChannel channel) {
            this.channel = channel;
            this.mailbox = new AtomicReference<>(feed.latest());
            this.subscription = feed.subscribe(mailbox::set);
        }

        void send() {
            long lastMs = Long.MIN_VALUE;
            try {
                while (channel.isOpen()) {
                    Snapshot next = mailbox.getAndSet(null);
                    long now = clock.monotonicMs();
                    if (next == null && now - lastMs >= LONGEST_MS) {
                        next = feed.latest();
                    }
                    if (next != null) {
                        lastMs = now;
                        byte[] line = (writer.line(next, feed.lines(), now) + "\n").getBytes(StandardCharsets.UTF_8);
                        writingSinceMs = now;
                        ByteBuffer buffer = ByteBuffer.wrap(line);
                        while (buffer.hasRemaining()) {
                            channel.write(buffer);
                        }
                        writingSinceMs = NOT_WRITING;
                    }
                    pause(SHORTEST_MS);
                }
            } catch (IOException e) {
                LOG.debug("a follower went away", e);
            } finally {
                close();
            }
        }

        void receive() {
            try (BufferedReader in = new BufferedReader(Channels.newReader(channel, StandardCharsets.UTF_8), 1024)) {
                String line;
                while ((line = in.readLine()) != null) {
                    take(SnapshotLines.Request.of(line));
                }
            } catch (IOException | IllegalArgumentException e) {
                LOG.debug("a follower went away", e);
            } finally {
                close();
            }
        }

        private void take(SnapshotLines.Request request) {
            request.note().ifPresent(feed::note);
            request.acknowledge().ifPresent(feed::acknowledge);
            request.firing().ifPresent(what -> {
                if (what.equals(SnapshotLines.Request.BEGINS)) {
                    feed.firingBegins();
                } else if (what.equals(SnapshotLines.Request.ENDS)) {
                    feed.firingEnds();
                }
            });
        }

        void close() {
            followers.remove(this);
            subscription.close();
            try {
                channel.close();
            } catch (IOException e) {
                LOG.debug("closing a follower's socket", e);
            }
        }
    }
}
