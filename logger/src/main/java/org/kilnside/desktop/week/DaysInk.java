package org.kilnside.desktop.week;

import java.awt.AlphaComposite;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.format.TextStyle;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.kilnside.chart.ChartGeometry;
import org.kilnside.chart.TimeSpan;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.week.Span;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Words;

/**
 * Draws the days ahead: each firing as a hill along the time, heating whole and cooling dashed, over the rows for lighting,
 * unloading, drying and who is there. Lives no longer than one drawing.
 */
final class DaysInk extends DaysPen {
    /** How much of a line the hours take above the days. */
    private static final double HOURS = 0.75;

    private final WeekSketch sketch;
    private final Words words;
    private final Optional<String> picked;
    private final boolean isOld;

    /** @param isOld whether the week has changed since */
    DaysInk(Graphics2D g, WeekSketch sketch, Words words, Optional<String> picked, boolean isOld) {
        super(g, sketch.hottestC());
        this.sketch = sketch;
        this.words = words;
        this.picked = picked;
        this.isOld = isOld;
    }

    /** Draws all of it. */
    ChartGeometry draw(Rectangle2D bounds, TimeSpan shown) {
        span = shown;
        int lanes = sketch.lanes().size();
        double left = bounds.getX() + gutter(lanes > 0);
        double pad = line * 0.4;
        double rows = line * (1.25 * (2 + lanes) + 1.1 + 1.3 + HOURS);
        double width = Math.max(1, bounds.getMaxX() - left - line * 0.8);
        // Where the names go is known only once it is known where the time goes.
        plot = new Rectangle2D.Double(left, 0, width, 1);
        int names = new HillsInk(g, sketch, words, picked, plot, span).needsTwoLines() ? 2 : 1;
        double above = line * (names + (sketch.dues().isEmpty() ? 0.1 : 1.3)) + pad;
        plot = new Rectangle2D.Double(
                left, bounds.getY() + above, width, Math.max(1, bounds.getHeight() - above - rows - pad));
        double y = plot.getMaxY();
        double lightRow = y + line * 0.15;
        double coolRow = lightRow + line * 1.25;
        double dryRow = coolRow + line * 1.25;
        double thereRow = dryRow + line * 1.25 * lanes;
        double axisRow = thereRow + line * 1.1;
        nights(thereRow + line);
        days(axisRow, thereRow + line);
        Shape clip = g.getClip();
        g.clip(new Rectangle2D.Double(
                plot.getX() - 1, bounds.getY(), plot.getWidth() + line * 0.8, bounds.getHeight()));
        dues(bounds.getY() + pad, thereRow);
        if (isOld) {
            // Of a week that has changed since: seen through, and the sentence above says so.
            g.setComposite(AlphaComposite.getInstance(AlphaComposite.SRC_OVER, 0.45f));
        }
        taken(thereRow);
        new HillsInk(g, sketch, words, picked, plot, span).draw(lightRow, coolRow);
        for (int lane = 0; lane < lanes; lane++) {
            for (WeekSketch.Drying each : sketch.lanes().get(lane)) {
                drying(each, dryRow + lane * line * 1.25);
            }
        }
        there(thereRow);
        now(thereRow + line);
        g.setComposite(AlphaComposite.SrcOver);
        g.setClip(clip);
        label("week.draw.light", lightRow);
        label("week.draw.cool", coolRow);
        if (lanes > 0) {
            label("week.draw.drying", dryRow);
        }
        label("week.draw.there", thereRow);
        double at = x(sketch.now());
        if (at >= plot.getX() && at <= plot.getMaxX()) {
            ink("chart.text");
            String now = words.text("week.hint.now");
            text(now, at - line * 0.4 - metrics.stringWidth(now), plot.getY());
        }
        return new ChartGeometry(plot, span);
    }

    private double gutter(boolean dries) {
        List<String> labels = new ArrayList<>(List.of("week.draw.light", "week.draw.cool", "week.draw.there"));
        if (dries) {
            labels.add("week.draw.drying");
        }
        return labels.stream()
                        .mapToInt(key -> metrics.stringWidth(words.text(key)))
                        .max()
                        .orElse(0)
                + line;
    }

    private void label(String key, double top) {
        String text = words.text(key);
        ink("chart.text");
        text(text, plot.getX() - line * 0.5 - metrics.stringWidth(text), top);
    }

    /** Where nobody is there it is darker and hatched. */
    private void nights(double bottom) {
        ink("chart.future");
        g.fill(plot);
        for (Span gap : sketch.nobody()) {
            Rectangle2D its = between(gap, plot.getY(), bottom - plot.getY());
            ink("chart.past");
            g.fill(its);
            hatch(its, Theme.colour("chart.grid"), line * 0.55, 1);
        }
    }

    private void days(double top, double bottom) {
        ZonedDateTime day = Instant.ofEpochMilli(span.fromMs())
                .atZone(words.preferences().zone())
                .truncatedTo(ChronoUnit.DAYS);
        double anHour = plot.getWidth() * 3_600_000.0 / span.lengthMs();
        Function<ZonedDateTime, String> name = dayName(day, anHour * 24);
        for (; day.toInstant().toEpochMilli() < span.toMs(); day = day.plusDays(1)) {
            double from = x(day.toInstant());
            double to = x(day.plusDays(1).toInstant());
            ink("chart.grid");
            stroke(1);
            if (from >= plot.getX()) {
                g.draw(new Line2D.Double(from, plot.getY(), from, bottom + line * 0.3));
            }
            hours(day, anHour, bottom);
            day(name.apply(day), Math.max(from, plot.getX()), Math.min(to, plot.getMaxX()), top + line * (HOURS + 0.1));
        }
    }

