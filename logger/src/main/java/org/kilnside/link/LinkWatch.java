package org.kilnside.link;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.PortNotes;
import org.kilnside.session.Connection;
import org.kilnside.session.Connection.State;
import org.kilnside.session.HostClock;
import org.kilnside.session.ReadingSource;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Follows one link: what state it is in, what came, and what there is to say about it. Confined to the link's thread. */
final class LinkWatch {
    private static final Logger LOG = LoggerFactory.getLogger(LinkWatch.class);

    /** Silence begins after three line intervals, and after this long at least. */
    private static final long SHORTEST_SILENCE_MS = 3_000;

    private static final int SILENT_INTERVALS = 3;

    /** A controller of which no interval is known may print each ten minutes, and a little late. */
    private static final long SLOW_CONTROLLER_MS = 660_000;

    /** Counts go to the listener this often at most. */
    private static final long COUNTS_EVERY_MS = 1_000;

    private final Port port;
    private final HostClock clock;
    private final ReadingSource.Listener listener;
    private final LineReader lines;
    private final Noise noise = new Noise();
    private final ForeignSample sample;
    private final Reopening reopening;
    private final PortNotes notes;
    private final Words words;

    private boolean everOpened;
    private boolean goodSinceOpening;
    private State state = State.CONNECTING;
    private long sinceMs;
    private Optional<String> detail = Optional.empty();
    private long heardAtMs;
    private long bytesAtMs;
    private long usualIntervalMs;
    private Optional<Connection> told = Optional.empty();
    private long toldAtMs;

    LinkWatch(
            Port port,
            HostClock clock,
            ReadingSource.Listener listener,
            ForeignSample sample,
            HeardLines heard,
            LineReader.Maker maker,
            PortNotes notes,
            Words words) {
        this.words = words;
        this.port = port;
        this.notes = notes;
        this.reopening =
                new Reopening(port.mayRestartController() ? restartsSince(port, notes) : Optional.empty(), words);
        this.clock = clock;
        this.listener = listener;
        this.sample = sample;
        this.lines = maker.make(new Ears(), heard);
        this.sinceMs = clock.monotonicMs();
    }

    private static Optional<LocalDate> restartsSince(Port port, PortNotes notes) {
        try {
            return notes.of(port.title())
                    .filter(note -> note.opening() == PortNotes.Opening.RESTARTS)
                    .map(PortNotes.Note::seen);
        } catch (FileRefusedException e) {
            // The recording must not fail for want of a memory; what happens now is still watched.
            LOG.warn("what is remembered of the ports cannot be read: {}", e.getMessage());
            return Optional.empty();
        }
    }

    State state() {
        return state;
    }

    boolean everOpened() {
        return everOpened;
    }

    boolean reopeningAllowed() {
        return !everOpened || reopening.allowed();
    }

    void connecting() {
        // While a lost link is tried again it stays lost, with its reason: a state that flickers tells nobody anything.
        if (state != State.LOST) {
            become(State.CONNECTING, Optional.empty());
        }
    }

    void opened() {
        everOpened = true;
        goodSinceOpening = false;
        heardAtMs = clock.monotonicMs();
        bytesAtMs = heardAtMs;
        noise.forget();
        lines.joinMidStream();
        if (port.mayRestartController()) {
            reopening.opened(heardAtMs);
        }
        become(State.CONNECTING, reopening.sentence(port.title()));
    }

    /** Takes what a read brought, which may be nothing. */
    void took(byte[] buffer, int length) {
        if (length > 0) {
            bytesAtMs = clock.monotonicMs();
            long goodBefore = lines.counts().lines();
            lines.take(buffer, length, clock.monotonicMs());
            if (lines.counts().lines() > goodBefore) {
                heard();
            } else if (!goodSinceOpening) {
                noise.take(buffer, length);
                sample.take(buffer, length, clock.monotonicMs());
            }
        }
        long now = clock.monotonicMs();
        boolean silent = now - heardAtMs >= silenceAfterMs();
        if (silent && state != State.SILENT) {
            lines.flush();
        }
        State next = silent ? State.SILENT : goodSinceOpening ? State.RECEIVING : state;
        become(next, whatToSay(next));
        tellCounts(now);
    }

    /** Whether the other side has sent nothing, not even nonsense, for longer than it can be there. */
    boolean peerIsGone() {
        return goneAfterMs().isPresent()
                && clock.monotonicMs() - bytesAtMs >= goneAfterMs().getAsLong();
    }

