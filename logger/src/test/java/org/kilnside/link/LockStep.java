package org.kilnside.link;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.session.HostClock;
import org.kilnside.session.LineView;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.ReadingSource;
import org.kilnside.virtualkiln.VirtualFiring;

/**
 * A virtual kiln on its wire whose time goes on only when the session, and where there is one the copy that follows, have
 * seen what came: a night of hours in seconds, with every line through the codec and all the
 * threads there are, and not one of them hurried. The clock of all is this one.
 */
public final class LockStep implements HostClock, Pauses {
    private static final long BEGIN_MS = 1_000_000;

    /** The session may be so far behind the kiln, and the kiln so far ahead of what is waited for. */
    private static final long SEEN_EVERY_MS = 20_000;

    /** With a copy, which hears several times a second of the computer's own time. */
    private static final long COPY_SEES_EVERY_MS = 10_000;

    private static final long PATIENCE_NS = TimeUnit.SECONDS.toNanos(30);

    private final Instant begin;
    private final VirtualFiring kiln;
    private volatile long nowMs = BEGIN_MS;
    private volatile Optional<LiveFeed> session = Optional.empty();
    private volatile Optional<LiveFeed> copy = Optional.empty();
    private volatile boolean ended;

    /** Of the link's thread: what has arrived, and up to when the copy has to have seen it. */
    private volatile OptionalLong arrivedMs = OptionalLong.empty();

    private long seesMs;
    private volatile Optional<Goal> goal = Optional.empty();

    private record Goal(BooleanSupplier reached, long untilMs) {}

    /** @param begin what the clock on the wall says when the recording begins */
    public LockStep(VirtualFiring kiln, Instant begin) {
        this.kiln = kiln;
        this.begin = begin;
    }

    @Override
    public long monotonicMs() {
        return nowMs;
    }

    @Override
    public Instant wallClock() {
        return begin.plusMillis(nowMs - BEGIN_MS);
    }

    /** The kiln's wire, as {@code virtual:tall-drum} is one. */
    public ReadingSource wire() {
        LinkNotation.Virtual notation = (LinkNotation.Virtual) LinkNotation.parse("virtual:tall-drum?speed=1");
        LinkSurroundings around = new LinkSurroundings(this, this, ProfileLibrary.starters(), false);
        LinkReader reader = new LinkReader(
                notation.text(), new VirtualPort(notation, kiln, around), around, ProtocolLines.saying(around.words()));
        return new Wire(reader);
    }

    /** The session that has to have seen each reading before the next second comes. */
    public void session(LiveFeed its) {
        session = Optional.of(its);
    }

    /** The copy that has to keep up from now on. */
    public void copy(LiveFeed its) {
        copy = Optional.of(its);
    }

    /** No copy has to keep up any more. */
    public void withoutCopy() {
        copy = Optional.empty();
    }

    /**
     * Lets the kiln go on.
     *
     * @param until looked at every few seconds of the kiln's, while all stands still
     * @param hours at most so long
     * @return whether it came true
     */
    public boolean goesOnUntil(BooleanSupplier until, double hours) {
        goal = Optional.of(new Goal(until, nowMs + Math.round(hours * 3_600_000)));
        long patience = System.nanoTime() + TimeUnit.SECONDS.toNanos(120);
        while (goal.isPresent() && !ended && System.nanoTime() < patience) {
            LockSupport.parkNanos(1_000_000);
        }
        if (goal.isPresent() && !ended) {
            throw new AssertionError("the kiln's time stands still");
        }
        return until.getAsBoolean();
    }

    @Override
    public void pause(long milliseconds) throws InterruptedException {
        if (arrivedMs.isPresent() && arrivedMs.getAsLong() >= seesMs) {
            long arrived = arrivedMs.getAsLong();
            arrivedMs = OptionalLong.empty();
            seesMs = arrived + (copy.isPresent() ? COPY_SEES_EVERY_MS : SEEN_EVERY_MS);
            await(() -> hasSeen(session, arrived));
            if (copy.isPresent()) {
                await(this::copyHasSeen);
            }
            goal.filter(its -> its.reached().getAsBoolean() || nowMs >= its.untilMs())
                    .ifPresent(its -> goal = Optional.empty());
        }
        while (goal.isEmpty()) {
            if (Thread.interrupted()) {
                throw new InterruptedException();
            }
            LockSupport.parkNanos(1_000_000);
        }
        nowMs += milliseconds;
    }

    private static boolean hasSeen(Optional<LiveFeed> feed, long arrivedMs) {
        return feed.flatMap(its -> its.latest().latest())
                .filter(latest -> latest.hostMs() >= arrivedMs)
                .isPresent();
    }

    /** By the recording's own time: the ages that travel are rounded to when they were sent. */
    private boolean copyHasSeen() {
        long there = session.orElseThrow().latest().latest().orElseThrow().elapsedMs();
        return copy.orElseThrow()
                .latest()
                .latest()
                .filter(latest -> latest.elapsedMs() >= there)
                .isPresent();
    }

    private static void await(BooleanSupplier seen) throws InterruptedException {
        long until = System.nanoTime() + PATIENCE_NS;
        for (int i = 0; !seen.getAsBoolean(); i++) {
            if (Thread.interrupted()) {
                throw new InterruptedException();
            }
            if (System.nanoTime() > until) {
                throw new IllegalStateException("a reading was not seen within 30 s");
            }
            if (i > 200) {
                LockSupport.parkNanos(50_000);
            } else {
                Thread.onSpinWait();
            }
        }
    }

    /** The link, with an ear on what it hands over. */
    private final class Wire implements ReadingSource {
        private final LinkReader reader;

        Wire(LinkReader reader) {
            this.reader = reader;
        }

        @Override
        public String notation() {
            return reader.notation();
        }

        @Override
        public double speed() {
            return reader.speed();
        }

        @Override
        public void start(Listener listener) {
            reader.start(new Listener() {
                @Override
                public void controllerSaidHello(ControllerHello hello) {
                    listener.controllerSaidHello(hello);
                }

                @Override
                public void readingArrived(Arrival arrival) {
                    arrivedMs = OptionalLong.of(arrival.hostMs());
                    listener.readingArrived(arrival);
                }

                @Override
                public void connectionChanged(org.kilnside.session.Connection connection) {
                    ended = connection.state() == org.kilnside.session.Connection.State.FINISHED;
                    listener.connectionChanged(connection);
                }
            });
        }

        @Override
        public void askForKept(long sinceUptimeMs) {
            reader.askForKept(sinceUptimeMs);
        }

        @Override
        public LineView lines() {
            return reader.lines();
        }

        @Override
        public void close() {
            reader.close();
        }
    }
}
