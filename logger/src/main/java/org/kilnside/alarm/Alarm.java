package org.kilnside.alarm;

import java.util.Comparator;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * One alarm, as it stands. Immutable; a change makes a new one with the same id.
 *
 * @param id names it within its firing: the kind's code and a count, {@code stuck-relay-1}; the same in the book, on the
 *     stream and in a command
 * @param kind what it is about
 * @param grade how bad it is
 * @param state whether it rings, was acknowledged, or is over
 * @param sinceMs since when it shows in the readings, ms on the recording's clock
 * @param raisedMs when it was last raised, ms on the recording's clock: the repeating and getting louder count from here
 * @param times how often it has been raised: 1, and one more each time it got worse or went on after an acknowledgement
 * @param seen what was seen, where that is a number
 * @param expected what was expected instead, where that is a number
 * @param acknowledgedMs when a person last acknowledged it
 * @param clearedMs when it ceased to be true
 */
public record Alarm(
        String id,
        AlarmKind kind,
        Grade grade,
        State state,
        long sinceMs,
        long raisedMs,
        int times,
        Optional<Measure> seen,
        Optional<Measure> expected,
        OptionalLong acknowledgedMs,
        OptionalLong clearedMs) {
    /** The worst first, of these the newest. */
    public static final Comparator<Alarm> WORST_FIRST = Comparator.comparing(Alarm::isOver)
            .thenComparing(Alarm::grade)
            .thenComparing(alarm -> !alarm.rings())
            .thenComparing(Comparator.comparingLong(Alarm::raisedMs).reversed())
            .thenComparing(Alarm::id);

    /** Where an alarm stands. */
    public enum State {
        /** Raised; nobody has acknowledged it. */
        RAISED,
        /** A person knows; it is still true. */
        ACKNOWLEDGED,
        /** Acknowledged before, and raised again: it got worse, or was still true ten minutes later. */
        RAISED_AGAIN,
        /** No longer true; shown until acknowledged, so that nobody misses that it was. */
        CLEARED
    }

    static Alarm raised(
            String id,
            AlarmKind kind,
            Grade grade,
            long sinceMs,
            long nowMs,
            Optional<Measure> seen,
            Optional<Measure> expected) {
        return new Alarm(
                id,
                kind,
                grade,
                State.RAISED,
                sinceMs,
                nowMs,
                1,
                seen,
                expected,
                OptionalLong.empty(),
                OptionalLong.empty());
    }

    /** Whether it wants to be heard: raised, and nobody has acknowledged that. */
    public boolean rings() {
        return state == State.RAISED || state == State.RAISED_AGAIN;
    }

    /** Whether it is no longer true. */
    public boolean isOver() {
        return state == State.CLEARED;
    }

    /** The same, known to a person; one that is over stays so. */
    public Alarm acknowledged(long nowMs) {
        return new Alarm(
                id,
                kind,
                grade,
                isOver() ? State.CLEARED : State.ACKNOWLEDGED,
                sinceMs,
                raisedMs,
                times,
                seen,
                expected,
                OptionalLong.of(nowMs),
                clearedMs);
    }

    Alarm again(long nowMs, Grade itsGrade, Optional<Measure> nowSeen, Optional<Measure> nowExpected) {
        return new Alarm(
                id,
                kind,
                itsGrade,
                State.RAISED_AGAIN,
                sinceMs,
                nowMs,
                times + 1,
                nowSeen,
                nowExpected,
                acknowledgedMs,
                OptionalLong.empty());
    }

    Alarm showing(Optional<Measure> nowSeen, Optional<Measure> nowExpected) {
        return new Alarm(
                id, kind, grade, state, sinceMs, raisedMs, times, nowSeen, nowExpected, acknowledgedMs, clearedMs);
    }

    Alarm cleared(long nowMs) {
        return new Alarm(
                id,
                kind,
                grade,
                State.CLEARED,
                sinceMs,
                raisedMs,
                times,
                seen,
                expected,
                acknowledgedMs,
                OptionalLong.of(nowMs));
    }
}
