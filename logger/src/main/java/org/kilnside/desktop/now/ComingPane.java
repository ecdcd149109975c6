package org.kilnside.desktop.now;

import java.util.Optional;
import java.util.stream.Collectors;
import javax.swing.JLabel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.Ahead;

/** What the ware has had and what is to come, with what to mind beside it. */
final class ComingPane extends Card {
    private static final long serialVersionUID = 1L;
    private transient Optional<NowModel.Coming> shown = Optional.empty();

    ComingPane() {
        super(new MigLayout("insets 6 14 6 4, wrap 2, gap 4 0", "[]12[grow, fill]", ""));
    }

    void show(NowModel.Coming coming) {
        if (shown.isPresent() && shown.get().equals(coming)) {
            return;
        }
        shown = Optional.of(coming);
        removeAll();
        add(Labels.head(coming.head()), "span 2, wmin 0");
        for (Ahead.Line line : coming.told().lines()) {
            if (line.label().isEmpty()) {
                add(Labels.wrapping(line.value(), "foreground: $Kilnside.text"), "span 2, growx, wmin 0");
            } else {
                JLabel label = Labels.quiet(line.label());
                add(label, "aligny top");
                add(Labels.wrapping(line.value(), "foreground: $Kilnside.text"), "growx, wmin 0");
            }
        }
        if (!coming.told().cautions().isEmpty()) {
            add(
                    Labels.wrapping(
                            String.join(" ", coming.told().cautions()), "foreground: $Kilnside.quiet; font: 90%"),
                    "span 2, growx, wmin 0, gaptop 2");
        }
        getAccessibleContext()
                .setAccessibleName(coming.head() + ". "
                        + coming.told().lines().stream()
                                .map(line -> line.label().isEmpty() ? line.value() : line.label() + ": " + line.value())
                                .collect(Collectors.joining(". "))
                        + " " + String.join(" ", coming.told().cautions()));
        revalidate();
        repaint();
    }
}
