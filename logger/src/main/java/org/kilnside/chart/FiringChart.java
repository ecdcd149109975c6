package org.kilnside.chart;

import java.awt.BasicStroke;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.tracking.FiringFigures;
import org.kilnside.tracking.PlanPosition.PlanPoint;
import org.kilnside.wording.Words;

/**
 * A firing as a drawing: what the kiln did, what the plan asks, now, and what a person wants marked. Above it stands
 * what each line is, so that no line is told by its colour alone. Confined to the thread that draws.
 */
public final class FiringChart {
    private final ChartFrame frame = new ChartFrame();
    private final PenTrack track = new PenTrack();
    private final InkLayer ink = new InkLayer();
    private Optional<ChartScale> scale = Optional.empty();

    /** Where things stand in the newest drawing; empty before the first. */
    public Optional<ChartGeometry> geometry() {
        return frame.geometry();
    }

    /** Where a temperature stands in the newest drawing, in its pixels; 0 before the first. */
    public double y(Temperature temperature) {
        return scale.map(its -> its.y(temperature.celsius())).orElse(0.0);
    }

    /** Draws, filling the bounds. */
    public void draw(
            Graphics2D g, Rectangle2D bounds, ChartContent content, ChartView view, ChartLook look, Words words) {
        TimeSpan span = view.span(content);
        Rectangle2D area = frame.begin(g, bounds, span, look);
        frame.range(reach(content, span), words.preferences().unit());
        ChartScale placed = frame.scale();
        scale = Optional.of(placed);
        FiringMarks marks = new FiringMarks(g, area, content, placed, look, words);
        marks.future();
        marks.across();
        marks.fan();
        frame.draw(g, bounds, content.zero(), look, words);
        Graphics2D inside = (Graphics2D) g.create();
        inside.clip(area);
        float thin = g.getFontMetrics(look.font()).getHeight() / 16f;
        curve(inside, area, content.curve(), span, placed, look, thin);
        plan(inside, content.plan(), placed, look, thin);
        inside.dispose();
        marks.draw(span);
        marks.captions(bounds);
    }

    private void curve(
            Graphics2D g,
            Rectangle2D area,
            Trace curve,
            TimeSpan span,
            ChartScale drawing,
            ChartLook look,
            float thin) {
        AffineTransform toDevice = g.getTransform();
        ink.begin(area, toDevice);
        double radius = thin * 0.8 * toDevice.getScaleX();
        track.follow(curve, span, FiringFigures.gapLimitMs(curve), ink.scale(drawing, toDevice), ink.columns(), radius);
        ink.below(track, look.glow());
        ink.ink(track, look.curve());
        ink.paint(g);
    }

    private static void plan(Graphics2D g, List<PlanPoint> plan, ChartScale scale, ChartLook look, float thin) {
        g.setPaint(look.plan());
        g.setStroke(new BasicStroke(
                thin * 1.6f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, new float[] {thin * 7, thin * 4}, 0));
        g.draw(OverlayChart.path(plan, scale));
    }

    /** A line under the pointer with what stands there: time, plan, actual, and how far apart. */
    public void drawReadout(Graphics2D g, Readout readout, String text, ChartLook look) {
        if (scale.isEmpty()) {
            return;
        }
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        Rectangle2D area = frame.geometry().orElseThrow().area();
        double x = scale.get().x(readout.elapsedMs());
        g.setPaint(look.text());
        g.setStroke(new BasicStroke(1));
        g.draw(new Line2D.Double(x, area.getY(), x, area.getMaxY()));
        readout.actual().ifPresent(actual -> FiringMarks.dot(g, x, y(actual), look.curve(), look.surface()));
        readout.planned().ifPresent(planned -> FiringMarks.dot(g, x, y(planned), look.plan(), look.surface()));
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

    private static Reach reach(ChartContent content, TimeSpan span) {
        Reach reach = new Reach();
        Trace curve = content.curve();
        if (!curve.isEmpty()) {
            int last = Math.min(curve.size() - 1, curve.indexAt(span.toMs()) + 1);
            for (int i = Math.max(0, curve.indexAt(span.fromMs())); i <= last; i++) {
                reach.take(curve.temperatureC(i));
            }
        }
        for (long edge : new long[] {span.fromMs(), span.toMs()}) {
            Readout.planned(edge, content.plan()).ifPresent(planned -> reach.take(planned.celsius()));
        }
        for (PlanPoint corner : content.plan()) {
            if (span.contains(corner.elapsedMs())) {
                reach.take(corner.temperatureC());
            }
        }
        for (ForecastFan.Point point : content.fan()) {
            if (span.contains(point.elapsedMs())) {
                reach.take(point.lowC());
                reach.take(point.highC());
            }
        }
        return reach;
    }
}
