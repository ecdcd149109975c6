package org.kilnside.desktop.now;

import java.awt.Dimension;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.chart.ChartContent;
import org.kilnside.chart.ChartGeometry;
import org.kilnside.chart.ChartView;
import org.kilnside.chart.FiringChart;
import org.kilnside.chart.Readout;
import org.kilnside.desktop.screen.TimeCanvas;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;

/** The chart of the firing that is going on. */
public final class ChartPane extends TimeCanvas {
    private static final long serialVersionUID = 1L;

    /** Where now stands while the view goes with it: about this it is zoomed. */
    private static final double NOW = 0.8;

    private final transient FiringChart chart = new FiringChart();
    private transient ChartContent content = ChartContent.EMPTY;
    private transient Words words;
    private transient ChartView view = ChartView.WHOLE;

    ChartPane(Words words) {
        this.words = words;
    }

    void show(ChartContent its, Words language) {
        content = its;
        words = language;
        redraw();
    }

    @Override
    protected double middle() {
        return view.goesWithNow() ? NOW : super.middle();
    }

    @Override
    protected void zoom(double factor, double about) {
        to(view.zoom(factor, about, content));
    }

    @Override
    public void pan(double share) {
        to(view.pan(share, content));
    }

    @Override
    public void whole() {
        to(ChartView.WHOLE);
    }

    public void backToNow() {
        to(view.backToNow(content));
    }

    /** Which stretch is looked at. */
    public ChartView view() {
        return view;
    }

    private void to(ChartView other) {
        view = other;
        redraw();
    }

    @Override
    public Dimension getMinimumSize() {
        int line = getFontMetrics(Theme.font(1)).getHeight();
        return new Dimension(line * 14, line * 8);
    }

    @Override
    protected void draw(Graphics2D ink, Rectangle2D bounds) {
        chart.draw(ink, bounds, content, view, Theme.chart(), words);
    }

    @Override
    protected Optional<ChartGeometry> geometry() {
        return chart.geometry();
    }

    @Override
    protected void drawReadout(Graphics2D g, double share) {
        at(share).ifPresent(readout -> chart.drawReadout(g, readout, text(readout), Theme.chart()));
    }

    @Override
    protected Optional<String> readout(double share) {
        return at(share).map(this::text);
    }

    private Optional<Readout> at(double share) {
        return geometry().map(its -> Readout.at(its.span().at(share), content));
    }

    /** Time, actual, planned and how far apart, in words. */
    private String text(Readout readout) {
        StateWords state = new StateWords(words);
        List<String> parts = new ArrayList<>();
        parts.add(state.moment(readout.elapsedMs(), content.zero(), 1));
        readout.actual().ifPresent(actual -> parts.add(words.text("chart.readout_actual", words.temperature(actual))));
        readout.planned().ifPresent(planned -> parts.add(words.text("chart.readout_plan", words.temperature(planned))));
        if (readout.actual().isPresent() && readout.planned().isPresent()) {
            parts.add(words.difference(
                    readout.actual().get().minus(readout.planned().get())));
        }
        return String.join("   ", parts);
    }
}
