package org.kilnside.desktop.now;

import java.util.Optional;
import javax.swing.JLabel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.FiringSummary;
import org.kilnside.wording.Words;

/** What a potter wants to read when it is over. */
final class SummaryPane extends Card {
    private static final long serialVersionUID = 1L;
    private final Column body = new Column(new MigLayout("insets 0 0 0 8, wrap 2, gap 10 5", "[][grow, fill]", ""));
    private transient Optional<FiringSummary> shown = Optional.empty();

    SummaryPane() {
        super(new MigLayout("insets 12 14 12 6, fill", "[grow, fill]", "[grow, fill]"));
        add(body.scrolledWords(), "wmin 0, hmin 60");
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
}
