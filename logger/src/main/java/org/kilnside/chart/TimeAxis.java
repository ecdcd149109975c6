package org.kilnside.chart;

import java.awt.Graphics2D;
import java.text.NumberFormat;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Optional;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;
import org.jfree.chart.axis.TickUnit;
import org.jfree.chart.axis.TickUnits;
import org.kilnside.wording.Words;

/**
 * The recording's time in ms, marked at round hours and minutes: of the day where the wall clock is known, else since
 * the begin.
 */
final class TimeAxis extends NumberAxis {
    private static final long serialVersionUID = 1L;
    private static final long MINUTE_MS = 60_000;
    private static final long DAY_MS = 86_400_000;
    private static final int[] STEPS_MINUTES = {1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440, 2880, 7200};

    /** How far the recording's zero lies after a round day of the local clock, ms. */
    private long offsetMs;

    private int widestLabel;

    void show(Optional<Instant> zero, Words words) {
        ZoneId zone = words.preferences().zone();
        offsetMs = zero.map(instant -> instant.toEpochMilli()
                        + zone.getRules().getOffset(instant).getTotalSeconds() * 1000L)
                .map(local -> Math.floorMod(local, DAY_MS))
                .orElse(0L);
        TickUnits units = new TickUnits();
        for (int minutes : STEPS_MINUTES) {
            units.add(new Step(minutes * MINUTE_MS, offsetMs, zero.orElse(null), words));
        }
        setStandardTickUnits(units);
        setAutoTickUnitSelection(true, false);
    }

    void labelWidth(int pixels) {
        widestLabel = pixels;
    }

    @Override
    protected double estimateMaximumTickLabelWidth(Graphics2D g2, TickUnit unit) {
        return widestLabel;
    }

    @Override
    protected double calculateLowestVisibleTickValue() {
        double unit = getTickUnit().getSize();
        return Math.ceil((getRange().getLowerBound() + offsetMs) / unit) * unit - offsetMs;
    }

    @Override
    protected double calculateHighestVisibleTickValue() {
        double unit = getTickUnit().getSize();
        return Math.floor((getRange().getUpperBound() + offsetMs) / unit) * unit - offsetMs;
    }

    @Override
    protected int calculateVisibleTickCount() {
        double unit = getTickUnit().getSize();
        return (int) Math.round((calculateHighestVisibleTickValue() - calculateLowestVisibleTickValue()) / unit) + 1;
    }

    /** One distance between marks, and how a mark is written. */
    private static final class Step extends NumberTickUnit {
        private static final long serialVersionUID = 1L;
        private final long offsetMs;
        private final Instant zero;
        private final transient Words words;

        Step(long sizeMs, long offsetMs, Instant zero, Words words) {
            super(sizeMs, NumberFormat.getIntegerInstance(words.language().locale()));
            this.offsetMs = offsetMs;
            this.zero = zero;
            this.words = words;
        }

        @Override
        public String valueToString(double value) {
            long ms = Math.round(value);
            if (zero == null) {
                long minutes = Math.floorDiv(ms, MINUTE_MS);
                return String.format(
                        words.language().locale(), "%d:%02d", Math.floorDiv(minutes, 60), Math.floorMod(minutes, 60));
            }
            Instant instant = zero.plusMillis(ms);
            return Math.floorMod(ms + offsetMs, DAY_MS) == 0 ? words.day(instant) : words.time(instant);
        }

        @Override
        public boolean equals(Object other) {
            return super.equals(other) && other instanceof Step step && step.offsetMs == offsetMs;
        }

        @Override
        public int hashCode() {
            return super.hashCode() * 31 + Long.hashCode(offsetMs);
        }
    }
}
