package org.kilnside.desktop.plan;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.Rectangle;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.Scrollable;

/** As wide as its place, as high as it needs: text wraps, and what is too high scrolls. */
final class Upright extends JPanel implements Scrollable {
    private static final long serialVersionUID = 1L;

    Upright(JComponent what) {
        super(new BorderLayout());
        setOpaque(false);
        add(what, BorderLayout.CENTER);
    }

    @Override
    public Dimension getPreferredScrollableViewportSize() {
        return getPreferredSize();
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
        return true;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
        return getParent().getHeight() >= getPreferredSize().height;
    }
}
