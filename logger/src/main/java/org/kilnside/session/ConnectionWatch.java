package org.kilnside.session;

import java.util.Optional;
import org.kilnside.firing.FiringEvent.Kind;

/** The connection's loss and return as something that happens once each. Confined to the session's thread. */
final class ConnectionWatch {
    private Connection now;
    private boolean wasLost;

    ConnectionWatch(Connection first) {
        this.now = first;
    }

    /** How the connection stands. */
    Connection now() {
        return now;
    }

    /** Whether a replay, or the virtual kiln, has come to its end: that is no silence. */
    boolean isOver() {
        return now.state() == Connection.State.FINISHED;
    }

    /** Takes how it stands now; says what happened with it, if anything did. */
    Optional<Kind> take(Connection next) {
        boolean lost = next.state() == Connection.State.LOST || next.state() == Connection.State.GIVEN_UP;
        boolean back = wasLost && next.state() == Connection.State.RECEIVING;
        Optional<Kind> happened = lost && !wasLost
                ? Optional.of(Kind.CONNECTION_LOST)
                : back ? Optional.of(Kind.CONNECTION_BACK) : Optional.empty();
        wasLost = lost || wasLost && !back;
        now = next;
        return happened;
    }
}
