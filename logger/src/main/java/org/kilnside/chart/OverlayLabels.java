package org.kilnside.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.Words;

/** The words on a drawing of firings: what each line is, at the line and above the drawing. */
final class OverlayLabels {
    private OverlayLabels() {}

    /** Each line's name beside its highest point in sight; where two would cover each other the later one moves down. */
    static void names(
            Graphics2D g,
            Rectangle2D area,
            Overlay overlay,
            TimeSpan span,
            ChartLook look,
            List<Color> colours,
            ChartScale scale) {
        g.setFont(look.font());
        FontMetrics metrics = g.getFontMetrics();
        List<Rectangle2D> taken = new ArrayList<>();
        for (int i = 0; i < overlay.lines().size(); i++) {
            Overlay.Line line = overlay.lines().get(i);
            CurveLevels.Level level = line.levels()
                    .level((double) span.fromMs() - line.shiftMs(), (double) span.toMs() - line.shiftMs(), (int)
                            Math.ceil(area.getWidth()));
            int peak = -1;
            int last = Math.min(level.size(), level.from((double) span.toMs() - line.shiftMs()));
            for (int k = level.from((double) span.fromMs() - line.shiftMs()); k < last; k++) {
                if (!Double.isNaN(level.temperatureC()[k])
                        && (peak < 0 || level.temperatureC()[k] > level.temperatureC()[peak])) {
                    peak = k;
                }
            }
            if (peak < 0) {
                continue;
            }
            double x = scale.x(level.timeMs()[peak] + line.shiftMs());
            double y = scale.y(level.temperatureC()[peak]);
            Color colour = overlay.lines().size() == 1 ? look.curve() : colours.get(i % colours.size());
            dot(g, x, y, colour, look.surface());
            double width = metrics.stringWidth(line.name()) + 6.0;
            double textX = Math.max(area.getX(), Math.min(x + metrics.getHeight() * 0.6, area.getMaxX() - width));
            Rectangle2D place = new Rectangle2D.Double(
                    textX, Math.max(area.getY(), y - metrics.getAscent()), width, metrics.getHeight());
            while (taken.stream().anyMatch(place::intersects) && place.getMaxY() < area.getMaxY()) {
                place.setRect(place.getX(), place.getY() + 4, width, place.getHeight());
            }
            taken.add((Rectangle2D) place.clone());
            g.setPaint(look.past());
            g.fill(place);
            g.setPaint(overlay.lines().size() == 1 ? look.text() : colour);
            g.drawString(line.name(), (float) place.getX() + 3, (float) (place.getY() + metrics.getAscent()));
        }
    }

    private static void dot(Graphics2D g, double x, double y, Color colour, Color rim) {
        Ellipse2D dot = new Ellipse2D.Double(x - 4, y - 4, 8, 8);
        g.setPaint(colour);
        g.fill(dot);
        g.setPaint(rim);
        g.setStroke(new BasicStroke(1.5f));
        g.draw(dot);
    }

    /** Above the drawing: the unit, what each line is where there is room, and what the time counts from. */
    static void captions(
            Graphics2D g, Rectangle2D bounds, Rectangle2D area, Overlay overlay, ChartLook look, Words words) {
        g.setFont(look.font());
        FontMetrics metrics = g.getFontMetrics();
        float base = (float) (bounds.getY() + metrics.getAscent() + metrics.getHeight() * 0.25);
        float thin = metrics.getHeight() / 16f;
        g.setPaint(look.text());
        g.drawString(words.unit(), (float) (area.getX() - 6 - metrics.stringWidth(words.unit())), base);
        double x = area.getX() + 2;
        boolean alone = overlay.lines().size() == 1;
        if (alone) {
            x = caption(g, x, base, words.text("chart.actual"), look.curve(), new BasicStroke(thin * 2), look);
        }
        if (!overlay.plan().isEmpty()) {
            x = caption(g, x, base, words.text("chart.plan"), look.plan(), OverlayChart.planStroke(thin), look);
        }
        String axis = overlay.commonC().isPresent()
                ? words.text(
                        "overlay.since_common",
                        words.temperature(
                                Temperature.ofCelsius(overlay.commonC().getAsDouble())))
                : words.text(overlay.zero().isPresent() ? "chart.time_of_day" : "chart.since_begin");
        g.setPaint(look.text());
        double left = area.getMaxX() - metrics.stringWidth(axis);
        if (left > x) {
            g.drawString(axis, (float) left, base);
        }
    }

    private static double caption(
            Graphics2D g, double x, float base, String text, Color colour, BasicStroke stroke, ChartLook look) {
        FontMetrics metrics = g.getFontMetrics();
        double y = base - metrics.getAscent() * 0.35;
        double width = metrics.getHeight() * 1.6;
        g.setPaint(colour);
        g.setStroke(stroke);
        g.draw(new Line2D.Double(x, y, x + width, y));
        g.setPaint(look.text());
        g.drawString(text, (float) (x + width + 6), base);
        return x + width + 6 + metrics.stringWidth(text) + metrics.getHeight() * 1.4;
    }
}
