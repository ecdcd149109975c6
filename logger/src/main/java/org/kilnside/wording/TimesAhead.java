package org.kilnside.wording;

import java.time.LocalDate;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast.When;

/** Times that are still to come, in words: with their day where that is not the day it was asked. */
final class TimesAhead {
    private final Snapshot snapshot;
    private final Words words;
    private final StateWords state;

    TimesAhead(Snapshot snapshot, Words words) {
        this.snapshot = snapshot;
        this.words = words;
        this.state = new StateWords(words);
    }

    /** The likeliest moment. */
    String about(When when) {
        return moment(ms(when.atS()));
    }

    /**
     * {@code 11:30–13:10}, with its day where that is not today's; since the begin where the kiln runs faster. One time
     * where both ends read alike.
     */
    String span(When when) {
        long fromMs = ms(when.fromS());
        long toMs = ms(when.toS());
        if (!onTheClock()) {
            return words.text("ahead.after_begin", state.elapsed(fromMs), state.elapsed(toMs));
        }
        if (moment(fromMs).equals(moment(toMs))) {
            return moment(fromMs).replace(' ', '\u00a0');
        }
        boolean oneDay = day(fromMs).equals(day(toMs));
        // Each end in one piece, as a time torn apart is misread; between two days a narrow place may break it.
        String from = moment(fromMs).replace(' ', '\u00a0');
        return from + (oneDay ? "–" : "\u00a0– ") + moment(toMs, !oneDay).replace(' ', '\u00a0');
    }

    /** The same in a line of its own: that a sped-up kiln's times count from the begin, every other one there says. */
    String shortSpan(When when) {
        return onTheClock()
                ? span(when)
                : (moment(ms(when.fromS())) + "–" + moment(ms(when.toS()))).replace(' ', '\u00a0');
    }

    /** By when it is over, in one piece. */
    String lateEnd(When when) {
        return moment(ms(when.toS())).replace(' ', '\u00a0');
    }

    /** A moment, ms on the recording's clock. */
    String moment(long elapsedMs) {
        return moment(elapsedMs, onTheClock() && !day(elapsedMs).equals(dayAsked()));
    }

    private String moment(long elapsedMs, boolean withDay) {
        return withDay
                ? state.momentWithDay(elapsedMs, snapshot.zeroFor(elapsedMs), snapshot.speed())
                : state.moment(elapsedMs, snapshot.zeroFor(elapsedMs), snapshot.speed());
    }

    private static long ms(double seconds) {
        return Math.round(seconds * 1000);
    }

    private boolean onTheClock() {
        return snapshot.wallClock().isPresent() && Math.abs(snapshot.speed() - 1) < 1e-9;
    }

    private LocalDate dayAsked() {
        return day(snapshot.findings().forecast().orElseThrow().askedMs());
    }

    private LocalDate day(long elapsedMs) {
        return LocalDate.ofInstant(
                snapshot.wallClock().orElseThrow().at(elapsedMs),
                words.preferences().zone());
    }
}
