package org.kilnside.link;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.files.SaidByCopy;
import org.kilnside.files.SaidByCopy.What;

/**
 * What a person said on a copy, kept until the recorder has taken it down: over a wire that breaks it is sent once more.
 * What holds for the moment alone is given up after {@value #TOO_LATE_MS} ms. From any thread.
 */
final class Outbox {
    private static final long TOO_LATE_MS = 300_000;

    /** Shorter than this it is on its way, and nobody needs to know. */
    private static final long ON_ITS_WAY_MS = 3_000;

    /** What was given up is told this long. */
    private static final long TOLD_FOR_MS = 600_000;

    private static final int MOST = 500;

    private final String copy;
    private final Deque<Kept> kept = new ArrayDeque<>();
    private long numbers;
    private int tooLate;
    private long tooLateMs;

    private static final class Kept {
        private final long number;
        private final What what;
        private final Optional<String> text;
        private final OptionalInt times;
        private final long saidMs;
        private int wire;

        Kept(long number, What what, Optional<String> text, OptionalInt times, long saidMs) {
            this.number = number;
            this.what = what;
            this.text = text;
            this.times = times;
            this.saidMs = saidMs;
        }
    }

    /** @param copy names this copy towards the recorder */
    Outbox(String copy) {
        this.copy = copy;
    }

    synchronized void add(What what, Optional<String> text, OptionalInt times, long nowMs) {
        if (kept.size() >= MOST) {
            kept.removeFirst();
            givenUp(1, nowMs);
        }
        kept.addLast(new Kept(++numbers, what, text, times, nowMs));
    }

    /**
     * The next that has not gone over this wire yet.
     *
     * @param wire counts the wires, from 1
     */
    synchronized Optional<SaidByCopy> next(int wire, long nowMs) {
        int before = kept.size();
        kept.removeIf(each -> each.what.isOfTheMoment() && nowMs - each.saidMs > TOO_LATE_MS);
        givenUp(before - kept.size(), nowMs);
        for (Kept each : kept) {
            if (each.wire != wire) {
                each.wire = wire;
                return Optional.of(
                        new SaidByCopy(each.what, each.text, each.times, copy, each.number, nowMs - each.saidMs));
            }
        }
        return Optional.empty();
    }

    /** The recorder has taken down all up to this number. */
    synchronized void taken(long number) {
        kept.removeIf(each -> each.number <= number);
    }

    /** The recorder takes nothing from here any more. */
    synchronized void giveUp(long nowMs) {
        givenUp(kept.size(), nowMs);
        kept.clear();
    }

    private void givenUp(int count, long nowMs) {
        if (count > 0) {
            tooLate += count;
            tooLateMs = nowMs;
        }
    }

    /** How much waits, on its way for longer than it should be. */
    synchronized int waiting(long nowMs) {
        return (int) kept.stream()
                .filter(each -> nowMs - each.saidMs > ON_ITS_WAY_MS)
                .count();
    }

    /** How much was given up of late, and has to be said again if it still holds. */
    synchronized int tooLate(long nowMs) {
        if (nowMs - tooLateMs > TOLD_FOR_MS) {
            tooLate = 0;
        }
        return tooLate;
    }
}
