package org.kilnside.session;

import java.time.Duration;
import java.time.Instant;
import java.util.OptionalInt;
import java.util.OptionalLong;

/**
 * Turns the controller's uptime into time elapsed in the recording.
 *
 * <p>Uptime is a 32-bit count of milliseconds: it wraps after 49.7 days and falls to zero when the controller starts
 * anew. A wrap goes on where it was; after a restart, and for controllers that give no uptime, the host's clocks say
 * how much time has gone by. Of these the monotonic one measures, but it may stand still while the computer sleeps:
 * where the wall clock went on without it, the wall clock is believed. Confined to the session's thread.
 */
final class Timeline {
    /** Milliseconds in which a 32-bit uptime comes round: 49.7 days. */
    static final long WRAP_MS = 1L << 32;

    /** A wrap is believed only when it happens this close to the end of the count: gaps longer than a day are not. */
    private static final long NEAR_THE_WRAP_MS = 86_400_000;

    /** Sequence numbers count to here and begin again. */
    private static final int SEQUENCES = 65_536;

    /** A ceramic resonator and the time a line waits in buffers explain less than this. */
    private static final long CLOCKS_DISAGREE_MS = 60_000;

    /** A kiln run fast lives minutes in a hiccup of this computer. */
    private static final long HICCUP_MS = 5_000;

    /** A ceramic resonator may be off by half a percent; one part in this many is twice that. */
    private static final long RESONATOR_PART = 100;

    private final double speed;
    private boolean started;
    private long elapsedMs;
    private OptionalLong uptimeMs = OptionalLong.empty();
    private Stamp last = new Stamp(OptionalLong.empty(), OptionalInt.empty(), 0, Instant.EPOCH);

    /** How a reading follows the one before. */
    enum Step {
        FIRST,
        ON,
        /** The controller started anew: its uptime fell, or is shorter than the readings were away. */
        RESTARTED
    }

    /**
     * The clocks a reading came with.
     *
     * @param uptimeMs the controller's, as sent; empty when it gives none
     * @param sequence the line's number, 0 … 65535; empty when it has none
     * @param hostMs the host's monotonic clock
     * @param wall the host's wall clock
     */
    record Stamp(OptionalLong uptimeMs, OptionalInt sequence, long hostMs, Instant wall) {}

    /** @param speed kiln time over host time; infinite for a replay without pauses */
    Timeline(double speed) {
        this.speed = speed;
    }

    /**
     * Goes on from a firing of an earlier run of the program.
     *
     * @param lastElapsedMs where the recording stood
     * @param stamp the clocks as they were then
     */
    void resume(long lastElapsedMs, Stamp stamp) {
        started = true;
        elapsedMs = lastElapsedMs;
        uptimeMs = stamp.uptimeMs();
        last = stamp;
    }

    /** Takes the next live reading's clocks; {@link #elapsedMs()} is then its time in the recording. */
    Step next(Stamp stamp) {
        Step step = started ? Step.ON : Step.FIRST;
        if (started) {
            long byHost = byHost(stamp);
            OptionalLong byUptime = byUptime(stamp);
            if (byUptime.isEmpty() && stamp.uptimeMs().isPresent() && uptimeMs.isPresent()) {
                step = Step.RESTARTED;
            }
            elapsedMs += byUptime.orElse(byHost);
        }
        started = true;
        if (stamp.uptimeMs().isPresent()) {
            uptimeMs = stamp.uptimeMs();
        }
        last = stamp;
        return step;
    }

    /** The time gone by as the controller counts it; empty when it started anew or gives none. */
    private OptionalLong byUptime(Stamp stamp) {
        if (stamp.uptimeMs().isEmpty() || uptimeMs.isEmpty()) {
            return OptionalLong.empty();
        }
        long before = uptimeMs.getAsLong();
        long now = stamp.uptimeMs().getAsLong();
        if (now < before) {
            boolean through = before >= WRAP_MS - NEAR_THE_WRAP_MS && now <= NEAR_THE_WRAP_MS;
            boolean wrapped = through && (follows(stamp) || fits(now - before + WRAP_MS, stamp));
            return wrapped ? OptionalLong.of(now - before + WRAP_MS) : OptionalLong.empty();
        }
        // A controller that has run for less time than its readings were away began while they were, even where its
        // uptime has climbed past the old one. The very next line by its number shows that it did not.
        // The wall clock has no say in this: it may have been set by an hour.
        boolean younger = now + CLOCKS_DISAGREE_MS < measured(stamp);
        return younger && !follows(stamp) ? OptionalLong.empty() : OptionalLong.of(now - before);
    }

    /** Whether a time by the controller is about what the host's clocks say; a replay without pauses has none. */
    private boolean fits(long byUptimeMs, Stamp stamp) {
        long passed = byHost(stamp);
        return Double.isInfinite(speed)
                || Math.abs(byUptimeMs - passed) <= CLOCKS_DISAGREE_MS + passed / RESONATOR_PART;
    }

    private boolean follows(Stamp stamp) {
        return stamp.sequence().isPresent()
                && last.sequence().isPresent()
                && stamp.sequence().getAsInt() == (last.sequence().getAsInt() + 1) % SEQUENCES;
    }

    private long byHost(Stamp stamp) {
        long measured = measured(stamp);
        if (speed != 1) {
            return measured;
        }
        long named = Duration.between(last.wall(), stamp.wall()).toMillis();
        boolean slept = named - measured > CLOCKS_DISAGREE_MS;
        return slept ? named : measured;
    }

    /** Kiln time by the host's monotonic clock; a replay without pauses has no speed to count by. */
    private long measured(Stamp stamp) {
        return Double.isInfinite(speed) ? 0 : Math.max(0, Math.round((stamp.hostMs() - last.hostMs()) * speed));
    }

    /** The recording's time at the last live reading, ms. */
    long elapsedMs() {
        return elapsedMs;
    }

    /** The recording's time now, ms, whether or not anything comes. A replay without pauses has none between its readings. */
    long nowMs(long hostMs) {
        long silentMs = started ? Math.max(0, hostMs - last.hostMs()) : 0;
        boolean hiccup = speed > 1 && silentMs < HICCUP_MS;
        return elapsedMs + (hiccup || Double.isInfinite(speed) ? 0 : Math.round(silentMs * speed));
    }

    /** The controller's uptime at the last live reading, as sent; empty when it gives none. */
    OptionalLong uptimeMs() {
        return uptimeMs;
    }

    /**
     * The recording's time of a past uptime of the same run of the controller, for readings filled in; empty when it
     * lies before the recording or cannot be told.
     */
    OptionalLong elapsedAt(long pastUptimeMs) {
        if (uptimeMs.isEmpty()) {
            return OptionalLong.empty();
        }
        long ago = Math.floorMod(uptimeMs.getAsLong() - pastUptimeMs, WRAP_MS);
        long at = elapsedMs - ago;
        return at < 0 ? OptionalLong.empty() : OptionalLong.of(at);
    }
}
