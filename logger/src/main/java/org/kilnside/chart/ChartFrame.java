package org.kilnside.chart;

import java.awt.BasicStroke;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Rectangle2D;
import java.time.Instant;
import java.util.Optional;
import org.jfree.chart.axis.AxisSpace;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.StandardXYItemRenderer;
import org.jfree.chart.ui.RectangleInsets;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/**
 * The axes of a drawing with their grid, and where things stand between them. Drawn by the chart library; what lies
 * within is drawn by whoever asks. Confined to the thread that draws.
 */
final class ChartFrame {
    /** No drawing is lower than this: a quiet kiln's noise is not to look like a storm, in degrees of the unit. */
    private static final double LEAST_HEIGHT_DEGREES = 20;

    private final TimeAxis time = new TimeAxis();
    private final NumberAxis degrees = new DegreeAxis();
    private final XYPlot plot = new XYPlot(null, time, degrees, new StandardXYItemRenderer());
    private Optional<ChartGeometry> geometry = Optional.empty();
    private TemperatureUnit unit = TemperatureUnit.CELSIUS;

    ChartFrame() {
        plot.setOutlineVisible(false);
        plot.setBackgroundPaint(null);
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        plot.setInsets(RectangleInsets.ZERO_INSETS);
        time.setAxisLineVisible(false);
    }

    /** Where things stand in the newest drawing; empty before the first. */
    Optional<ChartGeometry> geometry() {
        return geometry;
    }

    /** Lays out a drawing and clears it: the area within the axes. */
    Rectangle2D begin(Graphics2D g, Rectangle2D bounds, TimeSpan span, ChartLook look) {
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        FontMetrics metrics = g.getFontMetrics(look.font());
        int line = metrics.getHeight();
        double left = metrics.stringWidth("00000") + 6.0;
        Rectangle2D area = new Rectangle2D.Double(
                bounds.getX() + left,
                bounds.getY() + line * 1.7,
                Math.max(10, bounds.getWidth() - left - metrics.stringWidth("00:00") * 0.6),
                Math.max(10, bounds.getHeight() - line * 1.7 - line * 1.5));
        geometry = Optional.of(new ChartGeometry(area, span));
        g.setPaint(look.surface());
        g.fill(bounds);
        g.setPaint(look.past());
        g.fill(area);
        return area;
    }

    /** Chooses what the axes show: the time of the layout, and these temperatures with some room around them. */
    void range(Reach reach, TemperatureUnit shown) {
        unit = shown;
        double from = unit.of(Temperature.ofCelsius(reach.isEmpty() ? 0 : reach.lowC()));
        double to = unit.of(Temperature.ofCelsius(reach.isEmpty() ? 100 : reach.highC()));
        double lack = Math.max(0, LEAST_HEIGHT_DEGREES - (to - from)) / 2;
        double margin = Math.max(2, (to - from) * 0.07);
        double zero = unit.of(Temperature.ofCelsius(0));
        boolean nearZero = from >= zero && from - zero < (to - from) * 0.25;
        TimeSpan span = geometry.orElseThrow().span();
        time.setRange(span.fromMs(), span.toMs());
        degrees.setRange(nearZero ? zero : from - lack - margin, to + lack + margin);
    }

    /** From time and temperature to the drawing's pixels, for the newest range. */
    ChartScale scale() {
        Rectangle2D area = geometry.orElseThrow().area();
        TimeSpan span = geometry.orElseThrow().span();
        double perDegree = area.getHeight() / degrees.getRange().getLength();
        double zero = unit.of(Temperature.ofCelsius(0));
        double degreesPerK = unit.of(Temperature.ofCelsius(1)) - zero;
        return new ChartScale(
                span.fromMs(),
                area.getWidth() / span.lengthMs(),
                area.getX(),
                area.getMaxY() - (zero - degrees.getLowerBound()) * perDegree,
                degreesPerK * perDegree);
    }

    /** Draws the axes and the grid. */
    void draw(Graphics2D g, Rectangle2D bounds, Optional<Instant> zero, ChartLook look, Words words) {
        Rectangle2D area = geometry.orElseThrow().area();
        FontMetrics metrics = g.getFontMetrics(look.font());
        time.show(zero, words);
        time.labelWidth(Math.max(metrics.stringWidth("00:00 PM"), metrics.stringWidth("www 00 www")));
        for (NumberAxis axis : new NumberAxis[] {time, degrees}) {
            axis.setTickLabelFont(look.font());
            axis.setTickLabelPaint(look.text());
            axis.setTickMarkPaint(look.grid());
        }
        BasicStroke hair = new BasicStroke(Math.max(1f, metrics.getHeight() / 24f));
        plot.setRangeGridlinePaint(look.grid());
        plot.setDomainGridlinePaint(look.grid());
        plot.setRangeGridlineStroke(hair);
        plot.setDomainGridlineStroke(hair);
        AxisSpace sides = new AxisSpace();
        sides.setLeft(area.getX() - bounds.getX());
        sides.setRight(bounds.getMaxX() - area.getMaxX());
        AxisSpace ends = new AxisSpace();
        ends.setTop(area.getY() - bounds.getY());
        ends.setBottom(bounds.getMaxY() - area.getMaxY());
        plot.setFixedRangeAxisSpace(sides, false);
        plot.setFixedDomainAxisSpace(ends, false);
        plot.draw(g, bounds, null, null, null);
    }
}
