package org.kilnside.desktop.book;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.kilnside.chart.ChartGeometry;
import org.kilnside.chart.Overlay;
import org.kilnside.chart.OverlayChart;
import org.kilnside.chart.OverlayView;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.TimeCanvas;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** The chart of the firings that are open. */
public final class OverlayPane extends TimeCanvas {
    private static final long serialVersionUID = 1L;

    /** How many colours the theme has for lines over each other. */
    private static final int COLOURS = 5;

    private final transient OverlayChart chart = new OverlayChart();
    private transient Overlay overlay = Overlay.EMPTY;
    private transient Optional<OpenedModel> model = Optional.empty();
    private transient Words words;
    private transient OverlayView view = OverlayView.WHOLE;

    OverlayPane(Words words) {
        this.words = words;
        // As they are typed: on one keyboard + has a key of its own, on another it is Shift and =.
        for (String key : new String[] {"typed +", "typed ="}) {
            KeyRow.bindHere(this, key, () -> zoom(0.7));
        }
        KeyRow.bindHere(this, "typed -", () -> zoom(1 / 0.7));
        KeyRow.bindHere(this, "LEFT", () -> pan(-0.2));
        KeyRow.bindHere(this, "RIGHT", () -> pan(0.2));
        KeyRow.bindHere(this, "ctrl LEFT", () -> movePointer(-0.01));
        KeyRow.bindHere(this, "ctrl RIGHT", () -> movePointer(0.01));
    }

    void show(OpenedModel its, Overlay drawn, Words language) {
        model = Optional.of(its);
        overlay = drawn;
        words = language;
        redraw();
    }

    /** The colours of the lines, in their order. */
    static List<Color> colours() {
        return IntStream.rangeClosed(1, COLOURS)
                .mapToObj(i -> Theme.colour("chart.line" + i))
                .toList();
    }

    @Override
    protected void zoom(double factor, double about) {
        to(view.zoom(factor, about, overlay));
    }

    @Override
    public void pan(double share) {
        to(view.pan(share, overlay));
    }

    @Override
    public void whole() {
        to(OverlayView.WHOLE);
    }

    /** Which stretch is looked at. */
    public OverlayView view() {
        return view;
    }

    /** What is drawn. */
    public Overlay overlay() {
        return overlay;
    }

    private void to(OverlayView other) {
        view = other;
        redraw();
    }

    @Override
    protected void draw(Graphics2D ink, Rectangle2D bounds) {
        chart.draw(ink, bounds, overlay, view, Theme.chart(), colours(), words);
    }

    @Override
    protected Optional<ChartGeometry> geometry() {
        return chart.geometry();
    }

    @Override
    protected void drawReadout(Graphics2D g, double share) {
        chart.drawReadout(g, ms(share), rows(share), Theme.chart());
    }

    @Override
    protected Optional<String> readout(double share) {
        return Optional.of(String.join(", ", rows(share)));
    }

    private long ms(double share) {
        return view.span(overlay).at(share);
    }

    private List<String> rows(double share) {
        return model.map(its -> its.readout(overlay, ms(share), words)).orElse(List.of());
    }
}
