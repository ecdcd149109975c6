package org.kilnside.command;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.LastRecording;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.link.LinkNotation;
import org.kilnside.session.Connection;
import org.kilnside.session.FeedSwitch;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The recorder's role for a window's book, which the window may take while it is open. Until then it follows whoever
 * else records into the book.
 */
public final class RecorderRole implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(RecorderRole.class);

    private final Path book;
    private final HostClock clock;
    private final ProfileLibrary library;
    private final LastRecording memory;
    private final Consumer<Recorder> begun;
    private final FeedSwitch feed;
    private final Recorder.Night night;
    private volatile Optional<Following> others;
    private volatile Optional<Recorder> here = Optional.empty();
    private volatile Optional<LastRecording.Remembered> recording = Optional.empty();
    private boolean closed;

    /**
     * The firing of whoever else records.
     *
     * @param end ends the following
     */
    record Following(LiveFeed feed, Runnable end) {}

    /** Who records into the book. */
    public enum Holder {
        /** This program. */
        HERE,
        /** Another Kilnside, which this window follows. */
        ELSEWHERE,
        NOBODY
    }

    /**
     * The role, held by nobody here yet.
     *
     * @param night how alarms of a real firing are made heard
     * @param following the firing of whoever else records, followed until this program does
     * @param begun called with each recorder that begins here
     */
    RecorderRole(
            Path book,
            HostClock clock,
            ProfileLibrary library,
            LastRecording memory,
            Recorder.Night night,
            Following following,
            Consumer<Recorder> begun) {
        this.book = book;
        this.clock = clock;
        this.library = library;
        this.memory = memory;
        this.begun = begun;
        this.night = night;
        this.others = Optional.of(following);
        this.feed = new FeedSwitch(following.feed());
    }

    /** The firing that is recorded, whoever does it. */
    public LiveFeed feed() {
        return feed;
    }

    /** Who records now. From any thread; never waits. */
    public Holder holder() {
        if (here.isPresent()) {
            return Holder.HERE;
        }
        boolean followed = others.isPresent()
                && !feed.latest().link().isEmpty()
                && feed.latest().connection().state() != Connection.State.LOST;
        return followed ? Holder.ELSEWHERE : Holder.NOBODY;
    }

    /** What is recorded here; empty while nothing is. From any thread; never waits. */
    public Optional<LastRecording.Remembered> recording() {
        return recording;
    }

    /** Whether stopping now would leave a hole in a real firing. From any thread; never waits. */
    public boolean wouldLeaveAHole() {
        return recording
                .filter(wish ->
                        !wish.from().startsWith("virtual:") && !wish.from().startsWith("replay:"))
                .isPresent();
    }

    /**
     * What was recorded last, to be offered again.
     *
     * @throws FileRefusedException when the memory cannot be read
     */
    public Optional<LastRecording.Remembered> last() {
        return memory.read();
    }

    /**
     * Begins to record here; a recording that is going on here ends first. A virtual kiln is written into a book of its
     * own beside this one, so that no pretended firing is ever among the real ones.
     *
     * @throws RuntimeException with one sentence when it cannot: a {@link Complaint}, or what files, link or book say
     */
    public synchronized void take(LastRecording.Remembered wish) {
        LinkNotation link = LinkNotation.parse(wish.from());
        FiredIn fired = WhatIsFired.in(library, wish.kiln(), wish.plan());
        boolean virtual = link instanceof LinkNotation.Virtual;
        give();
        Recorder recorder = Recorder.start(
                virtual ? book.resolveSibling("demo.book") : book,
                wish.from(),
                fired,
                clock,
                library,
                night.words(),
                virtual ? Optional.empty() : Optional.of(night.settings()));
        if (closed) {
            recorder.finish();
            return;
        }
        if (!virtual) {
            recorder.awaitReadings();
        }
        here = Optional.of(recorder);
        recording = Optional.of(wish);
        feed.turnTo(recorder.feed());
        others.ifPresent(its -> its.end().run());
        others = Optional.empty();
        begun.accept(recorder);
        if (link instanceof LinkNotation.Serial || link instanceof LinkNotation.Tcp) {
            rememberOnceHeard(recorder.feed(), wish);
        }
    }

    /** Ends the recording that is going on here; the window goes on showing its end. */
    public synchronized void end() {
        give();
    }

    private void give() {
        here.ifPresent(Recorder::finish);
        here = Optional.empty();
        recording = Optional.empty();
    }

    /** A port is worth remembering when a reading has come from it. */
    private void rememberOnceHeard(LiveFeed heard, LastRecording.Remembered wish) {
        Thread watching = new Thread(
                () -> {
                    try {
                        while (heard.latest().latest().isEmpty() && recording.equals(Optional.of(wish))) {
                            Thread.sleep(200);
                        }
                        if (recording.equals(Optional.of(wish))) {
                            memory.remember(wish);
                        }
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    } catch (FileRefusedException e) {
                        LOG.warn("where this recording comes from cannot be remembered: {}", e.getMessage());
                    }
                },
                "remember");
        watching.setDaemon(true);
        watching.start();
    }

    /** Stops reading, writes out what has come, and gives the role back. */
    @Override
    public synchronized void close() {
        closed = true;
        give();
        others.ifPresent(its -> its.end().run());
        others = Optional.empty();
    }
}
