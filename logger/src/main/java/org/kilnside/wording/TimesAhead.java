package org.kilnside.wording;

import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast.When;

/** Times that are still to come, in words: with their day where that is not the day it was asked. */
final class TimesAhead {
    private final Snapshot snapshot;
    private final Words words;
    private final StateWords state;
    private final Moments moments;

    TimesAhead(Snapshot snapshot, Words words) {
        this.snapshot = snapshot;
        this.words = words;
        this.state = new StateWords(words);
        this.moments = Moments.of(snapshot, words);
    }

    /** The likeliest moment. */
    String about(When when) {
        return moment(ms(when.atS()));
    }

    /** The interval in a sentence: of a kiln that runs faster it says from when it counts. */
    String span(When when) {
        return moments.areOnTheClock()
                ? shortSpan(when)
                : words.text("ahead.after_begin", state.elapsed(ms(when.fromS())), state.elapsed(ms(when.toS())));
    }

    /** The same in a line of its own: that a sped-up kiln's times count from the begin, every other one there says. */
    String shortSpan(When when) {
        return moments.spanBeside(askedMs(), ms(when.fromS()), ms(when.toS()));
    }

    /** The same of moments on the recording's clock, ms. */
    String shortSpan(long fromMs, long toMs) {
        return moments.spanBeside(askedMs(), fromMs, toMs);
    }

    /** By when it is over, in one piece. */
    String lateEnd(When when) {
        return moment(ms(when.toS())).replace(' ', '\u00a0');
    }

    /** A moment, ms on the recording's clock. */
    String moment(long elapsedMs) {
        return moments.beside(askedMs(), elapsedMs);
    }

    private static long ms(double seconds) {
        return Math.round(seconds * 1000);
    }

    private long askedMs() {
        return snapshot.findings().forecast().orElseThrow().askedMs();
    }
}
