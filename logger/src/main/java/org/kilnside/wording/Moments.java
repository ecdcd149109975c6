package org.kilnside.wording;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import java.util.function.LongFunction;
import org.kilnside.firing.WallClockLine;
import org.kilnside.session.Snapshot;

/** Moments of one recording in words: on its wall clock, or since its begin where it has none or runs faster than life. */
public final class Moments {
    private final Words words;
    private final StateWords state;
    private final LongFunction<Optional<Instant>> zeroFor;
    private final double speed;

    private Moments(Words words, LongFunction<Optional<Instant>> zeroFor, double speed) {
        this.words = words;
        this.state = new StateWords(words);
        this.zeroFor = zeroFor;
        this.speed = speed;
    }

    /** Of a live firing. */
    public static Moments of(Snapshot snapshot, Words words) {
        return new Moments(words, snapshot::zeroFor, snapshot.speed());
    }

    /** Of a recording on file. */
    public static Moments of(Optional<WallClockLine> clock, double speed, Words words) {
        return new Moments(words, elapsedMs -> clock.map(line -> line.zeroFor(elapsedMs)), speed);
    }

    /** Whether they are times of day. */
    boolean areOnTheClock() {
        return StateWords.isOnClock(zeroFor.apply(0), speed);
    }

    /** A moment, with its day where that is not the day of another moment. */
    String beside(long otherMs, long elapsedMs) {
        return text(elapsedMs, areOnTheClock() && !day(elapsedMs).equals(day(otherMs)));
    }

    /**
     * {@code 11:30–13:10}, with its day where that is not the day of another moment; one time where both ends read alike.
     */
    String spanBeside(long otherMs, long fromMs, long toMs) {
        String from = beside(otherMs, fromMs);
        if (from.equals(beside(otherMs, toMs))) {
            return inOnePiece(from);
        }
        boolean oneDay = !areOnTheClock() || day(fromMs).equals(day(toMs));
        // Each end in one piece, as a time torn apart is misread; between two days a narrow place may break it.
        return inOnePiece(from) + (oneDay ? "–" : "\u00a0– ") + inOnePiece(text(toMs, !oneDay));
    }

    private String text(long elapsedMs, boolean withDay) {
        Optional<Instant> zero = zeroFor.apply(elapsedMs);
        return withDay ? state.momentWithDay(elapsedMs, zero, speed) : state.moment(elapsedMs, zero, speed);
    }

    private static String inOnePiece(String text) {
        return text.replace(' ', '\u00a0');
    }

    private LocalDate day(long elapsedMs) {
        return LocalDate.ofInstant(
                zeroFor.apply(elapsedMs).orElseThrow().plusMillis(elapsedMs),
                words.preferences().zone());
    }
}
