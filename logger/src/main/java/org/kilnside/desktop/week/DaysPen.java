package org.kilnside.desktop.week;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.time.Instant;
import org.kilnside.chart.TimeSpan;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.week.Span;

/** What draws on the days ahead: where a moment and a temperature lie, and the few strokes there are. */
class DaysPen {
    /** What is left above the hottest. */
    private static final double HEADROOM = 1.06;

    final Graphics2D g;
    final Font font = Theme.font(0.92);
    final FontMetrics metrics;

    /** How high a line of text is, in pixels: all measures are made of it. */
    final double line;

    private final double hottestC;
    Rectangle2D plot = new Rectangle2D.Double();
    TimeSpan span = new TimeSpan(0, 1);

    DaysPen(Graphics2D g, double hottestC) {
        this.g = g;
        this.hottestC = hottestC;
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setFont(font);
        metrics = g.getFontMetrics();
        line = metrics.getHeight();
    }

    double x(Instant at) {
        return x(at.toEpochMilli());
    }

    double x(long ms) {
        return plot.getX() + plot.getWidth() * (ms - span.fromMs()) / (double) span.lengthMs();
    }

    double y(double celsius) {
        double share = Math.max(0, celsius) / (hottestC * HEADROOM);
        return plot.getMaxY() - share * plot.getHeight();
    }

    void ink(String key) {
        g.setPaint(Theme.colour(key));
    }

    void text(String text, double x, double top) {
        g.drawString(text, (float) x, (float) (top + (line - metrics.getHeight()) / 2 + metrics.getAscent()));
    }

    void stroke(double width, float... dashes) {
        g.setStroke(
                dashes.length == 0
                        ? new BasicStroke((float) width, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND)
                        : new BasicStroke((float) width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, dashes, 0));
    }

    Rectangle2D between(Span its, double top, double height) {
        double from = Math.max(plot.getX(), x(its.from()));
        double to = Math.min(plot.getMaxX(), x(its.to()));
        return new Rectangle2D.Double(from, top, Math.max(0, to - from), height);
    }

    void hatch(Shape its, Color colour, double apart, double width) {
        Shape clip = g.getClip();
        g.clip(its);
        g.setPaint(colour);
        stroke(width);
        Rectangle2D box = its.getBounds2D();
        double first = Math.floor((box.getX() - box.getHeight()) / apart) * apart;
        for (double x = first; x < box.getMaxX(); x += apart) {
            g.draw(new Line2D.Double(x, box.getMaxY(), x + box.getHeight(), box.getY()));
        }
        g.setClip(clip);
    }

    /** As much of a text as has room. */
    static String cut(String text, FontMetrics metrics, double width) {
        int end = text.length();
        while (end > 0 && metrics.stringWidth(text.substring(0, end) + "…") > width) {
            end--;
        }
        return text.substring(0, end) + "…";
    }
}
