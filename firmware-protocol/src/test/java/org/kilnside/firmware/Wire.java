package org.kilnside.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.kilnside.protocol.Message;
import org.kilnside.protocol.WireReader;

/** A plain reader at the end of a board's cable: opens the port once, both ways, and keeps every message. */
final class Wire implements AutoCloseable {
    private static final Duration PATIENCE = Duration.ofSeconds(60);

    private final RandomAccessFile port;
    private final List<Message> messages = new ArrayList<>();
    private final WireReader reader = new WireReader(this::keep);
    private boolean ended;

    Wire(Path pty) throws IOException {
        port = new RandomAccessFile(pty.toFile(), "rw");
        reader.joinMidStream();
        Thread listener = new Thread(this::listen, "wire " + pty);
        listener.setDaemon(true);
        listener.start();
    }

    void ask(String request) throws IOException {
        port.write((request + "\n").getBytes(StandardCharsets.US_ASCII));
    }

    /** The messages of a kind so far, in the order they came. */
    <T extends Message> List<T> all(Class<T> kind) {
        synchronized (messages) {
            return messages.stream().filter(kind::isInstance).map(kind::cast).toList();
        }
    }

    /** Waits for the first message of a kind that satisfies a condition; fails after a minute. */
    <T extends Message> T await(Class<T> kind, Predicate<T> condition) throws InterruptedException {
        Instant end = Instant.now().plus(PATIENCE);
        synchronized (messages) {
            while (true) {
                for (Message message : messages) {
                    if (kind.isInstance(message) && condition.test(kind.cast(message))) {
                        return kind.cast(message);
                    }
                }
                long left = Duration.between(Instant.now(), end).toMillis();
                assertThat(left)
                        .as("no such %s within %s among %d messages", kind.getSimpleName(), PATIENCE, messages.size())
                        .isPositive();
                messages.wait(left);
            }
        }
    }

    /** Waits until the port is gone. */
    void awaitEnd() throws InterruptedException {
        Instant end = Instant.now().plus(PATIENCE);
        synchronized (messages) {
            while (!ended) {
                long left = Duration.between(Instant.now(), end).toMillis();
                assertThat(left).as("the port is still there").isPositive();
                messages.wait(left);
            }
        }
    }

    /** Lines that were discarded. */
    long discarded() {
        synchronized (messages) {
            return reader.badChecksum() + reader.malformed();
        }
    }

    /** Lines missing by their sequence numbers. */
    long lost() {
        synchronized (messages) {
            return reader.lost();
        }
    }

    @Override
    public void close() throws IOException {
        port.close();
    }

    private void keep(Message message) {
        messages.add(message);
        messages.notifyAll();
    }

    private void listen() {
        byte[] buffer = new byte[4096];
        try {
            for (int count = port.read(buffer); count >= 0; count = port.read(buffer)) {
                synchronized (messages) {
                    reader.take(buffer, 0, count);
                }
            }
        } catch (IOException e) {
            // The cable is out, or this end was closed: both are the end of the wire, and awaitEnd says so.
        }
        synchronized (messages) {
            ended = true;
            messages.notifyAll();
        }
    }
}
