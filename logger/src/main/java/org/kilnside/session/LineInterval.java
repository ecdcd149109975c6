package org.kilnside.session;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.OptionalLong;

/**
 * The time from one reading to the next: what the controller says, else what is seen. Some controllers print ten
 * lines a second, some one a minute; what is a gap, and what is stale, goes by it. Confined to the session's thread.
 */
final class LineInterval {
    private static final int STEPS = 5;
    private static final int FEWEST_STEPS = 2;

    /** Until an interval is known, a controller that prints each ten minutes must not look broken. */
    private static final long SLOWEST_USUAL_MS = 600_000;

    /** So much later than its interval a line may come. */
    private static final long LATE_MS = 60_000;

    private static final int INTERVALS = 3;

    /** A number older than this, or than three line intervals, is no longer the kiln's temperature now. */
    private static final long SHORTEST_STALE_MS = 10_000;

    private final Deque<Long> steps = new ArrayDeque<>();
    private OptionalLong saidMs = OptionalLong.empty();

    /** The controller names its interval. */
    void said(long ms) {
        saidMs = OptionalLong.of(ms);
    }

    /** A reading came so long after the one before, on the recording's clock. */
    void seen(long stepMs) {
        if (stepMs <= 0) {
            return;
        }
        steps.addLast(stepMs);
        if (steps.size() > STEPS) {
            steps.removeFirst();
        }
    }

    /** The interval in ms: as said, else the middle of the last few seen; empty while there are too few. */
    OptionalLong ms() {
        if (saidMs.isPresent() || steps.size() < FEWEST_STEPS) {
            return saidMs;
        }
        long[] sorted = steps.stream().mapToLong(Long::longValue).sorted().toArray();
        return Arrays.stream(sorted).skip((sorted.length - 1) / 2).findFirst();
    }

    /**
     * How often lines are awaited, ms; empty while too few have come to tell a slow controller from a dead wire. A board
     * that has just started may print some lines at once before it falls into its step: of the first few steps the
     * longest counts, but none beyond the slowest usual, which is rather a gap.
     */
    OptionalLong awaitedMs() {
        if (saidMs.isPresent() || steps.size() == STEPS || ms().isEmpty()) {
            return ms();
        }
        long longest = steps.stream().mapToLong(Long::longValue).max().orElseThrow();
        return OptionalLong.of(Math.min(SLOWEST_USUAL_MS, longest));
    }

    /** From how long on the time between two readings is a gap, ms; never less than a shortest time. */
    long gapAfterMs(long shortestMs) {
        return Math.max(
                shortestMs, awaitedMs().isPresent() ? INTERVALS * awaitedMs().getAsLong() : SLOWEST_USUAL_MS + LATE_MS);
    }

    /**
     * How old a reading may be, ms of the host's clock, to be the temperature now. A kiln that runs faster than that
     * clock sends more often than its interval by it.
     */
    long staleAfterMs(double speed) {
        return speed == 1 && ms().isPresent()
                ? Math.max(SHORTEST_STALE_MS, INTERVALS * ms().getAsLong())
                : SHORTEST_STALE_MS;
    }
}
