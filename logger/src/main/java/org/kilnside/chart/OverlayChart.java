package org.kilnside.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jfree.chart.axis.AxisSpace;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleInsets;
import org.kilnside.quantity.Temperature;
import org.kilnside.tracking.PlanPosition.PlanPoint;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/**
 * Firings out of the book as a drawing, one or several over each other. Each line has a colour, a way of being broken and
 * its name beside its peak, so that none is told by its colour alone. Confined to the thread that draws.
 */
public final class OverlayChart {
    /** No drawing is lower than this: a quiet kiln's noise is not to look like a storm, in degrees of the unit. */
    private static final double LEAST_HEIGHT_DEGREES = 20;

    /** How the second five lines are broken, in sixteenths of a text line. */
    private static final float[] BROKEN = {9, 3.5f};

    private final List<CurvePath> paths = new ArrayList<>();
    private final TimeAxis time = new TimeAxis();
    private final NumberAxis degrees = new DegreeAxis();
    private final XYPlot plot = new XYPlot(PointSeries.of(List.<PlanPoint>of()), time, degrees, new LinePainter());
    private Optional<FiringChart.Geometry> geometry = Optional.empty();

    public OverlayChart() {
        plot.setOutlineVisible(false);
        plot.setBackgroundPaint(null);
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        plot.setInsets(RectangleInsets.ZERO_INSETS);
        time.setAxisLineVisible(false);
    }

    /** Where things stand in the newest drawing; empty before the first. */
    public Optional<FiringChart.Geometry> geometry() {
        return geometry;
    }

    /**
     * Draws, filling the bounds.
     *
     * @param colours one for each of the first lines; where there are more lines they are broken and begin again
     */
    public void draw(
            Graphics2D g,
            Rectangle2D bounds,
            Overlay overlay,
            OverlayView view,
            ChartLook look,
            List<Color> colours,
            Words words) {
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
        TimeSpan span = view.span(overlay);
        geometry = Optional.of(new FiringChart.Geometry(area, span));
        g.setPaint(look.surface());
        g.fill(bounds);
        g.setPaint(look.past());
        g.fill(area);
        TemperatureUnit unit = words.preferences().unit();
        scale(overlay, span, (int) Math.ceil(area.getWidth()), unit);
        axes(g, bounds, area, overlay, look, words, metrics);
        Graphics2D inside = (Graphics2D) g.create();
        inside.clip(area);
        lines(inside, area, overlay, span, look, colours, unit, line / 16f);
        inside.dispose();
        OverlayLabels.names(g, area, overlay, span, look, colours, scale(area, span, unit));
        OverlayLabels.captions(g, bounds, area, overlay, look, words);
    }

    private void scale(Overlay overlay, TimeSpan span, int columns, TemperatureUnit unit) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (Overlay.Line line : overlay.lines()) {
            double from = span.fromMs() - line.shiftMs();
            double to = span.toMs() - line.shiftMs();
            CurveLevels.Level level = line.levels().level(from, to, columns);
            int last = Math.min(level.size() - 1, level.from(to));
            for (int i = Math.max(0, level.from(from) - 1); i <= last; i++) {
                double celsius = level.temperatureC()[i];
                if (celsius < low) {
                    low = celsius;
                }
                if (celsius > high) {
                    high = celsius;
                }
            }
        }
        for (PlanPoint corner : overlay.plan()) {
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
        double zero = unit.of(Temperature.ofCelsius(0));
        boolean nearZero = from >= zero && from - zero < (to - from) * 0.25;
        time.setRange(span.fromMs(), span.toMs());
        degrees.setRange(nearZero ? zero : from - lack - margin, to + lack + margin);
    }

