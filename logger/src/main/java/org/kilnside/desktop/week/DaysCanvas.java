package org.kilnside.desktop.week;

import java.awt.Dimension;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.chart.ChartGeometry;
import org.kilnside.chart.TimeSpan;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.TimeCanvas;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.Words;

/** The days ahead, as a drawing that zooms and reads out; left and right go from firing to firing. */
final class DaysCanvas extends TimeCanvas {
    private static final long serialVersionUID = 1L;

    private final transient WeekModel model;
    private transient Optional<WeekSketch> sketch = Optional.empty();
    private transient Optional<LiveWeek.Answer> of = Optional.empty();
    private transient Optional<TimeSpan> chosen = Optional.empty();
    private transient Optional<ChartGeometry> geometry = Optional.empty();
    private transient Optional<String> picked = Optional.empty();
    private transient Words words;
    private String spoken = "";
    private boolean isOld;

    DaysCanvas(WeekModel model) {
        this.model = model;
        words = model.words();
        // As they are typed: on one keyboard + has a key of its own, on another it is Shift and =.
        for (String key : new String[] {"typed +", "typed ="}) {
            KeyRow.bindHere(this, key, () -> zoom(0.7));
        }
        KeyRow.bindHere(this, "typed -", () -> zoom(1 / 0.7));
        KeyRow.bindHere(this, "LEFT", () -> model.selectFiring(-1));
        KeyRow.bindHere(this, "RIGHT", () -> model.selectFiring(1));
        KeyRow.bindHere(this, "alt LEFT", () -> pan(-0.2));
        KeyRow.bindHere(this, "alt RIGHT", () -> pan(0.2));
        KeyRow.bindHere(this, "ctrl LEFT", () -> movePointer(-0.01));
        KeyRow.bindHere(this, "ctrl RIGHT", () -> movePointer(0.01));
        KeyRow.bindHere(this, "HOME", this::whole);
    }

    void show(Words language) {
        words = language;
        Optional<LiveWeek.Answer> answer = model.live().answer();
        boolean old = model.week().filter(model.live()::isOf).isEmpty()
                || answer.flatMap(its -> its.goneBy(model.now())).isPresent();
        Optional<String> load = model.load().map(its -> its.name());
        String speech = language.language() + " " + language.preferences();
        if (!answer.equals(of) || old != isOld || !load.equals(picked) || !speech.equals(spoken)) {
            if (!answer.equals(of)) {
                sketch = answer.map(WeekSketch::of);
                of = answer;
            }
            isOld = old;
            picked = load;
            spoken = speech;
            redraw();
        }
        getAccessibleContext().setAccessibleName(words.text("week.drawing"));
    }

    @Override
    public Dimension getMinimumSize() {
        int line = getFontMetrics(Theme.font(1)).getHeight();
        return new Dimension(line * 14, line * 14);
    }

    @Override
    public Dimension getPreferredSize() {
        return getMinimumSize();
    }

    @Override
    protected void draw(Graphics2D ink, Rectangle2D bounds) {
        ink.setPaint(Theme.colour("card"));
        ink.fill(bounds);
        geometry = sketch.map(its -> new DaysInk(ink, its, words, picked, isOld).draw(bounds, span(its)));
    }

    private TimeSpan span(WeekSketch its) {
        return chosen.orElseGet(() -> all(its));
    }

    private static TimeSpan all(WeekSketch its) {
        return new TimeSpan(its.whole().from().toEpochMilli(), its.whole().to().toEpochMilli());
    }

    @Override
    protected Optional<ChartGeometry> geometry() {
        return geometry;
    }

    @Override
    protected void zoom(double factor, double about) {
        sketch.ifPresent(its -> {
            TimeSpan span = span(its);
            long length = Math.max(TimeSpan.SHORTEST_MS, Math.round(span.lengthMs() * factor));
            to(span.at(about) - Math.round(about * length), length, all(its));
        });
    }

    @Override
    public void pan(double share) {
        sketch.filter(its -> chosen.isPresent()).ifPresent(its -> {
            TimeSpan span = span(its);
            to(span.fromMs() + Math.round(share * span.lengthMs()), span.lengthMs(), all(its));
        });
    }

    private void to(long from, long length, TimeSpan whole) {
        if (length >= whole.lengthMs()) {
            whole();
            return;
        }
        long begin = Math.max(whole.fromMs(), Math.min(whole.toMs() - length, from));
        chosen = Optional.of(new TimeSpan(begin, begin + length));
        redraw();
    }

    @Override
    public void whole() {
        chosen = Optional.empty();
        redraw();
    }

    @Override
    protected void drawReadout(Graphics2D g, double share) {
        sketch.ifPresent(its ->
                new DaysInk(g, its, words, picked, isOld).drawReadout(geometry.orElseThrow(), share, rows(its, share)));
    }

    @Override
    protected Optional<String> readout(double share) {
        return sketch.map(its -> String.join(", ", rows(its, share)));
    }

    private List<String> rows(WeekSketch its, double share) {
        Instant at = Instant.ofEpochMilli(span(its).at(share));
        List<String> rows = new ArrayList<>();
        rows.add(words.dayAndTime(at));
        its.at(at).ifPresent(hill -> {
            rows.add(hill.load());
            hill.celsius(at)
                    .ifPresent(celsius ->
                            rows.add(words.text("week.draw.about", words.temperature(Temperature.ofCelsius(celsius)))));
        });
        rows.add(words.text(its.isSomebodyThere(at) ? "week.draw.somebody" : "week.draw.nobody"));
        return rows;
    }
}
