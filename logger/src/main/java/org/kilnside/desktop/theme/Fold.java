package org.kilnside.desktop.theme;

import java.util.function.Consumer;
import java.util.function.IntSupplier;
import javax.swing.JComponent;
import javax.swing.SwingUtilities;

/**
 * Parts that stand beside each other where there is room, and one below the other in a narrow place or with large text.
 * Its owner asks it before it lays itself out.
 */
public final class Fold {
    private final JComponent whole;
    private final IntSupplier least;
    private final Consumer<Boolean> arrange;
    private boolean isNarrow;

    /**
     * Builds it, beside each other.
     *
     * @param whole what holds the parts
     * @param least the width that they need beside each other, in pixels; must not depend on how they stand
     * @param arrange arranges them: true for one below the other
     */
    public Fold(JComponent whole, IntSupplier least, Consumer<Boolean> arrange) {
        this.whole = whole;
        this.least = least;
        this.arrange = arrange;
        arrange.accept(false);
    }

    /** Arranges the parts for the width there is now. */
    public void settle() {
        boolean narrow = whole.getWidth() < least.getAsInt();
        if (narrow != isNarrow) {
            isNarrow = narrow;
            arrange.accept(narrow);
            // Its height is another now, which what is around it has to hear of.
            SwingUtilities.invokeLater(whole::revalidate);
        }
    }
}
