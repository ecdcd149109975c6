package org.kilnside.session;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.WallClockLine;
import org.kilnside.session.FiringBook.ClockTie;

/** The moments of a firing at which both clocks were read, and the line through them. Confined to the session's thread. */
final class ClockTies {
    private static final long EVERY_MS = 600_000;

    private final List<ClockTie> ties = new ArrayList<>();
    private Optional<Instant> startedAt = Optional.empty();
    private Optional<WallClockLine> line = Optional.empty();
    private long dueAtMs;

    /** A recording begins, at its zero. */
    void begin(Instant now) {
        goOn(now, List.of());
        dueAtMs = 0;
    }

    /** A recording goes on that has been tied before. */
    void goOn(Instant began, List<ClockTie> before) {
        ties.clear();
        ties.addAll(before);
        startedAt = Optional.of(began);
        line = Optional.of(FiringBook.wallClock(began, ties));
    }

    boolean isDue(long elapsedMs) {
        return elapsedMs >= dueAtMs;
    }

    void add(ClockTie tie) {
        ties.add(tie);
        dueAtMs = tie.elapsedMs() + EVERY_MS;
        line = Optional.of(FiringBook.wallClock(startedAt.orElseThrow(), ties));
    }

    Optional<Instant> startedAt() {
        return startedAt;
    }

    /** The line through all of them; empty before the recording began. */
    Optional<WallClockLine> line() {
        return line;
    }
}
