package org.kilnside.desktop.book;

import java.awt.Color;
import java.awt.Cursor;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.JComponent;
import org.kilnside.chart.ChartGeometry;
import org.kilnside.chart.Overlay;
import org.kilnside.chart.OverlayChart;
import org.kilnside.chart.OverlayView;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/**
 * The chart of the firings that are open: zooms under the wheel, pans under the hand, reads out under the pointer, all by
 * keyboard too. The drawing is made once a change and copied to the screen, so that moving the pointer costs nothing.
 */
public final class OverlayPane extends JComponent {
    private static final long serialVersionUID = 1L;

    /** How many colours the theme has for lines over each other. */
    private static final int COLOURS = 5;

    private final transient OverlayChart chart = new OverlayChart();
    private transient Overlay overlay = Overlay.EMPTY;
    private transient OpenedModel model;
    private transient Words words;
    private transient OverlayView view = OverlayView.WHOLE;
    private transient BufferedImage drawing;
    private boolean outOfDate = true;

    /** Where the read-out stands, as a share of the width; empty when nobody asks. */
    private transient OptionalDouble pointer = OptionalDouble.empty();

    OverlayPane(Words words) {
        this.words = words;
        setFocusable(true);
        setCursor(Cursor.getPredefinedCursor(Cursor.CROSSHAIR_CURSOR));
        Hand hand = new Hand();
        addMouseListener(hand);
        addMouseMotionListener(hand);
        addMouseWheelListener(hand);
        // As they are typed: on one keyboard + has a key of its own, on another it is Shift and =.
        for (String key : new String[] {"typed +", "typed ="}) {
            KeyRow.bindHere(this, key, () -> zoom(0.7));
        }
        KeyRow.bindHere(this, "typed -", () -> zoom(1 / 0.7));
        KeyRow.bindHere(this, "LEFT", () -> pan(-0.2));
        KeyRow.bindHere(this, "RIGHT", () -> pan(0.2));
        KeyRow.bindHere(this, "ctrl LEFT", () -> movePointer(-0.01));
        KeyRow.bindHere(this, "ctrl RIGHT", () -> movePointer(0.01));
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

    void show(OpenedModel its, Overlay drawn, Words language) {
        model = its;
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

    void zoom(double factor) {
        to(view.zoom(factor, pointer.orElse(0.5), overlay));
    }

    void pan(double share) {
        to(view.pan(share, overlay));
    }

    void whole() {
        to(OverlayView.WHOLE);
    }

    void movePointer(double share) {
        pointer = OptionalDouble.of(Math.max(0, Math.min(1, pointer.orElse(0.5) + share)));
        getAccessibleContext().setAccessibleDescription(String.join(", ", readout()));
        repaint();
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
        return new Dimension(line * 12, line * 8);
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        double scale = g.getTransform().getScaleX();
        int width = Math.max(1, (int) Math.ceil(getWidth() * scale));
        int height = Math.max(1, (int) Math.ceil(getHeight() * scale));
        if (drawing == null || drawing.getWidth() != width || drawing.getHeight() != height) {
            drawing = getGraphicsConfiguration().createCompatibleImage(width, height);
            outOfDate = true;
        }
        if (outOfDate) {
            Graphics2D ink = drawing.createGraphics();
            ink.addRenderingHints(g.getRenderingHints());
            ink.scale(scale, scale);
            ink.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            Rectangle2D bounds = new Rectangle2D.Double(0, 0, getWidth(), getHeight());
            chart.draw(ink, bounds, overlay, view, Theme.chart(), colours(), words);
            ink.dispose();
            outOfDate = false;
        }
        g.drawImage(drawing, 0, 0, getWidth(), getHeight(), null);
        if (pointer.isPresent() && model != null && chart.geometry().isPresent()) {
            chart.drawReadout(g, pointerMs(), readout(), Theme.chart());
        }
        if (isFocusOwner()) {
            g.setPaint(Theme.colour("ember"));
            g.drawRect(0, 0, getWidth() - 1, getHeight() - 1);
        }
        g.dispose();
    }

    private long pointerMs() {
        return view.span(overlay).at(pointer.orElse(0.5));
    }

    private List<String> readout() {
        return model == null ? List.of() : model.readout(overlay, pointerMs(), words);
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
            requestFocusInWindow();
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
            chart.geometry().map(ChartGeometry::area).ifPresent(area -> {
                pan((grabbedAt - event.getX()) / area.getWidth());
                grabbedAt = event.getX();
            });
        }

        @Override
        public void mouseWheelMoved(MouseWheelEvent event) {
            chart.geometry()
                    .ifPresent(geometry -> to(view.zoom(
                            Math.pow(1.2, event.getPreciseWheelRotation()), geometry.share(event.getX()), overlay)));
        }
    }
}
