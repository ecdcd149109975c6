package org.kilnside.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import org.jfree.chart.axis.AxisSpace;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleInsets;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.tracking.FiringFigures;
import org.kilnside.tracking.PlanPosition.PlanPoint;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/**
 * A firing as a drawing: what the kiln did, what the plan asks, now, and what a person wants marked. Above it stands
 * what each line is, so that no line is told by its colour alone. Confined to the thread that draws.
 */
public final class FiringChart {
    /** No drawing is lower than this: a quiet kiln's noise is not to look like a storm, in degrees of the unit. */
    private static final double LEAST_HEIGHT_DEGREES = 20;

    private final CurvePoints points = new CurvePoints();
    private final LinePainter curveLine = new LinePainter();
    private final LinePainter planLine = new LinePainter();
    private final TimeAxis time = new TimeAxis();
    private final NumberAxis degrees = new DegreeAxis();
    private final XYPlot plot = new XYPlot(null, time, degrees, null);
    private Optional<Geometry> geometry = Optional.empty();

    /**
     * Where things stand in the newest drawing.
     *
     * @param area the plot within the axes, in the drawing's pixels
     * @param span the time it shows
     */
    public record Geometry(Rectangle2D area, TimeSpan span) {
        /** The share of the width at a pixel, 0 … 1 inside. */
        public double share(double x) {
            return (x - area.getX()) / area.getWidth();
        }

        public long timeMs(double x) {
            return span.at(share(x));
        }
    }

    public FiringChart() {
        plot.setDataset(0, PointSeries.of(points));
        plot.setRenderer(0, curveLine);
        plot.setRenderer(1, planLine);
        plot.setOutlineVisible(false);
        plot.setBackgroundPaint(null);
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        plot.setInsets(RectangleInsets.ZERO_INSETS);
        time.setAxisLineVisible(false);
    }

    /** Where things stand in the newest drawing; empty before the first. */
    public Optional<Geometry> geometry() {
        return geometry;
    }

    /** Where a temperature stands in the newest drawing, in its pixels; 0 before the first. */
    public double y(Temperature temperature) {
        return geometry.map(its -> y(temperature, its.area())).orElse(0.0);
    }

    /** Draws, filling the bounds. */
    public void draw(
            Graphics2D g, Rectangle2D bounds, ChartContent content, ChartView view, ChartLook look, Words words) {
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        FontMetrics metrics = g.getFontMetrics(look.font());
        int line = metrics.getHeight();
        Rectangle2D area = new Rectangle2D.Double(
                bounds.getX() + metrics.stringWidth("00000") + 6,
                bounds.getY() + line * 1.7,
                Math.max(10, bounds.getWidth() - metrics.stringWidth("00000") - 6 - metrics.stringWidth("00:00") * 0.6),
                Math.max(10, bounds.getHeight() - line * 1.7 - line * 1.5));
        TimeSpan span = view.span(content);
        geometry = Optional.of(new Geometry(area, span));
        TemperatureUnit unit = words.preferences().unit();

        g.setPaint(look.surface());
        g.fill(bounds);
        scale(content, span, area, unit);
        grounds(g, area, content, span, look);
        content.across().ifPresent(text -> across(g, area, text, look));
        fan(g, area, content, span, look);
        dress(content, look, words, metrics);
        drawPlot(g, bounds, area);
        marks(g, area, content, span, look, words);
        captions(g, bounds, area, content, look, words);
    }

    /** A line under the pointer with what stands there: time, plan, actual, and how far apart. */
    public void drawReadout(Graphics2D g, Readout readout, String text, ChartLook look) {
        if (geometry.isEmpty()) {
            return;
        }
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        Rectangle2D area = geometry.get().area();
        double x = x(readout.elapsedMs(), area, geometry.get().span());
        g.setPaint(look.text());
        g.setStroke(new BasicStroke(1));
        g.draw(new Line2D.Double(x, area.getY(), x, area.getMaxY()));
        readout.actual().ifPresent(actual -> dot(g, x, y(actual, area), look.curve(), look.surface()));
        readout.planned().ifPresent(planned -> dot(g, x, y(planned, area), look.plan(), look.surface()));
        g.setFont(look.font());
        FontMetrics metrics = g.getFontMetrics();
        double width = metrics.stringWidth(text) + metrics.getHeight();
        double left = Math.max(area.getX(), Math.min(x + 8, area.getMaxX() - width));
        Rectangle2D box = new Rectangle2D.Double(
                left, area.getMaxY() - metrics.getHeight() * 1.9, width, metrics.getHeight() * 1.5);
        g.setPaint(look.surface());
        g.fill(box);
        g.setPaint(look.text());
        g.draw(box);
        g.drawString(text, (float) (left + metrics.getHeight() / 2.0), (float)
                (box.getCenterY() + metrics.getAscent() / 2.0 - metrics.getDescent() / 2.0));
    }

