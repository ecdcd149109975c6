package org.kilnside.desktop.kiln;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Font;
import java.util.Optional;
import javax.swing.JLabel;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** The line a person picked, whole, and what became of it; else how to pick one, or what the spoilt ones mean. */
final class PickedPane extends Card {
    private static final long serialVersionUID = 1L;
    private final JLabel head = Labels.head("");
    private final JTextArea line = Labels.wrapping("", "foreground: $Kilnside.text");
    private final JTextArea why = Labels.wrapping("", "foreground: $Kilnside.text");

    PickedPane() {
        super(new MigLayout("insets 10 14 12 14, fillx, wrap 1, gap 6, hidemode 3", "[grow, fill]", ""));
        add(head);
        add(line, "wmin 0, growx");
        add(why, "wmin 0, growx");
        terminalType();
    }

    void show(Optional<LinesModel.Row> picked, Optional<String> advice, Words words) {
        boolean asks = picked.isEmpty() && advice.isPresent();
        ground(asks ? "lookGround" : "card");
        String ink = "foreground: $Kilnside." + (asks ? "lookText" : "text");
        why.putClientProperty(FlatClientProperties.STYLE, ink);
        line.setVisible(picked.isPresent());
        if (picked.isPresent()) {
            LinesModel.Row row = picked.get();
            head.setText(words.text("kiln.lines.picked", row.number()) + "  ·  " + row.verdict());
            line.setText(row.text());
            why.setText(row.why());
        } else {
            head.setText(asks ? "!  " + words.text("kiln.lines.look") : words.text("kiln.lines.pick_head"));
            why.setText(advice.orElse(words.text("kiln.lines.pick")));
        }
        head.putClientProperty(
                FlatClientProperties.STYLE, "font: bold; foreground: $Kilnside." + (asks ? "lookText" : "quiet"));
    }

    private void terminalType() {
        line.setFont(new Font(Font.MONOSPACED, Font.PLAIN, 1)
                .deriveFont(Theme.font(1).getSize2D()));
        line.setWrapStyleWord(false);
    }

    @Override
    public void updateUI() {
        super.updateUI();
        if (line != null) {
            terminalType();
        }
    }
}
