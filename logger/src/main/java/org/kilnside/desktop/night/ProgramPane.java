package org.kilnside.desktop.night;

import com.formdev.flatlaf.FlatClientProperties;
import java.util.Optional;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.ProgramCard;
import org.kilnside.wording.Words;

/** The card of what to key into the controller, to be held against what the controller shows. */
final class ProgramPane extends Card {
    private static final long serialVersionUID = 1L;
    private transient Optional<ProgramCard> shown = Optional.empty();

    ProgramPane() {
        super(new MigLayout("insets 10 14 12 14, fillx, wrap 1, gap 6", "[grow, fill]", ""));
    }

    /** Hides itself where there is no plan. */
    void show(Optional<ProgramCard> card, Words words) {
        if (card.equals(shown)) {
            return;
        }
        shown = card;
        setVisible(card.isPresent());
        removeAll();
        card.ifPresent(its -> fill(its, words));
        revalidate();
        repaint();
    }

    private void fill(ProgramCard card, Words words) {
        add(Labels.head(words.text("night.card", card.title())));
        JPanel table = new JPanel(new MigLayout("insets 0, wrap 4, gap 24 3", "[][right][right][right]push", ""));
        table.setOpaque(false);
        card.heads().forEach(name -> table.add(Labels.quiet(name)));
        for (ProgramCard.Step step : card.steps()) {
            table.add(figure(Integer.toString(step.number())));
            table.add(figure((step.cools() ? "↓ " : "") + step.rate()));
            table.add(figure(step.target()));
            table.add(figure(step.hold()));
        }
        add(table);
        // The last remark is of the boxes on paper.
        JTextArea remarks = Labels.wrapping(
                String.join(" ", card.remarks().subList(0, card.remarks().size() - 1)), "foreground: $Kilnside.quiet");
        add(remarks, "growx, wmin 0");
    }

    private static JLabel figure(String text) {
        JLabel label = new JLabel(text);
        label.putClientProperty(FlatClientProperties.STYLE, "font: 115%; foreground: $Kilnside.text");
        return label;
    }
}
