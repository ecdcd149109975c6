package org.kilnside.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import org.kilnside.tracking.PlanPosition.PlanPoint;
import org.kilnside.wording.Words;

/**
 * Firings out of the book as a drawing, one or several over each other. Each line has a colour, a way of being broken and
 * its name beside its peak, so that none is told by its colour alone. Confined to the thread that draws.
 */
public final class OverlayChart {
    /** How the second five lines are broken, in sixteenths of a text line. */
    private static final float[] BROKEN = {9, 3.5f};

    private final ChartFrame frame = new ChartFrame();
    private final PenTrack track = new PenTrack();
    private final InkLayer ink = new InkLayer();
    private Optional<Inked> inked = Optional.empty();

    /** What the ink layer holds: while all of this is the same no curve is inked anew. */
    private record Inked(
            List<Overlay.Line> lines,
            ChartScale scale,
            Rectangle2D area,
            AffineTransform toDevice,
            List<Color> colours) {}

    /** Where things stand in the newest drawing; empty before the first. */
    public Optional<ChartGeometry> geometry() {
        return frame.geometry();
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
        TimeSpan span = view.span(overlay);
        Rectangle2D area = frame.begin(g, bounds, span, look);
        frame.range(
                reach(overlay, span, (int) Math.ceil(area.getWidth())),
                words.preferences().unit());
        ChartScale scale = frame.scale();
        frame.draw(g, bounds, overlay.zero(), look, words);
        float thin = g.getFontMetrics(look.font()).getHeight() / 16f;
        Graphics2D inside = (Graphics2D) g.create();
        inside.clip(area);
        plan(inside, overlay, scale, look, thin);
        lines(
                inside,
                span,
                new Inked(
                        overlay.lines(),
                        scale,
                        area,
                        g.getTransform(),
                        overlay.lines().size() == 1 ? List.of(look.curve()) : List.copyOf(colours)),
                thin);
        marks(inside, area, overlay, scale, look, thin);
        inside.dispose();
        OverlayLabels.names(g, area, overlay, span, look, colours, scale);
        OverlayLabels.captions(g, bounds, area, overlay, look, words);
    }

    private static Reach reach(Overlay overlay, TimeSpan span, int columns) {
        Reach reach = new Reach();
        for (Overlay.Line line : overlay.lines()) {
            double from = (double) span.fromMs() - line.shiftMs();
            double to = (double) span.toMs() - line.shiftMs();
            CurveLevels.Level level = line.levels().level(from, to, columns);
            int last = Math.min(level.size() - 1, level.from(to));
            for (int i = Math.max(0, level.from(from) - 1); i <= last; i++) {
                reach.take(level.temperatureC()[i]);
            }
        }
        for (PlanPoint corner : overlay.plan()) {
            if (span.contains(corner.elapsedMs())) {
                reach.take(corner.temperatureC());
            }
        }
        return reach;
    }

    private void lines(Graphics2D g, TimeSpan span, Inked wanted, float thin) {
        if (!inked.equals(Optional.of(wanted))) {
            AffineTransform toDevice = wanted.toDevice();
            ink.begin(wanted.area(), toDevice);
            ChartScale scale = ink.scale(wanted.scale(), toDevice);
            double dots = thin * toDevice.getScaleX();
            int colours = wanted.colours().size();
            for (int i = wanted.lines().size() - 1; i >= 0; i--) {
                Overlay.Line line = wanted.lines().get(i);
                CurveLevels.Level level = line.levels()
                        .level(
                                (double) span.fromMs() - line.shiftMs(),
                                (double) span.toMs() - line.shiftMs(),
                                ink.columns());
                track.follow(level, span, line.shiftMs(), scale, ink.columns(), dots * (i == 0 ? 1 : 0.75));
                Color colour = wanted.colours().get(i % colours);
                if (i >= colours) {
                    ink.ink(track, colour, BROKEN[0] * dots, BROKEN[1] * dots);
                } else {
                    ink.ink(track, colour);
                }
            }
            inked = Optional.of(wanted);
        }
        ink.paint(g);
    }

    /** The plan's corners as a line; empty for less than two. */
    static Path2D path(List<PlanPoint> plan, ChartScale scale) {
        Path2D path = new Path2D.Double();
        for (int i = 0; plan.size() > 1 && i < plan.size(); i++) {
            double x = scale.x(plan.get(i).elapsedMs());
            double y = scale.y(plan.get(i).temperatureC());
            if (i == 0) {
                path.moveTo(x, y);
            } else {
                path.lineTo(x, y);
            }
        }
        return path;
    }

    private static void plan(Graphics2D g, Overlay overlay, ChartScale scale, ChartLook look, float thin) {
        g.setPaint(look.plan());
        g.setStroke(planStroke(thin));
        g.draw(path(overlay.plan(), scale));
    }

    static BasicStroke planStroke(float thin) {
        return new BasicStroke(
                thin * 1.6f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, new float[] {thin * 5, thin * 4}, 0);
    }

    private static void marks(
            Graphics2D g, Rectangle2D area, Overlay overlay, ChartScale scale, ChartLook look, float thin) {
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
        if (frame.geometry().isEmpty() || rows.isEmpty()) {
            return;
        }
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        Rectangle2D area = frame.geometry().get().area();
        TimeSpan span = frame.geometry().get().span();
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