    private void axes(
            Graphics2D g,
            Rectangle2D bounds,
            Rectangle2D area,
            Overlay overlay,
            ChartLook look,
            Words words,
            FontMetrics metrics) {
        time.show(overlay.zero(), words);
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

    private void lines(
            Graphics2D g,
            Rectangle2D area,
            Overlay overlay,
            TimeSpan span,
            ChartLook look,
            List<Color> colours,
            TemperatureUnit unit,
            float thin) {
        CurvePath.Scale scale = scale(area, span, unit);
        while (paths.size() < overlay.lines().size()) {
            paths.add(new CurvePath());
        }
        boolean alone = overlay.lines().size() == 1;
        plan(g, overlay, scale, look, thin);
        for (int i = overlay.lines().size() - 1; i >= 0; i--) {
            Overlay.Line line = overlay.lines().get(i);
            CurveLevels.Level level = line.levels()
                    .level((double) span.fromMs() - line.shiftMs(), (double) span.toMs() - line.shiftMs(), (int)
                            Math.ceil(area.getWidth()));
            Path2D path = paths.get(i).of(level, span.fromMs(), span.toMs(), line.shiftMs(), scale);
            g.setPaint(alone ? look.curve() : colours.get(i % colours.size()));
            g.setStroke(stroke(i >= colours.size(), i == 0, thin));
            g.draw(path);
        }
        marks(g, area, overlay, scale, look, thin);
    }

    private CurvePath.Scale scale(Rectangle2D area, TimeSpan span, TemperatureUnit unit) {
        double perDegree = area.getHeight() / degrees.getRange().getLength();
        double degreesPerK = unit.of(Temperature.ofCelsius(1)) - unit.of(Temperature.ofCelsius(0));
        double zeroY = area.getMaxY() - (unit.of(Temperature.ofCelsius(0)) - degrees.getLowerBound()) * perDegree;
        return new CurvePath.Scale(
                span.fromMs(), area.getWidth() / span.lengthMs(), area.getX(), zeroY, degreesPerK * perDegree);
    }

    private static void plan(Graphics2D g, Overlay overlay, CurvePath.Scale scale, ChartLook look, float thin) {
        if (overlay.plan().size() < 2) {
            return;
        }
        Path2D plan = new Path2D.Double();
        for (PlanPoint corner : overlay.plan()) {
            double x = scale.x(corner.elapsedMs());
            double y = scale.y(corner.temperatureC());
            if (plan.getCurrentPoint() == null) {
                plan.moveTo(x, y);
            } else {
                plan.lineTo(x, y);
            }
        }
        g.setPaint(look.plan());
        g.setStroke(planStroke(thin));
        g.draw(plan);
    }

    static BasicStroke planStroke(float thin) {
        return new BasicStroke(
                thin * 1.6f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, new float[] {thin * 5, thin * 4}, 0);
    }

    static BasicStroke stroke(boolean broken, boolean first, float thin) {
        float width = thin * (first ? 2f : 1.5f);
        return broken
                ? new BasicStroke(
                        width,
                        BasicStroke.CAP_BUTT,
                        BasicStroke.JOIN_BEVEL,
                        1,
                        new float[] {BROKEN[0] * thin, BROKEN[1] * thin},
                        0)
                : new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_BEVEL);
    }

    private static void marks(
            Graphics2D g, Rectangle2D area, Overlay overlay, CurvePath.Scale scale, ChartLook look, float thin) {
        BasicStroke dots = new BasicStroke(
                thin, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND, 1, new float[] {thin, thin * 4}, 0);
        g.setPaint(look.mark());
        g.setStroke(dots);
        if (overlay.quartz()) {
            double y = scale.y(ChartContent.QUARTZ_C);
            g.draw(new Line2D.Double(area.getX(), y, area.getMaxX(), y));
        }
        if (overlay.commonC().isPresent()) {
            double x = scale.x(0);
            double y = scale.y(overlay.commonC().getAsDouble());
            g.draw(new Line2D.Double(x, area.getY(), x, area.getMaxY()));
            g.draw(new Line2D.Double(area.getX(), y, area.getMaxX(), y));
        }
        if (overlay.markMs().isPresent()) {
            double x = scale.x(overlay.markMs().getAsLong());
            g.setPaint(look.now());
            g.fill(new Rectangle2D.Double(x - thin / 2, area.getY(), Math.max(1, thin), area.getHeight()));
        }
    }

    /**
     * A line under the pointer and a box with what stands there.
     *
     * @param rows one line of text each, the time first
     */
    public void drawReadout(Graphics2D g, long timeMs, List<String> rows, ChartLook look) {
        if (geometry.isEmpty() || rows.isEmpty()) {
            return;
        }
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        Rectangle2D area = geometry.get().area();
        TimeSpan span = geometry.get().span();
        double x = area.getX() + (double) (timeMs - span.fromMs()) / span.lengthMs() * area.getWidth();
        g.setPaint(look.text());
        g.setStroke(new BasicStroke(1));
        g.draw(new Line2D.Double(x, area.getY(), x, area.getMaxY()));
        g.setFont(look.font());
        FontMetrics metrics = g.getFontMetrics();
        double width = rows.stream().mapToInt(metrics::stringWidth).max().orElse(0) + metrics.getHeight();
        double height = metrics.getHeight() * (rows.size() + 0.5);
        double left = x + 8 + width < area.getMaxX() ? x + 8 : Math.max(area.getX(), x - 8 - width);
        Rectangle2D box = new Rectangle2D.Double(left, area.getMaxY() - height - 6, width, height);
        g.setPaint(look.surface());
        g.fill(box);
        g.setPaint(look.text());
        g.draw(box);
        for (int i = 0; i < rows.size(); i++) {
            g.drawString(rows.get(i), (float) (left + metrics.getHeight() / 2.0), (float)
                    (box.getY() + metrics.getHeight() * (i + 0.25) + metrics.getAscent()));
        }
    }
}
