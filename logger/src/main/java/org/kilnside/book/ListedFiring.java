package org.kilnside.book;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.kilnside.quantity.Temperature;

/**
 * A firing as a list shows it and as a search finds it.
 *
 * @param number the firing's number
 * @param kiln the kiln's name; empty when not given
 * @param planName what the plan is called; empty without a plan
 * @param startedAt the wall clock at the recording's zero
 * @param duration from the recording's zero to its end, or to the newest reading while it goes on
 * @param peak the highest temperature; empty without a good reading, or while that is not worked out
 * @param ended whether the firing has ended
 * @param sketch its curve in small; empty while that is not worked out
 * @param upToDate whether the sketch is of all its readings
 * @param load what was in it, in few words; empty when nothing is written
 * @param searched all words a search looks through, in lower case
 */
public record ListedFiring(
        long number,
        Optional<String> kiln,
        Optional<String> planName,
        Instant startedAt,
        Duration duration,
        Optional<Temperature> peak,
        boolean ended,
        Optional<CurveSketch> sketch,
        boolean upToDate,
        Optional<String> load,
        String searched) {
    /** The same firing with its curve in small. */
    public ListedFiring with(CurveSketch its) {
        return new ListedFiring(
                number,
                kiln,
                planName,
                startedAt,
                duration,
                its.peak().or(() -> peak),
                ended,
                Optional.of(its),
                true,
                load,
                searched);
    }
}