    /** After how long a silence of the other side it is taken for gone, ms; empty where silence is no sign of it. */
    OptionalLong goneAfterMs() {
        OptionalLong after = port.goneAfterSilenceMs();
        if (after.isEmpty()) {
            return after;
        }
        // Called anew for each line, a controller that prints seldom would never have two in one connection to tell its
        // interval by.
        return OptionalLong.of(
                isIntervalKnown() ? Math.max(after.getAsLong(), 2 * silenceAfterMs()) : SLOW_CONTROLLER_MS);
    }

    private boolean isIntervalKnown() {
        return lines.lineIntervalMs().isPresent() || usualIntervalMs > 0;
    }

    void lost(String sentence) {
        lines.flush();
        become(State.LOST, reopening.sentence(port.title()).or(() -> Optional.of(sentence)));
    }

    void finished() {
        lines.flush();
        become(State.FINISHED, Optional.empty());
    }

    /** Reopening is not allowed. */
    void givenUp() {
        become(
                State.GIVEN_UP,
                Optional.of(reopening.givenUpSentence(port.title(), detail.orElse("The connection is gone."))));
    }

    void givenUp(String sentence) {
        become(State.GIVEN_UP, Optional.of(sentence));
    }

    /** The link's thread is at its end. */
    void closed(boolean byRequest) {
        lines.flush();
        if (byRequest) {
            // What was wrong to the end is still worth saying.
            become(State.CLOSED, detail);
        }
        tell(clock.monotonicMs());
    }

    private void remember() {
        try {
            notes.remember(
                    port.title(),
                    new PortNotes.Note(
                            PortNotes.Opening.RESTARTS,
                            LocalDate.ofInstant(clock.wallClock(), ZoneId.systemDefault())));
        } catch (FileRefusedException e) {
            LOG.warn("that opening {} restarts the controller cannot be remembered: {}", port.title(), e.getMessage());
        }
    }

    private Optional<String> whatToSay(State next) {
        Optional<String> guilt = reopening.sentence(port.title());
        if (guilt.isPresent()) {
            return guilt;
        }
        if (!goodSinceOpening) {
            Optional<String> strange = noise.sentence(port, words);
            if (strange.isPresent()) {
                return strange;
            }
        }
        if (next == State.SILENT) {
            return Optional.of(words.text(
                    isIntervalKnown() || !goodSinceOpening ? "wire.silent" : "wire.silent_unknown", port.title()));
        }
        return lines.trouble();
    }

    private void heard() {
        long now = clock.monotonicMs();
        if (goodSinceOpening) {
            // Controllers that never say their interval: the longest of the last few counts, slowly forgotten.
            usualIntervalMs = Math.max(now - heardAtMs, usualIntervalMs * 7 / 8);
        }
        heardAtMs = now;
        goodSinceOpening = true;
        noise.forget();
        sample.forget();
    }

    private long silenceAfterMs() {
        OptionalInt said = lines.lineIntervalMs();
        double interval = said.isPresent() ? said.getAsInt() / Math.min(port.speed(), 1e6) : usualIntervalMs;
        return Math.max(SHORTEST_SILENCE_MS, Math.round(SILENT_INTERVALS * interval));
    }

    private void become(State next, Optional<String> says) {
        if (next == state && says.equals(detail) && told.isPresent()) {
            return;
        }
        if (next != state) {
            sinceMs = clock.monotonicMs();
        }
        state = next;
        detail = says;
        tell(clock.monotonicMs());
    }

    private void tellCounts(long now) {
        if (now - toldAtMs >= COUNTS_EVERY_MS) {
            tell(now);
        }
    }

    private void tell(long now) {
        Connection connection = new Connection(state, sinceMs, detail, lines.counts());
        toldAtMs = now;
        if (!told.equals(Optional.of(connection))) {
            told = Optional.of(connection);
            listener.connectionChanged(connection);
        }
    }

    /** Passes on what the lines say, and keeps an ear on the uptime. */
    private final class Ears implements LineReader.Ears {
        @Override
        public void uptime(long uptimeMs, OptionalInt resetCauseBits) {
            boolean known = reopening.sawRestart();
            reopening.heard(uptimeMs, resetCauseBits, clock.monotonicMs());
            if (reopening.sawRestart() && !known) {
                remember();
            }
        }

        @Override
        public void hello(ReadingSource.ControllerHello hello) {
            listener.controllerSaidHello(hello);
        }

        @Override
        public void arrival(ReadingSource.Arrival arrival) {
            listener.readingArrived(arrival);
        }
    }
}
