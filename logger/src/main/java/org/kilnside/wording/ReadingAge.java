package org.kilnside.wording;

import java.time.Duration;
import java.util.Optional;
import org.kilnside.session.Connection;
import org.kilnside.session.Snapshot;

/** How old the newest reading is; when it is stale its number may no longer be shown as if it were live. */
public final class ReadingAge {
    /** Waiting longer than this for a first reading is worth a word. */
    public static final Duration OLD = Duration.ofSeconds(10);

    private ReadingAge() {}

    /** The age of the newest line; empty before the first. */
    public static Optional<Duration> of(Snapshot snapshot, long hostNowMs) {
        return snapshot.latest().map(latest -> Duration.ofMillis(Math.max(0, hostNowMs - latest.hostMs())));
    }

    /** Whether the newest reading is too old to be shown as the kiln's temperature now. */
    public static boolean isOld(Snapshot snapshot, long hostNowMs) {
        return snapshot.latest()
                .filter(latest -> hostNowMs - latest.hostMs() > latest.staleAfterMs())
                .isPresent();
    }

    /** Whether no more readings are expected, so that silence is no trouble. */
    public static boolean isOver(Snapshot snapshot) {
        return snapshot.stage() == Snapshot.Stage.ENDED
                || snapshot.connection().state() == Connection.State.FINISHED
                || snapshot.connection().state() == Connection.State.CLOSED;
    }
}
