package org.kilnside.desktop.kiln;

import java.util.List;
import javax.swing.JLabel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.Words;

/** How many lines came of each sort, and what was wrong with the spoilt ones. */
final class TallyPane extends Card {
    private static final long serialVersionUID = 1L;
    private transient List<LinesModel.Tally> shown = List.of();
    private transient String head = "";

    TallyPane() {
        super(new MigLayout("insets 10 14 10 14, fillx, wrap 2, gap 12 2", "[grow, fill][pref!, right]", ""));
    }

    void show(List<LinesModel.Tally> tallies, Words words) {
        String title = words.text("kiln.lines.count");
        if (tallies.equals(shown) && title.equals(head)) {
            return;
        }
        shown = tallies;
        head = title;
        removeAll();
        add(Labels.head(title), "span 2, gapbottom 2");
        for (LinesModel.Tally tally : tallies) {
            add(Labels.value(tally.mark() + "  " + tally.title()), "wmin 0");
            add(Labels.value(tally.count()));
            for (LinesModel.Part part : tally.parts()) {
                JLabel name = Labels.quiet(part.title());
                name.setToolTipText(part.title());
                add(name, "gapleft 22, wmin 0");
                add(Labels.quiet(part.count()));
            }
        }
        revalidate();
        repaint();
    }
}
