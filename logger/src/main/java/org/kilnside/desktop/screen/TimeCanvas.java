package org.kilnside.desktop.screen;

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
import java.util.Optional;
import java.util.OptionalDouble;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.JComponent;
import org.kilnside.chart.ChartGeometry;
import org.kilnside.desktop.theme.Theme;

/**
 * A drawing along time: zooms under the wheel, pans under the hand, reads out under the pointer, all by keyboard too. It is
 * made once a change and copied to the screen, so that moving the pointer costs nothing.
 */
public abstract class TimeCanvas extends JComponent {
    private static final long serialVersionUID = 1L;

    private transient BufferedImage drawing;
    private boolean outOfDate = true;

    /** Where the read-out stands, as a share of the width; empty when nobody asks. */
    private transient OptionalDouble pointer = OptionalDouble.empty();

    protected TimeCanvas() {
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

    /** Makes the drawing. */
    protected abstract void draw(Graphics2D ink, Rectangle2D bounds);

    /** Draws what stands at a share of the width, over the drawing. */
    protected abstract void drawReadout(Graphics2D g, double share);

    /** The same in words; empty where nothing is drawn yet. */
    protected abstract Optional<String> readout(double share);

    /** Where in the newest drawing time lies; empty before the first. */
    protected abstract Optional<ChartGeometry> geometry();

    /** Closer or further about a share of the width: below 1 is closer. */
    protected abstract void zoom(double factor, double about);

    /** About what it is zoomed where nobody points at anything, as a share of the width. */
    protected double middle() {
        return 0.5;
    }

    /** Sideways, by a share of the width. */
    public abstract void pan(double share);

    /** All there is. */
    public abstract void whole();

    /** Closer or further, about the pointer where there is one. */
    public final void zoom(double factor) {
        zoom(factor, pointer.orElse(middle()));
    }

    /** Moves the read-out; shows it first where it was off. */
    public final void movePointer(double share) {
        double to = Math.max(0, Math.min(1, pointer.orElse(0.5) + share));
        pointer = OptionalDouble.of(to);
        readout(to).ifPresent(getAccessibleContext()::setAccessibleDescription);
        repaint();
    }

    /** Something of what is drawn has changed. */
    protected final void redraw() {
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
    protected final void paintComponent(Graphics graphics) {
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
            draw(ink, new Rectangle2D.Double(0, 0, getWidth(), getHeight()));
            ink.dispose();
            outOfDate = false;
        }
        g.drawImage(drawing, 0, 0, getWidth(), getHeight(), null);
        if (pointer.isPresent() && geometry().isPresent()) {
            drawReadout(g, pointer.getAsDouble());
        }
        if (isFocusOwner()) {
            g.setPaint(Theme.colour("ember"));
            g.drawRect(0, 0, getWidth() - 1, getHeight() - 1);
        }
        g.dispose();
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

    /** The mouse on the drawing. */
    private final class Hand extends MouseAdapter {
        private double grabbedAt;

        @Override
        public void mouseMoved(MouseEvent event) {
            geometry().ifPresent(geometry -> {
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
            geometry().ifPresent(geometry -> {
                pan((grabbedAt - event.getX()) / geometry.area().getWidth());
                grabbedAt = event.getX();
            });
        }

        @Override
        public void mouseWheelMoved(MouseWheelEvent event) {
            geometry()
                    .ifPresent(geometry ->
                            zoom(Math.pow(1.2, event.getPreciseWheelRotation()), geometry.share(event.getX())));
        }
    }
}
