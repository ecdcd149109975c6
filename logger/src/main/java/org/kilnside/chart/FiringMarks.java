package org.kilnside.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.wording.Words;

/** What stands around a firing's curve: what is to come, now, the peak, words above the drawing. One for each drawing. */
record FiringMarks(
        Graphics2D g, Rectangle2D area, ChartContent content, ChartScale scale, ChartLook look, Words words) {
    private static final int SAMPLES_UNDER_A_NAME = 16;

    private static final int PLACES_FOR_A_NAME = 12;
    private static final double ROOM_ROUND_A_NAME = 14;

    /** The ground of what is to come. */
    void future() {
        if (content.nowMs().isPresent()) {
            double x = Math.max(area.getX(), scale.x(content.nowMs().getAsLong()));
            if (x < area.getMaxX()) {
                g.setPaint(look.future());
                g.fill(new Rectangle2D.Double(x, area.getY(), area.getMaxX() - x, area.getHeight()));
            }
        }
    }

    /** What is not a real kiln now says so right through the drawing. */
    void across() {
        content.across().ifPresent(this::across);
    }

    private void across(String text) {
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

    /** What is to come: a band nine in ten lie in, and a dotted line through its middle. */
    void fan() {
        List<ForecastFan.Point> fan = content.fan();
        if (fan.size() < 2) {
            return;
        }
        Path2D band = new Path2D.Double();
        Path2D middle = new Path2D.Double();
        for (int i = 0; i < fan.size(); i++) {
            double x = scale.x(fan.get(i).elapsedMs());
            to(band, i == 0, x, scale.y(fan.get(i).highC()));
            to(middle, i == 0, x, scale.y(fan.get(i).medianC()));
        }
        for (int i = fan.size() - 1; i >= 0; i--) {
            to(band, false, scale.x(fan.get(i).elapsedMs()), scale.y(fan.get(i).lowC()));
        }
        band.closePath();
        Graphics2D inside = (Graphics2D) g.create();
        inside.clip(area);
        inside.setPaint(band());
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

    private Color band() {
        return new Color(
                look.curve().getRed(), look.curve().getGreen(), look.curve().getBlue(), 64);
    }

    private static BasicStroke dotted(float thin) {
        return new BasicStroke(
                thin * 1.6f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND, 1, new float[] {thin * 0.1f, thin * 4}, 0);
    }

    /** Over the lines: the quartz inversion, now and the peak. */
    void draw(TimeSpan span) {
        g.setFont(look.font());
        FontMetrics metrics = g.getFontMetrics();
        float thin = metrics.getHeight() / 16f;
        if (content.quartz()) {
            Temperature quartz = Temperature.ofCelsius(ChartContent.QUARTZ_C);
            double y = scale.y(ChartContent.QUARTZ_C);
            if (y > area.getY() && y < area.getMaxY()) {
                g.setPaint(look.mark());
                g.setStroke(new BasicStroke(
                        thin, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND, 1, new float[] {thin, thin * 4}, 0));
                g.draw(new Line2D.Double(area.getX(), y, area.getMaxX(), y));
                String text = words.text("chart.quartz", words.temperature(quartz));
                double left = clearLeft(quartz, metrics.stringWidth(text), span);
                g.drawString(text, (float) left, (float) (y - metrics.getDescent()));
            }
        }
        if (content.nowMs().isPresent() && span.contains(content.nowMs().getAsLong())) {
            double x = scale.x(content.nowMs().getAsLong());
            g.setPaint(look.now());
            double width = Math.max(1, Math.round(thin * 1.4));
            g.fill(new Rectangle2D.Double(Math.round(x - width / 2), area.getY(), width, area.getHeight()));
            String now = words.text("chart.now");
            boolean room = x + 6 + metrics.stringWidth(now) < area.getMaxX();
            double left = room ? x + 6 : x - 6 - metrics.stringWidth(now);
            // Early in a firing the upper side is empty, but for the peak's number; late the lower one is.
            double base = x < area.getCenterX() && !isBesidePeak(left, metrics.stringWidth(now), metrics)
                    ? area.getY() + metrics.getAscent() + 2
                    : area.getMaxY() - metrics.getDescent() - 3;
            g.drawString(now, (float) left, (float) base);
        }
        if (content.peakMs().isPresent() && span.contains(content.peakMs().getAsLong())) {
            Readout.at(content.peakMs().getAsLong(), content).actual().ifPresent(peak -> {
                double x = scale.x(content.peakMs().getAsLong());
                double y = scale.y(peak.celsius());
                dot(g, x, y, look.curve(), look.surface());
                g.setPaint(look.text());
                String text = words.temperature(peak);
                double left = leftOfPeak(x, text, metrics);
                // Left of the peak a hold at the top is drawn: the number stands over it.
                double base = left < x ? y - metrics.getDescent() - 2 : y;
                g.drawString(text, (float) left, (float) Math.max(area.getY() + metrics.getAscent(), base));
            });
        }
    }

    /** Where the peak's number begins: right of the dot or, soon after the peak, left of it and off the line of now. */
    private double leftOfPeak(double x, String text, FontMetrics metrics) {
        double width = metrics.stringWidth(text);
        double away = metrics.getHeight() * 0.6;
        boolean onTheLine =
                content.nowMs().stream().mapToDouble(scale::x).anyMatch(now -> now > x && now < x + away + width + 4);
        double left = onTheLine ? x - away - width : x + away;
        return Math.max(area.getX(), Math.min(left, area.getMaxX() - width));
    }

    /** Whether a name would stand on the peak's dot or number, were it as high. */
    private boolean isBesidePeak(double left, double width, FontMetrics metrics) {
        if (content.peakMs().isEmpty()) {
            return false;
        }
        double x = scale.x(content.peakMs().getAsLong());
        return Readout.at(content.peakMs().getAsLong(), content)
                .actual()
                .map(words::temperature)
                .filter(text -> {
                    double from = leftOfPeak(x, text, metrics);
                    double dot = metrics.getHeight() * 0.6;
                    return left < Math.max(x + dot, from + metrics.stringWidth(text) + ROOM_ROUND_A_NAME)
                            && left + width > Math.min(x - dot, from);
                })
                .isPresent();
    }

    /** Where nothing drawn goes through the name of a temperature: as far left as that is so. */
    private double clearLeft(Temperature named, double width, TimeSpan span) {
        double first = area.getX() + 6;
        double step = (area.getWidth() - width - 12) / PLACES_FOR_A_NAME;
        for (int i = 0; i <= PLACES_FOR_A_NAME && step > 0; i++) {
            double left = first + i * step;
            if (!isCrossed(named, left - ROOM_ROUND_A_NAME, width + 2 * ROOM_ROUND_A_NAME, span)) {
                return left;
            }
        }
        return first;
    }

    private boolean isCrossed(Temperature named, double left, double width, TimeSpan span) {
        TimeSpan under = new TimeSpan(at(left, span), Math.max(at(left, span) + 1, at(left + width, span)));
        List<Double> there = new ArrayList<>();
        for (int i = 0; i <= SAMPLES_UNDER_A_NAME; i++) {
            Readout readout = Readout.at(under.at(i / (double) SAMPLES_UNDER_A_NAME), content);
            readout.actual().ifPresent(actual -> there.add(actual.celsius()));
            readout.planned().ifPresent(planned -> there.add(planned.celsius()));
        }
        for (ForecastFan.Point point : content.fan()) {
            if (under.contains(point.elapsedMs())) {
                there.add(point.lowC());
                there.add(point.highC());
            }
        }
        boolean isNow =
                content.nowMs().isPresent() && under.contains(content.nowMs().getAsLong());
        return isNow
                || there.stream().anyMatch(celsius -> celsius < named.celsius())
                        && there.stream().anyMatch(celsius -> celsius >= named.celsius());
    }

    private long at(double x, TimeSpan span) {
        return span.at((x - area.getX()) / area.getWidth());
    }

    /** Above the drawing: the unit, and what each line is. */
    void captions(Rectangle2D bounds) {
        g.setFont(look.font());
        FontMetrics metrics = g.getFontMetrics();
        float base = (float) (bounds.getY() + metrics.getAscent() + metrics.getHeight() * 0.25);
        g.setPaint(look.text());
        String unit = words.unit();
        g.drawString(unit, (float) (area.getX() - 6 - metrics.stringWidth(unit)), base);
        double x = area.getX() + 2;
        // Before lighting there is nothing measured, and what is to come has a name of its own.
        if (!content.curve().isEmpty() || content.fan().isEmpty()) {
            x = caption(x, base, words.text("chart.actual"), look.curve(), false);
        }
        if (!content.plan().isEmpty()) {
            x = caption(x, base, words.text("chart.plan"), look.plan(), true);
        }
        if (!content.fan().isEmpty()) {
            float thin = metrics.getHeight() / 16f;
            double width = metrics.getHeight() * 1.6;
            double y = base - metrics.getAscent() * 0.35;
            g.setPaint(band());
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

    private double caption(double x, float base, String text, Color colour, boolean dashed) {
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

    static void dot(Graphics2D g, double x, double y, Color colour, Color rim) {
        Ellipse2D dot = new Ellipse2D.Double(x - 4.5, y - 4.5, 9, 9);
        g.setPaint(colour);
        g.fill(dot);
        g.setPaint(rim);
        g.setStroke(new BasicStroke(1.5f));
        g.draw(dot);
    }
}
