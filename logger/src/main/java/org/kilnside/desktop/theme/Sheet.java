package org.kilnside.desktop.theme;

import java.awt.Dimension;
import java.awt.LayoutManager;
import java.awt.Rectangle;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.Scrollable;

/** Fills its place; where that is smaller than what the screen needs, it scrolls, so that nothing is ever out of reach. */
public final class Sheet extends JPanel implements Scrollable {
    private static final long serialVersionUID = 1L;

    /** The least size, in lines of text, unless told otherwise. */
    private static final double LEAST_WIDTH = 56;

    private static final double LEAST_HEIGHT = 26;

    private double leastWidth = LEAST_WIDTH;
    private double leastHeight = LEAST_HEIGHT;

    public Sheet(LayoutManager layout) {
        super(layout);
        setOpaque(false);
    }

    public JScrollPane scrolled() {
        JScrollPane scroll = new JScrollPane(this);
        scroll.setBorder(null);
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        scroll.getVerticalScrollBar().setUnitIncrement(20);
        scroll.getHorizontalScrollBar().setUnitIncrement(20);
        return scroll;
    }

    /** For a page that is arranged in another way: below this size, in lines of text, it is scrolled. */
    public void least(double width, double height) {
        leastWidth = width;
        leastHeight = height;
    }

    /** As a page is, unless told otherwise. */
    public void leastAsUsual() {
        leastTallerBy(0);
    }
    /** As usual, and so many lines of text taller: for one that is scrolled anyway. */
    public void leastTallerBy(double lines) {
        least(LEAST_WIDTH, LEAST_HEIGHT + lines);
    }

    private Dimension least() {
        int line = getFontMetrics(Theme.font(1)).getHeight();
        return new Dimension((int) (line * leastWidth), (int) (line * leastHeight));
    }

    @Override
    public Dimension getPreferredSize() {
        return least();
    }

    @Override
    public Dimension getPreferredScrollableViewportSize() {
        return least();
    }

    @Override
    public int getScrollableUnitIncrement(Rectangle visible, int orientation, int direction) {
        return 20;
    }

    @Override
    public int getScrollableBlockIncrement(Rectangle visible, int orientation, int direction) {
        return visible.height;
    }

    @Override
    public boolean getScrollableTracksViewportWidth() {
        return getParent().getWidth() >= least().width;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
        return getParent().getHeight() >= least().height;
    }
}
