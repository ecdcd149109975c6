package org.kilnside.session;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.kilnside.firing.Reading;

/**
 * Going on with the firing of the program's last run.
 *
 * @param open the firing, with one reading at least
 * @param lastMs its last reading, on the recording's clock
 * @param stamp the clocks as they were then
 */
record Resumption(FiringBook.OpenFiring open, long lastMs, Timeline.Stamp stamp) {
    /**
     * The firing to go on with; one that was left open but is another kiln's, or of too long ago, is ended in the book.
     *
     * @return empty when there is none
     */
    static Optional<Resumption> find(
            FiringBook book, HostClock clock, FiringSettings settings, String link, double speed) {
        Optional<FiringBook.OpenFiring> found = book.unfinished();
        if (found.isEmpty()) {
            return Optional.empty();
        }
        FiringBook.OpenFiring open = found.get();
        if (open.readings().isEmpty()) {
            book.end(open.number(), 0);
            return Optional.empty();
        }
        Reading last = open.readings().get(open.readings().size() - 1);
        Instant lastWall =
                FiringBook.wallClock(open.start().startedAt(), open.clockTies()).at(last.elapsedMs());
        Duration away = Duration.between(lastWall, clock.wallClock());
        boolean sameKiln = open.start().kiln().equals(settings.kiln())
                && open.start().link().equals(link);
        // A sped-up link begins its kiln anew each time: there is nothing to go on with.
        if (!sameKiln || speed != 1 || away.compareTo(settings.resumeWithin()) > 0) {
            book.end(open.number(), last.elapsedMs());
            return Optional.empty();
        }
        Timeline.Stamp then = new Timeline.Stamp(
                uptimeAt(open, last.elapsedMs()),
                OptionalInt.empty(),
                clock.monotonicMs() - Math.max(0, away.toMillis()),
                lastWall);
        return Optional.of(new Resumption(open, last.elapsedMs(), then));
    }

    /** The controller's uptime at a time after the last tie, had it run on; empty when it gives none. */
    private static OptionalLong uptimeAt(FiringBook.OpenFiring open, long elapsedMs) {
        if (open.clockTies().isEmpty()) {
            return OptionalLong.empty();
        }
        FiringBook.ClockTie tie = open.clockTies().get(open.clockTies().size() - 1);
        return tie.uptimeMs().isEmpty()
                ? OptionalLong.empty()
                : OptionalLong.of(
                        Math.floorMod(tie.uptimeMs().getAsLong() + elapsedMs - tie.elapsedMs(), Timeline.WRAP_MS));
    }
}
