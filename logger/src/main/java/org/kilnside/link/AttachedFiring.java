package org.kilnside.link;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.UUID;
import java.util.function.Consumer;
import org.kilnside.alarm.Alarm;
import org.kilnside.files.SaidByCopy;
import org.kilnside.files.SaidByCopy.What;
import org.kilnside.files.SnapshotLines;
import org.kilnside.firing.Lighting;
import org.kilnside.link.share.LanWire;
import org.kilnside.link.share.LineWire;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.session.Connection;
import org.kilnside.session.HostClock;
import org.kilnside.session.LineView;
import org.kilnside.session.Listeners;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Another Kilnside's live firing, followed over its stream. When the stream ends, or says nothing for {@value
 * #SILENT_MS} ms, the last snapshot is shown on as lost, never as live, and the recorder is looked for again.
 */
public final class AttachedFiring implements LiveFeed, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(AttachedFiring.class);
    private static final long LOOK_AGAIN_MS = 2_000;
    private static final long LOOK_AGAIN_AFTER_REFUSAL_MS = 60_000;
    private static final long LOOK_ROUND_MS = 500;

    /** A recorder says something each second; one that says nothing for so long is stopped, asleep or cut off. */
    private static final long SILENT_MS = 15_000;

    /** The wall clock running ahead by this much within a moment: this computer slept, or its clock was set. */
    private static final long SLEPT_MS = 5_000;

    /** A part of a curve, a long list of what happened, and a forecast stay far below it. */
    private static final int LONGEST_LINE = 20_000_000;

    /** A longer note goes in parts. */
    private static final int LONGEST_NOTE = 4_000;

    private final RecorderPlace place;
    private final HostClock clock;
    private final Listeners listeners = new Listeners();
    private final Object publishing = new Object();

    /** Said from the first not to be there: nobody is lost who never came. */
    private final boolean knownAbsent;

    private final Outbox outbox = new Outbox(UUID.randomUUID().toString());
    private volatile Optional<LanWire.Admitted> recorder = Optional.empty();
    private volatile boolean takesNotes;
    private volatile int wires;
    private volatile long heardMs;
    private volatile boolean everHeard;
    private volatile long connectedMs;
    private volatile Snapshot latest;
    private volatile LineView wireLines = LineView.NONE;
    private volatile boolean closed;

    private AttachedFiring(RecorderPlace place, HostClock clock, Snapshot first) {
        this.place = place;
        this.clock = clock;
        this.latest = first;
        this.knownAbsent = first.connection().state() == Connection.State.LOST;
        this.heardMs = clock.monotonicMs();
    }

    /**
     * Attaches to a recorder that is there now, and waits for its first snapshot.
     *
     * @return the live firing; empty when no recorder is there
     * @throws IllegalArgumentException when the recorder is of another version, in one plain sentence
     */
    public static Optional<AttachedFiring> now(RecorderPlace place, HostClock clock) {
        Connection looking = new Connection(
                Connection.State.CONNECTING, clock.monotonicMs(), Optional.empty(), Connection.Counts.NONE);
        AttachedFiring firing = new AttachedFiring(place, clock, Snapshot.before(Optional.empty(), looking));
        try {
            LanWire.Admitted there = place.connect();
            firing.admitted(there);
            firing.begin("attached-watch", firing::lookRound);
            SnapshotLines.Reader lines = new SnapshotLines.Reader();
            String line = there.wire().readLine(LONGEST_LINE);
            if (line == null) {
                firing.close();
                return Optional.empty();
            }
            firing.heard(lines, line);
            while (!lines.isWhole() && (line = there.wire().readLine(LONGEST_LINE)) != null) {
                firing.heard(lines, line);
            }
            firing.begin("attached", () -> {
                firing.readAll(there, lines);
                firing.lookAndFollow(LOOK_AGAIN_MS);
            });
            return Optional.of(firing);
        } catch (IOException e) {
            LOG.debug("no recorder is there", e);
            firing.close();
            return Optional.empty();
        } catch (IllegalArgumentException e) {
            firing.close();
            throw e;
        }
    }

    /**
     * Attaches to a recorder as soon as there is one.
     *
     * @param meanwhile what to show until then
     */
    public static AttachedFiring whenThere(RecorderPlace place, HostClock clock, Snapshot meanwhile) {
        AttachedFiring firing = new AttachedFiring(place, clock, meanwhile);
        firing.begin("attached-watch", firing::lookRound);
        firing.begin("attached", () -> firing.lookAndFollow(0));
        return firing;
    }

    private void begin(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    private void lookAndFollow(long firstAfterMs) {
        long waitMs = firstAfterMs;
        while (!closed) {
            try {
                Thread.sleep(waitMs);
                waitMs = LOOK_AGAIN_MS;
                LanWire.Admitted there = place.connect();
                connectedMs = clock.monotonicMs();
                admitted(there);
                readAll(there, new SnapshotLines.Reader());
            } catch (LanWire.RefusedException e) {
                waitMs = LOOK_AGAIN_AFTER_REFUSAL_MS;
                sayLost(place.refusal(e));
            } catch (IOException e) {
                LOG.debug("no recorder is there yet", e);
                if (everHeard || !knownAbsent) {
                    sayLost(place.absence());
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
    }

    private void readAll(LanWire.Admitted there, SnapshotLines.Reader lines) {
        String why = place.absence();
        try (LineWire wire = there.wire()) {
            String line;
            while ((line = wire.readLine(LONGEST_LINE)) != null) {
                heard(lines, line);
            }
        } catch (IOException e) {
            LOG.debug("the recorder's stream ended", e);
        } catch (IllegalArgumentException e) {
            why = e.getMessage();
        }
        recorder = Optional.empty();
        sayLost(why);
    }

    private void heard(SnapshotLines.Reader lines, String line) {
        long now = clock.monotonicMs();
        Snapshot snapshot = lines.snapshot(line, now);
        heardMs = now;
        everHeard = true;
        lines.taken().ifPresent(outbox::taken);
        if (lines.isWhole()) {
            wireLines = lines.heard();
            publish(snapshot);
        }
    }

    /** Shows the last snapshot as lost; once it is, since when it has been stays. */
    private void sayLost(String why) {
        if (closed) {
            return;
        }
        synchronized (publishing) {
            Connection was = latest.connection();
            boolean already = was.state() == Connection.State.LOST;
            if (already && was.detail().equals(Optional.of(why))) {
                return;
            }
            Connection gone = new Connection(
                    Connection.State.LOST,
                    already ? was.sinceHostMs() : clock.monotonicMs(),
                    Optional.of(why),
                    was.counts());
            publish(latest.with(gone, latest.latest(), latest.curve()));
        }
    }

    /** Notices a recorder that says nothing, and a sleep of this computer, which no clock that measures has counted. */
    private void lookRound() {
        long beforeMs = clock.monotonicMs();
        Instant before = clock.wallClock();
        while (!closed) {
            try {
                Thread.sleep(LOOK_ROUND_MS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
            long now = clock.monotonicMs();
            Instant wall = clock.wallClock();
            long sleptMs = Duration.between(before, wall).toMillis() - (now - beforeMs);
            if (sleptMs > SLEPT_MS) {
                grewOld(sleptMs);
            } else if (recorder.isPresent() && now - Math.max(heardMs, connectedMs) > SILENT_MS) {
                LOG.warn("the recorder has said nothing for {} ms", now - heardMs);
                recorder.ifPresent(there -> there.wire().close());
            }
            beforeMs = now;
            before = wall;
        }
    }

    /** What was heard before the sleep is as old as the sleep was long; the wire is made anew, for it may be dead. */
    private void grewOld(long ms) {
        synchronized (publishing) {
            publish(latest.with(
                    latest.connection(), latest.latest().map(reading -> reading.earlier(ms)), latest.curve()));
        }
        recorder.ifPresent(there -> there.wire().close());
    }

    private void publish(Snapshot snapshot) {
        synchronized (publishing) {
            latest = snapshot;
            listeners.tell(snapshot);
        }
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
        return wireLines;
    }

    /** For how long nothing has come from the recorder, ms; counts from the begin where nothing ever has. */
    public long silentForMs() {
        return clock.monotonicMs() - heardMs;
    }

    /** Whether anything has ever come from the recorder. */
    public boolean everHeard() {
        return everHeard;
    }

    /** As the recorder last allowed it: what is said while it is out of reach waits for it. */
    @Override
    public boolean takesNotes() {
        return takesNotes;
    }

    /** How much of what was said here has not reached the recorder, though it should have by now. */
    public int waiting() {
        return outbox.waiting(clock.monotonicMs());
    }

    /** How much of it was given up of late because it came too late to be of use. */
    public int tooLate() {
        return outbox.tooLate(clock.monotonicMs());
    }

    @Override
    public void note(String text) {
        for (int i = 0; i < text.length(); i += LONGEST_NOTE) {
            say(
                    What.NOTE,
                    Optional.of(text.substring(i, Math.min(text.length(), i + LONGEST_NOTE))),
                    OptionalInt.empty());
        }
    }

    @Override
    public void acknowledge(String alarmId) {
        // Raised again since then, it is another matter, of which the person has not heard.
        OptionalInt times = latest.alarms().stream()
                .filter(alarm -> alarm.id().equals(alarmId))
                .mapToInt(Alarm::times)
                .findFirst();
        say(What.ACKNOWLEDGE, Optional.of(alarmId), times);
    }

    @Override
    public void lighting(Lighting list) {
        say(What.LIGHTING, Optional.of(list.text()), OptionalInt.empty());
    }

    @Override
    public void ringTest() {
        say(What.RING_TEST, Optional.empty(), OptionalInt.empty());
    }

    @Override
    public void testHeard(String computer) {
        say(What.TEST_HEARD, Optional.of(computer), OptionalInt.empty());
    }

    @Override
    public void firingBegins() {
        say(What.FIRING_BEGINS, Optional.empty(), OptionalInt.empty());
    }

    @Override
    public void firingEnds() {
        say(What.FIRING_ENDS, Optional.empty(), OptionalInt.empty());
    }

    private void say(What what, Optional<String> text, OptionalInt times) {
        if (!takesNotes) {
            LOG.warn("what was said here is not passed on: this recorder takes no notes from other computers");
            return;
        }
        outbox.add(what, text, times, clock.monotonicMs());
        pass(recorder, wires);
    }

    /** Passes on what waits. The caller may be a window, and a wire may be stuck, so it is done apart. */
    private void pass(Optional<LanWire.Admitted> over, int wire) {
        if (over.isEmpty()) {
            return;
        }
        LanWire.Admitted there = over.get();
        begin("attached-say", () -> {
            try {
                synchronized (there) {
                    Optional<SaidByCopy> next;
                    while ((next = outbox.next(wire, clock.monotonicMs())).isPresent()) {
                        there.wire().writeLine(next.get().line(), sent -> {});
                    }
                }
            } catch (IOException e) {
                LOG.info("what was said here waits for the next wire", e);
            }
        });
    }

    /** A recorder is there: it gets what it has not had yet. */
    private void admitted(LanWire.Admitted there) {
        takesNotes = there.takesNotes();
        recorder = Optional.of(there);
        int wire = ++wires;
        if (takesNotes) {
            pass(recorder, wire);
        } else {
            outbox.giveUp(clock.monotonicMs());
        }
    }

    @Override
    public void close() {
        closed = true;
        recorder.ifPresent(there -> there.wire().close());
    }
}
