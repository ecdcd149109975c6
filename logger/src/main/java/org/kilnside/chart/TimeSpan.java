package org.kilnside.chart;

/**
 * A stretch of the recording's time, in ms; from is inside, to is outside.
 *
 * @param fromMs the begin
 * @param toMs the end, later than the begin
 */
public record TimeSpan(long fromMs, long toMs) {
    /** No drawing shows less than this: five minutes. */
    public static final long SHORTEST_MS = 300_000;

    public TimeSpan {
        if (toMs <= fromMs) {
            throw new IllegalArgumentException("a span of time runs forward, found " + fromMs + " to " + toMs + " ms");
        }
    }

    public long lengthMs() {
        return toMs - fromMs;
    }

    public boolean contains(long timeMs) {
        return timeMs >= fromMs && timeMs < toMs;
    }

    /** The moment at a share of the span, 0 = begin, 1 = end. */
    public long at(double share) {
        return fromMs + Math.round(share * lengthMs());
    }

    public TimeSpan movedBy(long ms) {
        return new TimeSpan(fromMs + ms, toMs + ms);
    }
}
