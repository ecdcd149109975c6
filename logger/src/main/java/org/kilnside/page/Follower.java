package org.kilnside.page;

import java.io.IOException;
import java.time.Duration;
import java.util.OptionalInt;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import org.kilnside.files.SaidByCopy;
import org.kilnside.files.SnapshotLines;
import org.kilnside.firing.Lighting;
import org.kilnside.link.share.LineWire;
import org.kilnside.session.HostClock;
import org.kilnside.session.LineView;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One attached Kilnside: sends it the newest snapshot, at most five a second and at least one, and takes what it may
 * say. The session only leaves its newest snapshot in a mailbox.
 */
final class Follower {
    private static final Logger LOG = LoggerFactory.getLogger(Follower.class);
    private static final long SHORTEST_MS = 200;
    private static final long LONGEST_MS = 1_000;
    private static final long NOT_WRITING = Long.MIN_VALUE;

    /** A note is a few sentences; a copy sends a longer one in parts, each far below this. */
    private static final int LONGEST_REQUEST = 65_536;

    private final LineWire wire;
    private final LiveFeed feed;
    private final HostClock clock;
    private final Rights rights;
    private final Consumer<Follower> gone;
    private final AtomicReference<Snapshot> mailbox;
    private final LiveFeed.Subscription subscription;
    private final SnapshotLines.Writer writer = new SnapshotLines.Writer();
    private volatile long waitingSinceMs = NOT_WRITING;
    private final TakenDown taken;
    private volatile long takenUpTo;
    private volatile boolean closed;

    /** What a follower sees, and whether what it says is heard. */
    enum Rights {
        /** On this computer, the same person's: everything. */
        HERE(true, true),
        /** On another computer: snapshots, never the wire's own lines. */
        NOTES(false, true),
        LOOK(false, false);

        private final boolean whole;
        private final boolean heard;

        Rights(boolean whole, boolean heard) {
            this.whole = whole;
            this.heard = heard;
        }
    }

    /**
     * @param taken what the copies have said so far
     * @param gone told once this follower is no more
     */
    Follower(LineWire wire, LiveFeed feed, HostClock clock, Rights rights, TakenDown taken, Consumer<Follower> gone) {
        this.wire = wire;
        this.feed = feed;
        this.clock = clock;
        this.rights = rights;
        this.taken = taken;
        this.gone = gone;
        this.mailbox = new AtomicReference<>(feed.latest());
        this.subscription = feed.subscribe(mailbox::set);
    }

    /** How long it has not taken a byte of what waits for it, in ms; 0 while it keeps up. */
    long deafForMs() {
        long since = waitingSinceMs;
        return since == NOT_WRITING ? 0 : clock.monotonicMs() - since;
    }

    void send() {
        long lastMs = clock.monotonicMs() - LONGEST_MS;
        try {
            while (!closed) {
                Snapshot next = mailbox.getAndSet(null);
                long now = clock.monotonicMs();
                if (next == null && now - lastMs >= LONGEST_MS) {
                    next = feed.latest();
                }
                if (next != null) {
                    lastMs = now;
                    if (takenUpTo > 0) {
                        writer.taken(takenUpTo);
                    }
                    String line = writer.line(next, rights.whole ? feed.lines() : LineView.NONE, now);
                    waitingSinceMs = clock.monotonicMs();
                    // A slow wire that moves is no deaf follower: a long curve takes its time over a poor network.
                    wire.writeLine(line, sent -> waitingSinceMs = clock.monotonicMs());
                    waitingSinceMs = NOT_WRITING;
                    if (!writer.isWhole(next)) {
                        // A long curve goes out part by part, without a pause; a newer snapshot goes on with it.
                        mailbox.compareAndSet(null, next);
                        continue;
                    }
                }
                Thread.sleep(SHORTEST_MS);
            }
        } catch (IOException e) {
            LOG.debug("a follower went away", e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            close();
        }
    }

    void receive() {
        try {
            String line;
            while ((line = wire.readLine(LONGEST_REQUEST)) != null) {
                SaidByCopy said = SaidByCopy.of(line);
                if (rights.heard) {
                    take(said);
                } else {
                    LOG.warn("left unheard what a follower that may only look had to say");
                }
            }
        } catch (IOException | IllegalArgumentException e) {
            LOG.debug("a follower went away", e);
        } finally {
            close();
        }
    }

    private void take(SaidByCopy said) {
        if (taken.isNews(said.copy(), said.number())) {
            String text = said.text().orElse("");
            switch (said.what()) {
                case NOTE -> feed.note(text, Duration.ofMillis(Math.max(0, said.ageMs())));
                case ACKNOWLEDGE -> acknowledge(text, said.times());
                case LIGHTING -> Lighting.parse(text).ifPresent(feed::lighting);
                case FIRING_BEGINS -> feed.firingBegins();
                case FIRING_ENDS -> feed.firingEnds();
                case RING_TEST -> feed.ringTest();
                case TEST_HEARD -> feed.testHeard(text);
            }
        }
        takenUpTo = said.number();
        // The copy is told at once: the sooner it knows, the less is said twice.
        mailbox.compareAndSet(null, feed.latest());
    }

    /** An answer that was a while on its way does not silence what has been raised again since. */
    private void acknowledge(String alarmId, OptionalInt times) {
        boolean again = feed.latest().alarms().stream()
                .anyMatch(alarm -> alarm.id().equals(alarmId) && times.orElse(alarm.times()) < alarm.times());
        if (!again) {
            feed.acknowledge(alarmId);
        }
    }

    void close() {
        closed = true;
        subscription.close();
        wire.close();
        gone.accept(this);
    }
}
