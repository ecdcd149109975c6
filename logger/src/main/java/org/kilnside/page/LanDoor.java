package org.kilnside.page;

import java.io.EOFException;
import java.io.IOException;
import java.net.BindException;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketException;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.kilnside.link.share.LanWire;
import org.kilnside.link.share.LineWire;
import org.kilnside.link.share.ShareKey;
import org.kilnside.session.HostClock;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The door to the network, which is only there when its owner opens it: lets in copies that know the token, and no
 * others. Nothing but snapshots goes out; notes come in where the owner allows them.
 */
public final class LanDoor implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(LanDoor.class);

    /** A greeting takes one exchange; one that is dragged out is broken off. */
    private static final long GREETING_MS = 10_000;

    private static final long LOOK_ROUND_MS = 1_000;

    private final SnapshotStream stream;
    private final HostClock clock;
    private final ShareKey key;
    private final boolean takesNotes;
    private final ServerSocket server;
    private final Doorkeeper doorkeeper;
    private final Map<Socket, Long> greetingSinceMs = new ConcurrentHashMap<>();
    private volatile boolean closed;

    private LanDoor(SnapshotStream stream, HostClock clock, ShareKey key, boolean takesNotes, ServerSocket server) {
        this.stream = stream;
        this.clock = clock;
        this.key = key;
        this.takesNotes = takesNotes;
        this.server = server;
        this.doorkeeper = new Doorkeeper(clock);
    }

    /**
     * Opens the door on every network of this computer.
     *
     * @param port 0 for any that is free
     * @throws IOException with a sentence when the port cannot be had
     */
    public static LanDoor open(SnapshotStream stream, HostClock clock, ShareKey key, boolean takesNotes, int port)
            throws IOException {
        ServerSocket server = new ServerSocket();
        try {
            server.setReuseAddress(true);
            server.bind(new InetSocketAddress(port), 64);
        } catch (BindException e) {
            server.close();
            throw new IOException(
                    "port " + port + " of this computer is taken or not allowed (" + e.getMessage()
                            + "): choose another with --share-port",
                    e);
        }
        LanDoor door = new LanDoor(stream, clock, key, takesNotes, server);
        SnapshotStream.daemon("door", door::accept);
        SnapshotStream.daemon("door-watch", door::breakOffTheSlow);
        return door;
    }

    /** The port it is open on. */
    public int port() {
        return server.getLocalPort();
    }

    private void accept() {
        while (!closed) {
            try {
                Socket visitor = server.accept();
                if (doorkeeper.mayGreet(visitor.getInetAddress())) {
                    greetingSinceMs.put(visitor, clock.monotonicMs());
                    SnapshotStream.daemon("door-greeting", () -> greet(visitor));
                } else {
                    visitor.close();
                }
            } catch (IOException e) {
                if (!closed) {
                    // Out of descriptors for a moment, or a visitor that left: the door stays open.
                    LOG.warn("could not take a visitor", e);
                    pause();
                }
            }
        }
    }

    private void greet(Socket visitor) {
        Doorkeeper.Outcome outcome = Doorkeeper.Outcome.BROKEN_OFF;
        try {
            LineWire wire = LanWire.accept(visitor, key, takesNotes);
            outcome = Doorkeeper.Outcome.RIGHT;
            stream.admit(wire, takesNotes ? Follower.Rights.NOTES : Follower.Rights.LOOK);
        } catch (LanWire.RefusedException e) {
            outcome = Doorkeeper.Outcome.WRONG;
            LOG.warn("turned away {}: {}", visitor.getInetAddress().getHostAddress(), e.getMessage());
        } catch (EOFException | SocketException e) {
            LOG.debug("a visitor left", e);
        } catch (IOException e) {
            LOG.debug("a visitor did not greet as a copy does", e);
        } finally {
            greetingSinceMs.remove(visitor);
            doorkeeper.done(visitor.getInetAddress(), outcome);
        }
    }

    private void breakOffTheSlow() {
        while (!closed) {
            long now = clock.monotonicMs();
            greetingSinceMs.forEach((visitor, since) -> {
                if (now - since > GREETING_MS) {
                    close(visitor);
                }
            });
            pause();
        }
    }

    private static void pause() {
        try {
            Thread.sleep(LOOK_ROUND_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void close(Socket visitor) {
        try {
            visitor.close();
        } catch (IOException e) {
            LOG.debug("closing a visitor's socket", e);
        }
    }

    @Override
    public void close() {
        closed = true;
        try {
            server.close();
        } catch (IOException e) {
            LOG.warn("the door could not be closed", e);
        }
        greetingSinceMs.keySet().forEach(LanDoor::close);
    }
}
