package org.kilnside.desktop.theme;

import java.awt.BorderLayout;
import javax.swing.JComponent;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/**
 * Two parts of a page: beside each other where there is room, each of which scrolls by itself; in a narrow window or with
 * large text one below the other and as high as they need, and the page scrolls.
 */
public final class TwoParts extends JPanel {
    private static final long serialVersionUID = 1L;

    private final Folding folding;

    /**
     * Builds it.
     *
     * @param first the part on the left, or above
     * @param second the part on the right, or below
     * @param percent how much of the width the second has beside the first
     */
    public TwoParts(JComponent first, JComponent second, int percent) {
        super(new BorderLayout());
        setOpaque(false);
        MigLayout layout = new MigLayout("insets 0, fill, gap 10", "", "");
        Column page = new Column(layout);
        page.add(first);
        page.add(second);
        folding = new Folding(page.scrolled(), narrow -> {
            layout.setColumnConstraints(narrow ? "[grow, fill]" : "[grow, fill][fill]");
            layout.setRowConstraints(narrow ? "[][]" : "[grow, fill]");
            layout.setComponentConstraints(
                    first, narrow ? "cell 0 0, growx, wmin 0, hmin pref" : "cell 0 0, grow, push, wmin 0, hmin 0");
            layout.setComponentConstraints(
                    second,
                    narrow ? "cell 0 1, growx, wmin 0, hmin pref" : "cell 1 0, w " + percent + "%!, growy, hmin 0");
            page.squeeze(!narrow);
        });
        add(folding, BorderLayout.CENTER);
    }

    /** Whether one stands below the other now. */
    public boolean isNarrow() {
        return folding.isNarrow();
    }
}