    /** As many hours of a day as have room. */
    private void hours(ZonedDateTime day, double anHour, double top) {
        g.setFont(font.deriveFont(font.getSize2D() * 0.85f));
        double room = g.getFontMetrics().stringWidth("00") * 1.7;
        int step = IntStream.of(1, 2, 3, 6)
                .filter(each -> each * anHour > room)
                .findFirst()
                .orElse(12);
        boolean isTwelve = words.preferences().clock() == ClockStyle.TWELVE_HOURS;
        ink("chart.text");
        stroke(1);
        for (int hour = step; hour < 24; hour += step) {
            double x = x(day.withHour(hour).toInstant());
            String text = String.valueOf(isTwelve && hour > 12 ? hour - 12 : hour);
            double half = g.getFontMetrics().stringWidth(text) / 2.0;
            if (x - half >= plot.getX() && x + half <= plot.getMaxX()) {
                g.draw(new Line2D.Double(x, top, x, top + line * 0.15));
                text(text, x - half, top + line * 0.1);
            }
        }
        g.setFont(font);
    }

    /** How days are called, all in the same way: as long as there is room for. */
    private Function<ZonedDateTime, String> dayName(ZonedDateTime first, double width) {
        List<Function<ZonedDateTime, String>> ways = List.of(
                day -> words.day(day.withHour(12).toInstant()),
                day -> day.getDayOfWeek()
                                .getDisplayName(
                                        TextStyle.SHORT, words.language().locale())
                        + " " + day.getDayOfMonth());
        for (Function<ZonedDateTime, String> way : ways) {
            double widest = 0;
            for (int i = 0; i < 7; i++) {
                widest = Math.max(widest, metrics.stringWidth(way.apply(first.plusDays(i))));
            }
            if (widest + line * 0.3 < width) {
                return way;
            }
        }
        return day -> String.valueOf(day.getDayOfMonth());
    }

    private void day(String name, double from, double to, double top) {
        double width = metrics.stringWidth(name);
        if (width + 4 < to - from) {
            ink("chart.text");
            text(name, (from + to - width) / 2, top);
        }
    }

    private void dues(double top, double bottom) {
        double free = Double.POSITIVE_INFINITY;
        for (int i = sketch.dues().size() - 1; i >= 0; i--) {
            WeekSketch.Due due = sketch.dues().get(i);
            double x = x(due.at());
            String when = words.dayAndTime(due.at());
            String text = due.load()
                    .map(load -> words.text("week.draw.due_of", load, when))
                    .orElseGet(() -> words.text("week.draw.due", when));
            boolean isIn = x <= plot.getMaxX() + 1;
            double end = Math.min(isIn ? x - line * 0.3 : plot.getMaxX(), free);
            double width = metrics.stringWidth(text);
            double begin = Math.max(plot.getX(), end - width);
            ink("chart.mark");
            if (isIn) {
                stroke(2, 7f, 4f);
                // Past its words and past the hills, not through their names.
                g.draw(new Line2D.Double(x, top, x, top + line));
                g.draw(new Line2D.Double(x, plot.getY(), x, bottom));
            } else {
                text += "  →";
                begin = Math.max(plot.getX(), end - metrics.stringWidth(text));
            }
            text(text, begin, top);
            free = begin - line;
        }
    }

    private void taken(double bottom) {
        sketch.taken().ifPresent(until -> {
            Rectangle2D its = between(new Span(sketch.whole().from(), until), plot.getMaxY() - line * 1.6, line * 1.5);
            ink("key");
            g.fill(its);
            hatch(its, Theme.colour("chart.curve"), line * 0.4, 1.2);
            ink("chart.text");
            text(words.text("week.draw.taken"), its.getX() + line * 0.3, its.getY() - line * 1.1);
            ink("chart.curve");
            stroke(1.5);
            g.draw(new Line2D.Double(its.getMaxX(), its.getY(), its.getMaxX(), bottom));
        });
    }

    private void drying(WeekSketch.Drying its, double top) {
        Rectangle2D bar = between(its.span(), top + line * 0.08, line * 0.95);
        ink("key");
        g.fill(bar);
        ink("chart.mark");
        stroke(1.4, 1.5f, 3f);
        g.draw(bar);
        double room = bar.getWidth() - line * 0.5;
        if (room > line) {
            ink("text");
            text(
                    metrics.stringWidth(its.load()) <= room ? its.load() : cut(its.load(), metrics, room),
                    bar.getX() + line * 0.25,
                    top);
        }
    }

    private void there(double top) {
        for (Span each : sketch.there()) {
            Rectangle2D bar = between(each, top + line * 0.3, line * 0.4);
            ink("quiet");
            g.fill(bar);
        }
    }

    private void now(double bottom) {
        double x = x(sketch.now());
        ink("chart.now");
        stroke(1.5);
        g.draw(new Line2D.Double(x, plot.getY(), x, bottom));
    }

    /** What stands at a place of the drawing. */
    void drawReadout(ChartGeometry geometry, double share, List<String> rows) {
        Rectangle2D area = geometry.area();
        double x = area.getX() + share * area.getWidth();
        ink("chart.now");
        stroke(1);
        g.draw(new Line2D.Double(x, area.getY(), x, area.getMaxY()));
        double width = rows.stream().mapToInt(metrics::stringWidth).max().orElse(0) + line;
        double left = x + line + width < area.getMaxX() ? x + line * 0.5 : x - line * 0.5 - width;
        Rectangle2D box = new Rectangle2D.Double(left, area.getY() + 4, width, rows.size() * line + line * 0.5);
        ink("key");
        g.fill(box);
        ink("text");
        for (int i = 0; i < rows.size(); i++) {
            text(rows.get(i), left + line * 0.5, box.getY() + line * 0.25 + i * line);
        }
    }
}