    private void scale(ChartContent content, TimeSpan span, Rectangle2D area, TemperatureUnit unit) {
        Trace curve = content.curve();
        int columns = (int) Math.ceil(area.getWidth());
        double degreesPerPixelC = (degrees.getRange().getLength()) / area.getHeight();
        points.take(curve, span, columns, degreesPerPixelC / 2, FiringFigures.gapLimitMs(curve));
        double low = points.lowestC();
        double high = points.highestC();
        for (long edge : new long[] {span.fromMs(), span.toMs()}) {
            Optional<Temperature> planned = Readout.at(edge, content).planned();
            low = Math.min(low, planned.map(Temperature::celsius).orElse(low));
            high = Math.max(high, planned.map(Temperature::celsius).orElse(high));
        }
        for (ForecastFan.Point point : content.fan()) {
            if (span.contains(point.elapsedMs())) {
                low = Math.min(low, point.lowC());
                high = Math.max(high, point.highC());
            }
        }
        for (PlanPoint corner : content.plan()) {
            if (span.contains(corner.elapsedMs())) {
                low = Math.min(low, corner.temperatureC());
                high = Math.max(high, corner.temperatureC());
            }
        }
        if (low > high) {
            low = 0;
            high = 100;
        }
        double from = unit.of(Temperature.ofCelsius(low));
        double to = unit.of(Temperature.ofCelsius(high));
        double lack = Math.max(0, LEAST_HEIGHT_DEGREES - (to - from)) / 2;
        double margin = Math.max(2, (to - from) * 0.07);
        double floor = from - lack - margin;
        double zero = unit.of(Temperature.ofCelsius(0));
        boolean nearZero = from >= zero && from - zero < (to - from) * 0.25;
        time.setRange(span.fromMs(), span.toMs());
        degrees.setRange(nearZero ? zero : floor, to + lack + margin);
    }

    /** What is to come: a band nine in ten lie in, and a dotted line through its middle. */
    private void fan(Graphics2D g, Rectangle2D area, ChartContent content, TimeSpan span, ChartLook look) {
        List<ForecastFan.Point> fan = content.fan();
        if (fan.size() < 2) {
            return;
        }
        Path2D band = new Path2D.Double();
        Path2D middle = new Path2D.Double();
        for (int i = 0; i < fan.size(); i++) {
            double x = x(fan.get(i).elapsedMs(), area, span);
            to(band, i == 0, x, y(Temperature.ofCelsius(fan.get(i).highC()), area));
            to(middle, i == 0, x, y(Temperature.ofCelsius(fan.get(i).medianC()), area));
        }
        for (int i = fan.size() - 1; i >= 0; i--) {
            to(
                    band,
                    false,
                    x(fan.get(i).elapsedMs(), area, span),
                    y(Temperature.ofCelsius(fan.get(i).lowC()), area));
        }
        band.closePath();
        Graphics2D inside = (Graphics2D) g.create();
        inside.clip(area);
        inside.setPaint(band(look));
        inside.fill(band);
        inside.setPaint(look.curve());
        inside.setStroke(dotted(inside.getFontMetrics(look.font()).getHeight() / 16f));
        inside.draw(middle);
        inside.dispose();
    }

    private static void to(Path2D path, boolean first, double x, double y) {
        if (first) {
            path.moveTo(x, y);
        } else {
            path.lineTo(x, y);
        }
    }

    private static Color band(ChartLook look) {
        return new Color(
                look.curve().getRed(), look.curve().getGreen(), look.curve().getBlue(), 64);
    }

    private static BasicStroke dotted(float thin) {
        return new BasicStroke(
                thin * 1.6f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND, 1, new float[] {thin * 0.1f, thin * 4}, 0);
    }

