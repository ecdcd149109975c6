package org.kilnside.desktop.now;

import java.awt.Cursor;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.JComponent;
import org.kilnside.chart.ChartContent;
import org.kilnside.chart.ChartView;
import org.kilnside.chart.FiringChart;
import org.kilnside.chart.Readout;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;

/**
 * The chart in the window: zooms under the wheel, pans under the hand, reads out under the pointer, all by keyboard too.
 * The drawing is made once a change and copied to the screen, so that moving the pointer costs nothing.
 */
public final class ChartPane extends JComponent {
    private static final long serialVersionUID = 1L;
    private final transient FiringChart chart = new FiringChart();
    private transient ChartContent content = ChartContent.EMPTY;
    private transient Words words;
    private transient ChartView view = ChartView.WHOLE;
    private transient BufferedImage drawing;
    private boolean outOfDate = true;

    /** Where the read-out stands, as a share of the width; empty when nobody asks. */
    private transient OptionalDouble pointer = OptionalDouble.empty();

    ChartPane(Words words) {
        this.words = words;
        setFocusable(true);
        setCursor(Cursor.getPredefinedCursor(Cursor.CROSSHAIR_CURSOR));
        Hand hand = new Hand();
        addMouseListener(hand);
        addMouseMotionListener(hand);
        addMouseWheelListener(hand);
        addFocusListener(new FocusAdapter() {
            @Override
            public void focusGained(FocusEvent event) {
                repaint();
            }

            @Override
            public void focusLost(FocusEvent event) {
                repaint();
            }
        });
    }

    void show(ChartContent its, Words language) {
        content = its;
        words = language;
        redraw();
    }

    /** Closer or further, around now or the pointer. */
    public void zoom(double factor) {
        to(view.zoom(factor, pointer.orElse(view.goesWithNow() ? 0.8 : 0.5), content));
    }

    public void pan(double share) {
        to(view.pan(share, content));
    }

    public void whole() {
        to(ChartView.WHOLE);
    }

    public void backToNow() {
        to(view.backToNow(content));
    }

    /** Moves the read-out; shows it first where it was off. */
    public void movePointer(double share) {
        double from = pointer.orElse(0.5);
        pointer = OptionalDouble.of(Math.max(0, Math.min(1, from + share)));
        tell();
        repaint();
    }

    /** Which stretch is looked at. */
    public ChartView view() {
        return view;
    }

    private void to(ChartView other) {
        view = other;
        redraw();
    }

    private void redraw() {
        outOfDate = true;
        repaint();
    }

    @Override
    public void updateUI() {
        super.updateUI();
        outOfDate = true;
    }

    @Override
    public Dimension getPreferredSize() {
        int line = getFontMetrics(Theme.font(1)).getHeight();
        return new Dimension(line * 32, line * 16);
    }

    @Override
    public Dimension getMinimumSize() {
        int line = getFontMetrics(Theme.font(1)).getHeight();
        return new Dimension(line * 14, line * 8);
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        double scale = g.getTransform().getScaleX();
        int width = (int) Math.ceil(getWidth() * scale);
        int height = (int) Math.ceil(getHeight() * scale);
        if (drawing == null || drawing.getWidth() != width || drawing.getHeight() != height) {
            drawing = getGraphicsConfiguration().createCompatibleImage(Math.max(1, width), Math.max(1, height));
            outOfDate = true;
        }
        if (outOfDate) {
            Graphics2D ink = drawing.createGraphics();
            ink.addRenderingHints(g.getRenderingHints());
            ink.scale(scale, scale);
            ink.setRenderingHint(
                    java.awt.RenderingHints.KEY_TEXT_ANTIALIASING, java.awt.RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            chart.draw(ink, new Rectangle2D.Double(0, 0, getWidth(), getHeight()), content, view, Theme.chart(), words);
            ink.dispose();
            outOfDate = false;
        }
        g.drawImage(drawing, 0, 0, getWidth(), getHeight(), null);
        readout().ifPresent(readout -> chart.drawReadout(g, readout, text(readout), Theme.chart()));
        if (isFocusOwner()) {
            g.setPaint(Theme.colour("ember"));
            g.drawRect(0, 0, getWidth() - 1, getHeight() - 1);
        }
        g.dispose();
    }

    private Optional<Readout> readout() {
        return pointer.isEmpty() || chart.geometry().isEmpty()
                ? Optional.empty()
                : Optional.of(Readout.at(chart.geometry().get().span().at(pointer.getAsDouble()), content));
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

    private void tell() {
        readout().ifPresent(readout -> getAccessibleContext().setAccessibleDescription(text(readout)));
    }

    @Override
    public AccessibleContext getAccessibleContext() {
        if (accessibleContext == null) {
            accessibleContext = new AccessibleJComponent() {
                private static final long serialVersionUID = 1L;

                @Override
                public AccessibleRole getAccessibleRole() {
                    return AccessibleRole.CANVAS;
                }
            };
        }
        return accessibleContext;
    }

    /** The mouse on the chart. */
    private final class Hand extends MouseAdapter {
        private double grabbedAt;

        @Override
        public void mouseMoved(MouseEvent event) {
            chart.geometry().ifPresent(geometry -> {
                double share = geometry.share(event.getX());
                pointer = share >= 0 && share <= 1 ? OptionalDouble.of(share) : OptionalDouble.empty();
                repaint();
            });
        }

        @Override
        public void mouseExited(MouseEvent event) {
            pointer = OptionalDouble.empty();
            repaint();
        }

        @Override
        public void mousePressed(MouseEvent event) {
            grabbedAt = event.getX();
        }

        @Override
        public void mouseClicked(MouseEvent event) {
            if (event.getClickCount() == 2) {
                whole();
            }
        }

        @Override
        public void mouseDragged(MouseEvent event) {
            chart.geometry().ifPresent(geometry -> {
                pan((grabbedAt - event.getX()) / geometry.area().getWidth());
                grabbedAt = event.getX();
            });
        }

        @Override
        public void mouseWheelMoved(MouseWheelEvent event) {
            chart.geometry()
                    .ifPresent(geometry -> to(view.zoom(
                            Math.pow(1.2, event.getPreciseWheelRotation()), geometry.share(event.getX()), content)));
        }
    }
}
