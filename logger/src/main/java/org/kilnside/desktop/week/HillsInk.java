package org.kilnside.desktop.week;

import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.chart.TimeSpan;
import org.kilnside.desktop.theme.FittedText;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.outlook.Estimate;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Span;
import org.kilnside.wording.Words;

/** Draws the firings: each a hill, heating whole and cooling dashed, with its name above and its times below. */
final class HillsInk extends DaysPen {
    private static final int FADED = 110;

    private final WeekSketch sketch;
    private final Words words;
    private final Optional<String> picked;

    HillsInk(Graphics2D g, WeekSketch sketch, Words words, Optional<String> picked, Rectangle2D plot, TimeSpan span) {
        super(g, sketch.hottestC());
        this.sketch = sketch;
        this.words = words;
        this.picked = picked;
        this.plot = plot;
        this.span = span;
    }

    /** Whether a name is too long for one line. */
    boolean needsTwoLines() {
        return sketch.hills().stream().anyMatch(hill -> nameLines(hill).size() > 1);
    }

    void draw(double lightRow, double coolRow) {
        for (WeekSketch.Hill hill : sketch.hills()) {
            hill(hill);
        }
        for (WeekSketch.Hill hill : sketch.hills()) {
            name(hill);
            light(hill, lightRow);
            cool(hill, coolRow);
        }
    }

    private boolean isPicked(WeekSketch.Hill hill) {
        return picked.equals(Optional.of(hill.load()));
    }

    private void hill(WeekSketch.Hill hill) {
        PlannedFiring firing = hill.firing();
        long light = firing.light().toEpochMilli();
        long over = firing.topOver().probable().toEpochMilli();
        Path2D.Double up = new Path2D.Double();
        Path2D.Double down = new Path2D.Double();
        Path2D.Double early = new Path2D.Double();
        List<double[]> late = new ArrayList<>();
        double lastX = x(firing.light());
        double lastY = plot.getMaxY();
        up.moveTo(lastX, lastY);
        for (ForecastFan.Point point : hill.fan()) {
            double x = x(light + point.elapsedMs());
            double y = y(point.medianC());
            if (light + point.elapsedMs() <= over) {
                up.lineTo(x, y);
            } else {
                if (down.getCurrentPoint() == null) {
                    down.moveTo(lastX, lastY);
                    early.moveTo(lastX, lastY);
                }
                down.lineTo(x, y);
                early.lineTo(x, y(point.lowC()));
                late.add(new double[] {x, y(point.highC())});
            }
            lastX = x;
            lastY = y;
        }
        if (down.getCurrentPoint() != null) {
            band(early, late);
            shade(down, Theme.colour("chart.plan"), 34);
            ink("chart.plan");
            stroke(isPicked(hill) ? 2.6 : 1.8, 6f, 4f);
            g.draw(down);
        }
        shade(up, Theme.colour("chart.curve"), isPicked(hill) ? 96 : 60);
        ink("chart.curve");
        stroke(isPicked(hill) ? 3.2 : 2.2);
        g.draw(up);
        top(hill);
    }

    private void band(Path2D.Double early, List<double[]> late) {
        for (int i = late.size() - 1; i >= 0; i--) {
            early.lineTo(late.get(i)[0], late.get(i)[1]);
        }
        early.closePath();
        Color colour = Theme.colour("chart.plan");
        hatch(early, new Color(colour.getRed(), colour.getGreen(), colour.getBlue(), FADED), line * 0.32, 1);
    }

    private void shade(Path2D.Double edge, Color colour, int alpha) {
        Path2D.Double area = new Path2D.Double(edge);
        area.lineTo(edge.getCurrentPoint().getX(), plot.getMaxY());
        area.lineTo(edge.getBounds2D().getX(), plot.getMaxY());
        area.closePath();
        g.setPaint(new Color(colour.getRed(), colour.getGreen(), colour.getBlue(), alpha));
        g.fill(area);
    }

    /** When it is at its top: a diamond, and beside it the time. */
    private void top(WeekSketch.Hill hill) {
        PlannedFiring firing = hill.firing();
        double x = x(firing.top().probable());
        double y = hill.celsius(firing.top().probable()).map(this::y).orElse(plot.getY());
        double size = line * 0.32;
        Path2D.Double diamond = new Path2D.Double();
        diamond.moveTo(x, y - size);
        diamond.lineTo(x + size, y);
        diamond.lineTo(x, y + size);
        diamond.lineTo(x - size, y);
        diamond.closePath();
        ink("chart.mark");
        g.fill(diamond);
        String text = words.text("week.draw.top", words.time(rounded(firing.top())));
        if (firing.atTop() == PlannedFiring.AtTop.NOBODY) {
            text += ", " + words.text("week.draw.nobody");
        }
        double beside = x + size * 1.5;
        // The hills have no scale beside them: where there is room, the top says how hot it is.
        String hot = ", " + words.temperature(hill.top());
        if (beside + metrics.stringWidth(text + hot) < nameX(hill) + nameRoom(hill)) {
            text += hot;
        }
        double width = metrics.stringWidth(text);
        double textX = Math.min(beside, plot.getMaxX() - width);
        ink("chart.text");
        text(text, textX, Math.max(plot.getY(), y - line * 0.5));
    }

