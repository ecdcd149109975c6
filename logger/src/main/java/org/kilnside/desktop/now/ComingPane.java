package org.kilnside.desktop.now;

import java.util.Optional;
import java.util.stream.Collectors;
import javax.swing.JLabel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.wording.Ahead;

/** What the ware has had and what is to come, with what to mind beside it. */
final class ComingPane extends Card {
    private static final long serialVersionUID = 1L;
    private transient Optional<NowModel.Coming> shown = Optional.empty();

    ComingPane() {
        super(new MigLayout("insets 8 14 8 10, wrap 1, gap 0 1", "[grow, fill]", ""));
    }

    void show(NowModel.Coming coming) {
        if (shown.isPresent() && shown.get().equals(coming)) {
            return;
        }
        shown = Optional.of(coming);
        removeAll();
        add(Labels.head(coming.head()), "wmin 0");
        for (Ahead.Line line : coming.told().lines()) {
            JLabel label = Labels.quiet(line.label());
            add(label, "wmin 0, gaptop 2");
            add(Labels.wrapping(line.value(), "foreground: $Kilnside.text"), "growx, wmin 0");
        }
        if (!coming.told().cautions().isEmpty()) {
            add(
                    Labels.wrapping(
                            String.join(" ", coming.told().cautions()), "foreground: $Kilnside.quiet; font: 90%"),
                    "growx, wmin 0, gaptop 3");
        }
        getAccessibleContext()
                .setAccessibleName(coming.head() + ". "
                        + coming.told().lines().stream()
                                .map(line -> line.label() + ": " + line.value())
                                .collect(Collectors.joining(". "))
                        + " " + String.join(" ", coming.told().cautions()));
        revalidate();
        repaint();
    }
}
