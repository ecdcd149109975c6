package org.kilnside.command;

import java.util.List;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.DeadMan;
import org.kilnside.link.AttachedFiring;
import org.kilnside.session.Connection;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.ReadingAge;

/** What a copy hears of its recorder, and the alarm that it hears nothing. From any thread. */
final class RecorderSilence {
    /** A reading older than this, of a firing that goes on, and no alarm of the recorder's about it: it is stuck. */
    private static final long STUCK_MS = 80_000;

    /** The same where too few readings have come to know how often they do: the recorder itself rings after 11 minutes. */
    private static final long STUCK_UNKNOWN_MS = 12 * 60_000;

    private static final int FEWEST_READINGS = 3;

    /** So long the recorder may talk of nothing but an old reading: after a sleep of this computer it does for a moment. */
    private static final long STUCK_FOR_MS = 25_000;

    private final AttachedFiring copy;
    private final boolean awaited;
    private final DeadMan deadMan = new DeadMan();
    private long stuckSinceMs = Long.MAX_VALUE;

    /** @param awaited whether there has to be a recording; where not, one that was never heard is no alarm */
    RecorderSilence(AttachedFiring copy, boolean awaited) {
        this.copy = copy;
        this.awaited = awaited;
    }

    /** How it stands: the alarm, or none. */
    synchronized List<Alarm> look(Snapshot snapshot, long now) {
        return List.copyOf(deadMan.look(silentForMs(snapshot, now), elapsedNow(snapshot, now), isOver(snapshot)));
    }

    /** A person knows. */
    synchronized void acknowledge(String id, Snapshot snapshot, long now) {
        deadMan.acknowledge(id, elapsedNow(snapshot, now));
    }

    /** Whether the firing had ended when last heard of. An orderly shutdown of its computer is no end. */
    static boolean isOver(Snapshot snapshot) {
        return snapshot.stage() == Snapshot.Stage.ENDED || snapshot.connection().state() == Connection.State.FINISHED;
    }

    /** How long nothing new has been heard: no line of the recorder's, or lines that hold nothing but an old reading. */
    private long silentForMs(Snapshot snapshot, long now) {
        if (!awaited && !copy.everHeard()) {
            return 0;
        }
        long silent = copy.silentForMs();
        boolean said =
                snapshot.alarms().stream().anyMatch(alarm -> alarm.kind() == AlarmKind.NO_READINGS && !alarm.isOver());
        if (said || ReadingAge.isOver(snapshot) || snapshot.latest().isEmpty()) {
            stuckSinceMs = Long.MAX_VALUE;
            return silent;
        }
        // A recorder that goes on with a firing of an hour ago listens anew, and rings for itself in a while.
        long listensSince =
                Math.max(snapshot.latest().get().hostMs(), snapshot.connection().sinceHostMs());
        long age = now - listensSince;
        // A controller that prints each few minutes is not silent between two lines.
        long stuck = snapshot.curve().size() < FEWEST_READINGS
                ? STUCK_UNKNOWN_MS
                : Math.max(STUCK_MS, 4 * snapshot.latest().get().staleAfterMs());
        if (age <= stuck) {
            stuckSinceMs = Long.MAX_VALUE;
            return silent;
        }
        stuckSinceMs = Math.min(stuckSinceMs, now);
        return now - stuckSinceMs >= STUCK_FOR_MS ? Math.max(silent, age) : silent;
    }

    /** Now, ms on the recording's clock, as far as this computer knows. */
    static long elapsedNow(Snapshot snapshot, long now) {
        return snapshot.latest()
                .map(line -> line.elapsedMs() + Math.max(0, Math.round((now - line.hostMs()) * speed(snapshot))))
                .orElse(now);
    }

    private static double speed(Snapshot snapshot) {
        return Double.isFinite(snapshot.speed()) ? snapshot.speed() : 1;
    }
}