    /** Nobody knows to the minute days ahead. */
    private static Instant rounded(Estimate<Instant> time) {
        long tenMinutes = 600;
        return Instant.ofEpochSecond(Math.round(time.probable().getEpochSecond() / (double) tenMinutes) * tenMinutes);
    }

    /** How far a hill's name may go: to where the next one begins. */
    private double nameRoom(WeekSketch.Hill hill) {
        return sketch.hills().stream()
                        .filter(next -> next.number() == hill.number() + 1)
                        .map(next -> x(next.firing().light()) - line * 0.5)
                        .findFirst()
                        .orElse(plot.getMaxX())
                - nameX(hill);
    }

    private double nameX(WeekSketch.Hill hill) {
        return Math.max(plot.getX(), x(hill.firing().light()));
    }

    private Font nameFont(WeekSketch.Hill hill) {
        return isPicked(hill) ? font.deriveFont(Font.BOLD) : font;
    }

    private List<String> nameLines(WeekSketch.Hill hill) {
        return FittedText.lines(hill.number() + "  " + hill.load(), g.getFontMetrics(nameFont(hill)), nameRoom(hill));
    }

    /** Right above the hills, on two lines where one is too short. */
    private void name(WeekSketch.Hill hill) {
        double room = nameRoom(hill);
        if (room < line) {
            return;
        }
        List<String> lines = nameLines(hill);
        FontMetrics its = g.getFontMetrics(nameFont(hill));
        int shown = Math.min(2, lines.size());
        double top = plot.getY() - line * (shown + 0.1);
        g.setFont(nameFont(hill));
        ink(isPicked(hill) ? "ember" : "text");
        for (int i = 0; i < shown; i++) {
            boolean cut = i == 1 && lines.size() > 2 || its.stringWidth(lines.get(i)) > room;
            text(cut ? cut(lines.get(i), its, room) : lines.get(i), nameX(hill), top + i * line);
        }
        g.setFont(font);
    }

    /** When to light it, and the line until when it may be lit. */
    private void light(WeekSketch.Hill hill, double top) {
        double x = x(hill.firing().light());
        double middle = top + line * 0.5;
        ink("chart.curve");
        hill.firing().lightBy().filter(by -> by.isAfter(hill.firing().light())).ifPresent(by -> {
            stroke(1.5, 2f, 3f);
            double end = Math.min(x(by), plot.getMaxX());
            g.draw(new Line2D.Double(x, top + line * 1.08, end, top + line * 1.08));
            stroke(1.5);
            g.draw(new Line2D.Double(end, top + line * 0.85, end, top + line * 1.2));
        });
        Path2D.Double flame = new Path2D.Double();
        double size = line * 0.34;
        flame.moveTo(x, middle - size);
        flame.lineTo(x + size, middle + size);
        flame.lineTo(x - size, middle + size);
        flame.closePath();
        g.fill(flame);
        ink(isPicked(hill) ? "text" : "chart.text");
        text(words.time(hill.firing().light()), x + size * 1.5, top);
    }

    /** The range in which it gets cool enough, fading out, and when it is unloaded. */
    private void cool(WeekSketch.Hill hill, double top) {
        Estimate<Instant> cool = WeekSketch.cool(hill);
        Rectangle2D range = between(
                new Span(
                        cool.from(),
                        cool.to().isAfter(cool.from()) ? cool.to() : cool.from().plusSeconds(60)),
                top + line * 0.2,
                line * 0.6);
        Color colour = Theme.colour("chart.plan");
        double step = Math.max(2, range.getWidth() / 24);
        for (double x = range.getX(); x < range.getMaxX(); x += step) {
            double share = (x - range.getX()) / Math.max(1, range.getWidth());
            g.setPaint(new Color(
                    colour.getRed(), colour.getGreen(), colour.getBlue(), (int) Math.round(170 - 140 * share)));
            g.fill(new Rectangle2D.Double(x, range.getY(), Math.min(step, range.getMaxX() - x), range.getHeight()));
        }
        g.setPaint(colour);
        stroke(1);
        g.draw(range);
        double x = x(hill.firing().out());
        double size = line * 0.3;
        ink("text");
        g.fill(new Rectangle2D.Double(x - size, top + line * 0.5 - size, 2 * size, 2 * size));
        ink(isPicked(hill) ? "text" : "chart.text");
        String text = words.time(hill.firing().out());
        double after = x + size * 1.7;
        boolean fits = after + metrics.stringWidth(text) < plot.getMaxX() + line * 0.7;
        text(text, fits ? after : x - size * 1.7 - metrics.stringWidth(text), top);
    }
}
