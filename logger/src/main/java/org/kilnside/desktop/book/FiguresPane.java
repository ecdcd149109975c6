package org.kilnside.desktop.book;

import java.util.List;
import java.util.stream.Collectors;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.FiringSummary;
import org.kilnside.wording.Words;

/** The figures of the firing that is open. */
final class FiguresPane extends JPanel {
    private static final long serialVersionUID = 1L;
    private final WrappedRows rows =
            new WrappedRows(new MigLayout("insets 0 0 0 8, wrap 2, gap 12 5", "[][grow, fill]", ""));
    private transient List<FiringSummary.Line> shown = List.of();

    FiguresPane() {
        super(new MigLayout("insets 0, fill", "[grow, fill]", "[grow, fill]"));
        setOpaque(false);
        add(rows.scrolled(), "wmin 0, hmin 0");
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
