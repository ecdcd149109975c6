package org.kilnside.week;

import java.time.Duration;
import java.time.Instant;

/**
 * A stretch of time.
 *
 * @param from its begin
 * @param to its end, after {@code from}
 */
public record Span(Instant from, Instant to) {
    public Span {
        if (!to.isAfter(from)) {
            throw new IllegalArgumentException("a span ends after it begins, found " + from + " to " + to);
        }
    }

    public Duration length() {
        return Duration.between(from, to);
    }
}