    private static void grounds(Graphics2D g, Rectangle2D area, ChartContent content, TimeSpan span, ChartLook look) {
        g.setPaint(look.past());
        g.fill(area);
        if (content.nowMs().isPresent()) {
            double x = Math.max(area.getX(), x(content.nowMs().getAsLong(), area, span));
            if (x < area.getMaxX()) {
                g.setPaint(look.future());
                g.fill(new Rectangle2D.Double(x, area.getY(), area.getMaxX() - x, area.getHeight()));
            }
        }
    }

    private void dress(ChartContent content, ChartLook look, Words words, FontMetrics metrics) {
        float thin = metrics.getHeight() / 16f;
        curveLine.look(
                look.curve(), new BasicStroke(thin * 1.6f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND), look.glow());
        planLine.look(
                look.plan(),
                new BasicStroke(
                        thin * 1.6f,
                        BasicStroke.CAP_BUTT,
                        BasicStroke.JOIN_ROUND,
                        1,
                        new float[] {thin * 7, thin * 4},
                        0),
                null);
        ((PointSeries) plot.getDataset(0)).in(words.preferences().unit());
        plot.setDataset(1, PointSeries.of(content.plan()).in(words.preferences().unit()));
        time.show(content.zero(), words);
        time.labelWidth(Math.max(metrics.stringWidth("00:00 PM"), metrics.stringWidth("www 00 www")));
        for (NumberAxis axis : new NumberAxis[] {time, degrees}) {
            axis.setTickLabelFont(look.font());
            axis.setTickLabelPaint(look.text());
            axis.setTickMarkPaint(look.grid());
        }
        BasicStroke hair = new BasicStroke(Math.max(1f, thin * 0.7f));
        plot.setRangeGridlinePaint(look.grid());
        plot.setDomainGridlinePaint(look.grid());
        plot.setRangeGridlineStroke(hair);
        plot.setDomainGridlineStroke(hair);
    }

