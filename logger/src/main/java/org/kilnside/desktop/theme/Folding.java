package org.kilnside.desktop.theme;

import java.awt.BorderLayout;
import java.awt.Point;
import java.util.function.Consumer;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.SwingUtilities;

/**
 * A page whose parts stand beside each other where there is room; in a narrow window, or with large text, they stand one
 * below the other and are scrolled.
 */
public final class Folding extends JPanel {
    private static final long serialVersionUID = 1L;

    /** Narrower than this, in lines of text, a page is folded. */
    private static final double NARROW = 54;

    private final JScrollPane page;
    private final transient Consumer<Boolean> arrange;
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
