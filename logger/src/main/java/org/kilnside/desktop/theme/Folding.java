package org.kilnside.desktop.theme;

import java.awt.BorderLayout;
import java.awt.KeyboardFocusManager;
import java.awt.Point;
import java.beans.PropertyChangeEvent;
import java.beans.PropertyChangeListener;
import java.util.function.Consumer;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.SwingUtilities;

/**
 * A page whose parts stand beside each other where there is room; in a narrow window, or with large text, they stand one
 * below the other and are scrolled, and what has the keyboard is kept in sight.
 */
public final class Folding extends JPanel {
    private static final long serialVersionUID = 1L;

    /** Narrower than this, in lines of text, a page is folded. */
    private static final double NARROW = 54;

    private static final String FOCUS = "permanentFocusOwner";

    private final JScrollPane page;
    private final transient Consumer<Boolean> arrange;
    private final transient PropertyChangeListener follow = this::follow;
    private boolean isNarrow;

    /**
     * Builds it as a wide page.
     *
     * @param page the page, within its scroll pane
     * @param arrange arranges the page: true for one below the other
     */
    public Folding(JScrollPane page, Consumer<Boolean> arrange) {
        super(new BorderLayout());
        this.page = page;
        this.arrange = arrange;
        setOpaque(false);
        arrange.accept(false);
        add(page, BorderLayout.CENTER);
    }

    /** Whether its parts stand one below the other now. */
    public boolean isNarrow() {
        return isNarrow;
    }

    @Override
    public void addNotify() {
        super.addNotify();
        KeyboardFocusManager.getCurrentKeyboardFocusManager().addPropertyChangeListener(FOCUS, follow);
    }

    @Override
    public void removeNotify() {
        KeyboardFocusManager.getCurrentKeyboardFocusManager().removePropertyChangeListener(FOCUS, follow);
        super.removeNotify();
    }

    /** What has the keyboard is in sight. */
    private void follow(PropertyChangeEvent event) {
        if (event.getNewValue() instanceof JComponent its && SwingUtilities.isDescendingFrom(its, page)) {
            JComponent whole = (JComponent) page.getViewport().getView();
            whole.scrollRectToVisible(SwingUtilities.convertRectangle(its.getParent(), its.getBounds(), whole));
        }
    }

    @Override
    public void doLayout() {
        boolean narrow = getWidth() < getFontMetrics(Theme.font(1)).getHeight() * NARROW;
        if (narrow != isNarrow) {
            isNarrow = narrow;
            arrange.accept(narrow);
            // What was in sight is somewhere else now: begin at the top again.
            SwingUtilities.invokeLater(() -> page.getViewport().setViewPosition(new Point()));
        }
        super.doLayout();
    }
}
