package org.kilnside.desktop.theme;

import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import javax.swing.JList;
import javax.swing.JScrollPane;
import javax.swing.ListModel;
import javax.swing.ScrollPaneConstants;
import javax.swing.SwingUtilities;

/** A list whose rows wrap: each is as high as its words are at the list's width. */
public final class WrappingList<E> extends JList<E> {
    private static final long serialVersionUID = 1L;

    public WrappingList(ListModel<E> lines) {
        super(lines);
        setOpaque(false);
    }

    public JScrollPane scrolled() {
        JScrollPane scroll = new JScrollPane(
                this, ScrollPaneConstants.VERTICAL_SCROLLBAR_AS_NEEDED, ScrollPaneConstants.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(null);
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        scroll.getViewport().addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent event) {
                measureAnew();
            }
        });
        return scroll;
    }

    /** A list remembers how high its rows are until it is told. */
    private void measureAnew() {
        setFixedCellHeight(1);
        setFixedCellHeight(-1);
    }

    @Override
    public void updateUI() {
        super.updateUI();
        SwingUtilities.invokeLater(this::measureAnew);
    }
}
