package org.kilnside.desktop.book;

import java.awt.Point;
import java.util.List;
import java.util.stream.Collectors;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Fold;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.FiringSummary;
import org.kilnside.wording.Words;

/** The figures of the firing that is open. */
final class FiguresPane extends JPanel {
    private static final long serialVersionUID = 1L;
    private final Column rows = new Column(new MigLayout("insets 0 0 0 8, wrap 2, gap 12 5", "[][grow, fill]", ""));

    /** Narrower than this, in lines of text, a figure stands below its name. */
    private static final int NARROW = 18;

    private final transient Fold fold;
    private transient List<FiringSummary.Line> shown = List.of();

    FiguresPane() {
        super(new MigLayout("insets 0, fill", "[grow, fill]", "[grow, fill]"));
        setOpaque(false);
        JScrollPane scroll = rows.scrolledWords();
        add(scroll, "wmin 0, hmin 0");
        fold = new Fold(this, () -> getFontMetrics(Theme.font(1)).getHeight() * NARROW, narrow -> {
            MigLayout layout = (MigLayout) rows.getLayout();
            layout.setColumnConstraints(narrow ? "[grow, fill]" : "[][grow, fill]");
            layout.setLayoutConstraints("insets 0 0 0 8, gap 12 5, wrap " + (narrow ? 1 : 2));
            rows.revalidate();
            // What was in sight is somewhere else now: begin at the top again.
            SwingUtilities.invokeLater(() -> scroll.getViewport().setViewPosition(new Point()));
        });
    }

    @Override
    public void doLayout() {
        fold.settle();
        super.doLayout();
    }

    void show(List<FiringSummary.Line> lines, Words words) {
        if (lines.equals(shown)) {
            return;
        }
        shown = lines;
        rows.removeAll();
        for (FiringSummary.Line line : lines) {
            rows.add(Labels.quiet(line.label()), "aligny top");
            rows.add(Labels.wrapping(line.value(), "foreground: $Kilnside.text"), "growx, wmin 0");
        }
        getAccessibleContext()
                .setAccessibleName(words.text("record.section.figures") + ": "
                        + lines.stream()
                                .map(line -> line.label() + " " + line.value())
                                .collect(Collectors.joining(". ")));
        rows.revalidate();
        rows.repaint();
    }
}
