package org.kilnside.book;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.kilnside.session.Snapshot.Peak;

/**
 * One line of the book's list.
 *
 * @param number the firing's number
 * @param kiln the kiln's name; empty when not given
 * @param link where the readings came from
 * @param planName what the plan is called; empty without a plan
 * @param startedAt the wall clock at the recording's zero
 * @param duration from the recording's zero to its end, or to the newest reading while it goes on
 * @param readingCount how many readings it has
 * @param peak the highest temperature that is not one reading's alone; empty without a good reading
 * @param ended whether the firing has ended
 */
public record FiringSummary(
        long number,
        Optional<String> kiln,
        String link,
        Optional<String> planName,
        Instant startedAt,
        Duration duration,
        long readingCount,
        Optional<Peak> peak,
        boolean ended) {}
