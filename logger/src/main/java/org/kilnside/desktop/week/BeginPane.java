package org.kilnside.desktop.week;

import javax.swing.JPanel;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.Words;

/** In place of a week: how to begin one, or why the one there is cannot be read. */
final class BeginPane extends JPanel {
    private static final long serialVersionUID = 1L;

    private final Card card =
            new Card(new MigLayout("insets 18 22 18 22, fillx, wrap 1, gap 10, hidemode 3", "[grow, fill]", ""));
    private final JTextArea sentence = Labels.wrapping("", "font: bold 145%; foreground: $Kilnside.text");
    private final JTextArea more = Labels.wrapping("", "foreground: $Kilnside.text");
    private final KeyButton begin = new KeyButton();
    private final KeyButton example = new KeyButton();

    BeginPane(WeekModel model) {
        super(new MigLayout("insets 30 8 8 8, fillx", "[grow, fill, 100::900]push", ""));
        setOpaque(false);
        begin.addActionListener(event -> model.loads().begin());
        example.addActionListener(event -> model.loads().beginWithExample());
        card.add(sentence, "growx, wmin 0");
        card.add(more, "growx, wmin 0");
        card.add(begin, "growx 0");
        card.add(example, "growx 0");
        add(card, "growx, wmin 0");
    }

    void show(WeekModel model, Words words) {
        boolean broken = model.keeping().broken().isPresent();
        sentence.setText(words.text(broken ? "week.broken" : model.keeping().isRead() ? "week.empty" : "week.reading"));
        more.setText(model.keeping().broken().orElseGet(() -> words.text("week.empty_more")));
        card.ground(broken ? "lookGround" : "card");
        begin.setVisible(!broken);
        example.setVisible(!broken);
        begin.say(words.text("week.begin"), "ctrl N", words);
        example.say(words.text("week.example"), "ctrl K", words);
    }

    KeyButton first() {
        return begin;
    }
}
