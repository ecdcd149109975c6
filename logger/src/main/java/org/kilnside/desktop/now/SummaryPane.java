package org.kilnside.desktop.now;

import java.awt.Dimension;
import java.awt.Rectangle;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.Optional;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.ScrollPaneConstants;
import javax.swing.Scrollable;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.FiringSummary;
import org.kilnside.wording.Words;

/** What a potter wants to read when it is over. */
final class SummaryPane extends Card {
    private static final long serialVersionUID = 1L;
    private final Body body = new Body();
    private transient Optional<FiringSummary> shown = Optional.empty();

    SummaryPane() {
        super(new MigLayout("insets 12 14 12 6, fill", "[grow, fill]", "[grow, fill]"));
        JScrollPane scroll = new JScrollPane(
                body, ScrollPaneConstants.VERTICAL_SCROLLBAR_AS_NEEDED, ScrollPaneConstants.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(null);
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        scroll.getVerticalScrollBar().setUnitIncrement(16);
        // Words wrap to the width, so the height is known only once the width is.
        scroll.getViewport().addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent event) {
                body.revalidate();
                SwingUtilities.invokeLater(SummaryPane.this::revalidate);
            }
        });
        add(scroll, "wmin 0, hmin 60");
    }

    void show(FiringSummary summary, Words words) {
        if (shown.isPresent() && shown.get().equals(summary)) {
            return;
        }
        shown = Optional.of(summary);
        body.removeAll();
        body.add(Labels.head(words.text("window.summary")), "span 2");
        body.add(
                Labels.wrapping(summary.headline(), "font: 120%; foreground: $Kilnside.text"),
                "span 2, growx, wmin 0, gapbottom 6");
        for (FiringSummary.Line line : summary.lines()) {
            JLabel label = Labels.quiet(line.label());
            body.add(label, "aligny top");
            body.add(Labels.wrapping(line.value(), "foreground: $Kilnside.text"), "growx, wmin 0");
        }
        getAccessibleContext().setAccessibleName(String.join(". ", summary.asLines()));
        revalidate();
        repaint();
    }

    /** As wide as its place, so that words wrap. */
    private static final class Body extends JPanel implements Scrollable {
        private static final long serialVersionUID = 1L;

        Body() {
            super(new MigLayout("insets 0 0 0 8, wrap 2, gap 10 5", "[][grow, fill]", ""));
            setOpaque(false);
        }

        @Override
        public Dimension getPreferredScrollableViewportSize() {
            return getPreferredSize();
        }

        @Override
        public int getScrollableUnitIncrement(Rectangle visible, int orientation, int direction) {
            return 16;
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
            return false;
        }
    }
}