    private void drawPlot(Graphics2D g, Rectangle2D bounds, Rectangle2D area) {
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

    private void marks(
            Graphics2D g, Rectangle2D area, ChartContent content, TimeSpan span, ChartLook look, Words words) {
        g.setFont(look.font());
        FontMetrics metrics = g.getFontMetrics();
        float thin = metrics.getHeight() / 16f;
        if (content.quartz()) {
            Temperature quartz = Temperature.ofCelsius(ChartContent.QUARTZ_C);
            double y = y(quartz, area);
            if (y > area.getY() && y < area.getMaxY()) {
                g.setPaint(look.mark());
                g.setStroke(new BasicStroke(
                        thin, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND, 1, new float[] {thin, thin * 4}, 0));
                g.draw(new Line2D.Double(area.getX(), y, area.getMaxX(), y));
                g.drawString(words.text("chart.quartz", words.temperature(quartz)), (float) (area.getX() + 6), (float)
                        (y - metrics.getDescent()));
            }
        }
        if (content.nowMs().isPresent() && span.contains(content.nowMs().getAsLong())) {
            double x = x(content.nowMs().getAsLong(), area, span);
            g.setPaint(look.now());
            double width = Math.max(1, Math.round(thin * 1.4));
            g.fill(new Rectangle2D.Double(Math.round(x - width / 2), area.getY(), width, area.getHeight()));
            String now = words.text("chart.now");
            boolean room = x + 6 + metrics.stringWidth(now) < area.getMaxX();
            // Early in a firing the upper side is empty, late the lower one.
            double base = x < area.getCenterX()
                    ? area.getY() + metrics.getAscent() + 2
                    : area.getMaxY() - metrics.getDescent() - 3;
            double left = room ? x + 6 : x - 6 - metrics.stringWidth(now);
            g.drawString(now, (float) left, (float) base);
        }
        if (content.peakMs().isPresent() && span.contains(content.peakMs().getAsLong())) {
            Readout.at(content.peakMs().getAsLong(), content).actual().ifPresent(peak -> {
                double x = x(content.peakMs().getAsLong(), area, span);
                double y = y(peak, area);
                dot(g, x, y, look.curve(), look.surface());
                g.setPaint(look.text());
                String text = words.temperature(peak);
                double left = Math.max(
                        area.getX(),
                        Math.min(x + metrics.getHeight() * 0.6, area.getMaxX() - metrics.stringWidth(text)));
                g.drawString(text, (float) left, (float) Math.max(area.getY() + metrics.getAscent(), y));
            });
        }
    }

    /** Above the drawing: the unit, and what each line is. */
    private static void captions(
            Graphics2D g, Rectangle2D bounds, Rectangle2D area, ChartContent content, ChartLook look, Words words) {
        g.setFont(look.font());
        FontMetrics metrics = g.getFontMetrics();
        float base = (float) (bounds.getY() + metrics.getAscent() + metrics.getHeight() * 0.25);
        g.setPaint(look.text());
        String unit = words.unit();
        g.drawString(unit, (float) (area.getX() - 6 - metrics.stringWidth(unit)), base);
        double x = area.getX() + 2;
        x = caption(g, x, base, words.text("chart.actual"), look.curve(), false, look);
        if (!content.plan().isEmpty()) {
            x = caption(g, x, base, words.text("chart.plan"), look.plan(), true, look);
        }
        if (!content.fan().isEmpty()) {
            float thin = metrics.getHeight() / 16f;
            double width = metrics.getHeight() * 1.6;
            double y = base - metrics.getAscent() * 0.35;
            g.setPaint(band(look));
            g.fill(new Rectangle2D.Double(x, y - thin * 5, width, thin * 10));
            g.setPaint(look.curve());
            g.setStroke(dotted(thin));
            g.draw(new Line2D.Double(x + thin, y, x + width - thin, y));
            g.setPaint(look.text());
            String text = words.text("chart.fan");
            g.drawString(text, (float) (x + width + 6), base);
            x += width + 6 + metrics.stringWidth(text) + metrics.getHeight();
        }
        String axis = words.text(content.zero().isPresent() ? "chart.time_of_day" : "chart.since_begin");
        g.setPaint(look.text());
        double left = area.getMaxX() - metrics.stringWidth(axis);
        if (left > x) {
            // In a narrow drawing the lines' names come first: the axis tells itself.
            g.drawString(axis, (float) left, base);
        }
    }

    private static double caption(
            Graphics2D g, double x, float base, String text, Color colour, boolean dashed, ChartLook look) {
        FontMetrics metrics = g.getFontMetrics();
        float thin = metrics.getHeight() / 16f;
        double y = base - metrics.getAscent() * 0.35;
        double width = metrics.getHeight() * 1.6;
        g.setPaint(colour);
        g.setStroke(
                dashed
                        ? new BasicStroke(
                                thin * 1.8f,
                                BasicStroke.CAP_BUTT,
                                BasicStroke.JOIN_ROUND,
                                1,
                                new float[] {thin * 6, thin * 3},
                                0)
                        : new BasicStroke(thin * 2.6f));
        g.draw(new Line2D.Double(x, y, x + width, y));
        g.setPaint(look.text());
        g.drawString(text, (float) (x + width + 6), base);
        return x + width + 6 + metrics.stringWidth(text) + metrics.getHeight() * 1.4;
    }

    /** What is not a real kiln now says so right through the drawing. */
    private static void across(Graphics2D g, Rectangle2D area, String text, ChartLook look) {
        AffineTransform before = g.getTransform();
        float size = (float) Math.min(area.getHeight() / 4, area.getWidth() / Math.max(6, text.length() * 0.75));
        Font large = look.font().deriveFont(Font.BOLD, size);
        g.setFont(large);
        FontMetrics metrics = g.getFontMetrics();
        g.setPaint(look.grid());
        g.translate(area.getCenterX(), area.getCenterY());
        g.rotate(-Math.atan2(area.getHeight(), area.getWidth()) * 0.5);
        g.drawString(text, -metrics.stringWidth(text) / 2f, metrics.getAscent() / 2f);
        g.setTransform(before);
    }

    private static void dot(Graphics2D g, double x, double y, Color colour, Color rim) {
        Ellipse2D dot = new Ellipse2D.Double(x - 4.5, y - 4.5, 9, 9);
        g.setPaint(colour);
        g.fill(dot);
        g.setPaint(rim);
        g.setStroke(new BasicStroke(1.5f));
        g.draw(dot);
    }

    private static double x(long timeMs, Rectangle2D area, TimeSpan span) {
        return area.getX() + (double) (timeMs - span.fromMs()) / span.lengthMs() * area.getWidth();
    }

    private double y(Temperature temperature, Rectangle2D area) {
        PointSeries curve = (PointSeries) plot.getDataset(0);
        double value = curve.unit().of(temperature);
        return area.getMaxY()
                - (value - degrees.getLowerBound()) / degrees.getRange().getLength() * area.getHeight();
    }
}
