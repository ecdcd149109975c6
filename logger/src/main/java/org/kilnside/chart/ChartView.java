package org.kilnside.chart;

import java.util.OptionalLong;

/**
 * Which stretch of a firing is looked at: the whole, a length that goes with now, or a stretch a person chose. Immutable;
 * every movement gives a new view.
 */
public final class ChartView {
    /** All of the firing, growing with it. */
    public static final ChartView WHOLE = new ChartView(Mode.WHOLE, 0, 0);

    /** Where now stands in a view that goes with it, as a share of the width. */
    private static final double NOW_AT = 0.8;

    private final Mode mode;
    private final long fromMs;
    private final long lengthMs;

    private enum Mode {
        WHOLE,
        WITH_NOW,
        CHOSEN
    }

    private ChartView(Mode mode, long fromMs, long lengthMs) {
        this.mode = mode;
        this.fromMs = fromMs;
        this.lengthMs = lengthMs;
    }

    public boolean isWhole() {
        return mode == Mode.WHOLE;
    }

    /** Whether the view moves along with the firing. */
    public boolean goesWithNow() {
        return mode != Mode.CHOSEN;
    }

    /** The stretch to draw. */
    public TimeSpan span(ChartContent content) {
        return switch (mode) {
            case WHOLE -> content.whole();
            case CHOSEN -> new TimeSpan(fromMs, fromMs + lengthMs);
            case WITH_NOW -> {
                long now = now(content);
                long from = now - Math.round(NOW_AT * lengthMs);
                yield new TimeSpan(from, from + lengthMs);
            }
        };
    }

    /**
     * Closer, or further away.
     *
     * @param factor below 1 closer, above 1 further
     * @param share the place that stays where it is, as a share of the width
     */
    public ChartView zoom(double factor, double share, ChartContent content) {
        TimeSpan span = span(content);
        TimeSpan whole = content.whole();
        long length = Math.max(TimeSpan.SHORTEST_MS, Math.round(span.lengthMs() * factor));
        if (length >= whole.lengthMs()) {
            return WHOLE;
        }
        if (mode == Mode.WITH_NOW) {
            return new ChartView(Mode.WITH_NOW, 0, length);
        }
        return chosen(span.at(share) - Math.round(share * length), length, whole);
    }

    /**
     * Along the time.
     *
     * @param share how far, as a share of the width; positive = later
     */
    public ChartView pan(double share, ChartContent content) {
        if (mode == Mode.WHOLE) {
            return this;
        }
        TimeSpan span = span(content).movedBy(Math.round(share * span(content).lengthMs()));
        return chosen(span.fromMs(), span.lengthMs(), content.whole());
    }

    /** To now, keeping how close one looks; from the whole, the last two hours. */
    public ChartView backToNow(ChartContent content) {
        long length = mode == Mode.WHOLE
                ? Math.min(7_200_000, content.whole().lengthMs())
                : span(content).lengthMs();
        return new ChartView(Mode.WITH_NOW, 0, length);
    }

    /** A view never leaves the firing altogether: half of it stays inside. */
    private static ChartView chosen(long from, long length, TimeSpan whole) {
        long earliest = whole.fromMs() - length / 2;
        long latest = whole.toMs() - length / 2;
        return new ChartView(Mode.CHOSEN, Math.max(earliest, Math.min(latest, from)), length);
    }

    private static long now(ChartContent content) {
        OptionalLong now = content.nowMs();
        if (now.isPresent()) {
            return now.getAsLong();
        }
        return content.curve().isEmpty()
                ? 0
                : content.curve().elapsedMs(content.curve().size() - 1);
    }
}
