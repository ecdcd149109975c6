package org.kilnside.page;

import java.io.IOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.ServerSocketChannel;
import java.nio.file.Files;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.kilnside.link.share.LineWire;
import org.kilnside.link.share.Wires;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The recorder's side of attaching: gives its snapshots to every Kilnside of the same user that connects to its
 * socket, and to those a {@link LanDoor} lets in. A follower that takes nothing for five seconds is dropped; the
 * session is never held up.
 */
public final class SnapshotStream implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(SnapshotStream.class);
    private static final long PATIENCE_MS = 5_000;
    private static final long LOOK_ROUND_MS = 1_000;

    /** More than a house has rooms; beyond it a follower is turned away rather than the recorder slowed. */
    static final int MOST_FOLLOWERS = 100;

    private final LiveFeed feed;
    private final HostClock clock;
    private final UnixDomainSocketAddress address;
    private final ServerSocketChannel server;
    private final Set<Follower> followers = ConcurrentHashMap.newKeySet();
    private final TakenDown taken = new TakenDown();
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
        ServerSocketChannel server = ServerSocketChannel.open(StandardProtocolFamily.UNIX);
        server.bind(address);
        SnapshotStream stream = new SnapshotStream(feed, clock, address, server);
        daemon("stream", stream::accept);
        daemon("stream-watch", stream::dropTheDeaf);
        return stream;
    }

    static void daemon(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    private void accept() {
        while (!closed) {
            try {
                admit(Wires.over(server.accept()), Follower.Rights.HERE);
            } catch (IOException e) {
                if (!closed) {
                    LOG.warn("could not take a follower", e);
                }
                return;
            }
        }
    }

    /**
     * Lets a copy follow from now on.
     *
     * @param rights what it sees and may say
     */
    void admit(LineWire wire, Follower.Rights rights) {
        if (closed || followers.size() >= MOST_FOLLOWERS) {
            LOG.warn("turned a follower away: {} follow already", followers.size());
            wire.close();
            return;
        }
        Follower follower = new Follower(wire, feed, clock, rights, taken, followers::remove);
        followers.add(follower);
        daemon("stream-out", follower::send);
        daemon("stream-in", follower::receive);
    }

    /** How many copies follow now. */
    public int followers() {
        return followers.size();
    }

    private void dropTheDeaf() {
        while (!closed) {
            for (Follower follower : followers) {
                long deafForMs = follower.deafForMs();
                if (deafForMs > PATIENCE_MS) {
                    LOG.warn("dropped a follower that did not read for {} ms", deafForMs);
                    follower.close();
                }
            }
            try {
                Thread.sleep(LOOK_ROUND_MS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
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
}
