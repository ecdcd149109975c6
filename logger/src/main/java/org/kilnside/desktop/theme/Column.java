package org.kilnside.desktop.theme;

import java.awt.Dimension;
import java.awt.LayoutManager;
import java.awt.Rectangle;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.ScrollPaneConstants;
import javax.swing.Scrollable;
import javax.swing.SwingUtilities;

/** As wide as its place, so that words wrap, and as high as it needs: it scrolls up and down. */
public final class Column extends JPanel implements Scrollable {
    private static final long serialVersionUID = 1L;

    private boolean squeezed;

    public Column(LayoutManager layout) {
        super(layout);
        setOpaque(false);
    }

    public JScrollPane scrolled() {
        JScrollPane scroll = new JScrollPane(
                this, ScrollPaneConstants.VERTICAL_SCROLLBAR_AS_NEEDED, ScrollPaneConstants.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(null);
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        return scroll;
    }

    /** As {@link #scrolled}, for words that wrap: how high they are is known only once the width is. */
    public JScrollPane scrolledWords() {
        JScrollPane scroll = scrolled();
        scroll.getViewport().addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent event) {
                revalidate();
                SwingUtilities.invokeLater(Column.this::revalidate);
            }
        });
        return scroll;
    }

    /** Whether it is never higher than its place: what lies in it scrolls then. */
    public void squeeze(boolean now) {
        squeezed = now;
        revalidate();
    }

    private int line() {
        return getFontMetrics(Theme.font(1)).getHeight();
    }

    @Override
    public Dimension getPreferredScrollableViewportSize() {
        return getPreferredSize();
    }

    @Override
    public int getScrollableUnitIncrement(Rectangle visible, int orientation, int direction) {
        return line();
    }

    @Override
    public int getScrollableBlockIncrement(Rectangle visible, int orientation, int direction) {
        return visible.height - line();
    }

    @Override
    public boolean getScrollableTracksViewportWidth() {
        return true;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
        return squeezed || getParent().getHeight() > getPreferredSize().height;
    }
}
