package org.kilnside.chart;

import java.util.Optional;

/**
 * Which stretch of the firings laid over each other is looked at. Immutable; every movement gives a new view.
 *
 * @param chosen what a person chose; empty for all there is
 */
public record OverlayView(Optional<TimeSpan> chosen) {
    public static final OverlayView WHOLE = new OverlayView(Optional.empty());

    public TimeSpan span(Overlay overlay) {
        return chosen.orElseGet(overlay::whole);
    }

    public boolean isWhole() {
        return chosen.isEmpty();
    }

    /**
     * Closer, or further away.
     *
     * @param factor below 1 closer, above 1 further
     * @param share the place that stays where it is, as a share of the width
     */
    public OverlayView zoom(double factor, double share, Overlay overlay) {
        TimeSpan span = span(overlay);
        TimeSpan whole = overlay.whole();
        long length = Math.max(TimeSpan.SHORTEST_MS, Math.round(span.lengthMs() * factor));
        return length >= whole.lengthMs() ? WHOLE : within(span.at(share) - Math.round(share * length), length, whole);
    }

    /**
     * Along the time.
     *
     * @param share how far, as a share of the width; positive = later
     */
    public OverlayView pan(double share, Overlay overlay) {
        if (isWhole()) {
            return this;
        }
        TimeSpan span = span(overlay);
        return within(span.fromMs() + Math.round(share * span.lengthMs()), span.lengthMs(), overlay.whole());
    }

    /** A view never leaves the firings altogether: half of it stays inside. */
    private static OverlayView within(long from, long length, TimeSpan whole) {
        long earliest = whole.fromMs() - length / 2;
        long latest = whole.toMs() - length / 2;
        long begin = Math.max(earliest, Math.min(latest, from));
        return new OverlayView(Optional.of(new TimeSpan(begin, begin + length)));
    }
}
