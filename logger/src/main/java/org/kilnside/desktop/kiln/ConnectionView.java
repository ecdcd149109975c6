package org.kilnside.desktop.kiln;

import com.formdev.flatlaf.FlatClientProperties;
import java.util.Optional;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Folding;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Sheet;
import org.kilnside.session.LineView;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.Words;

/** The connection, with the lines as they come. Only draws what its model says. */
final class ConnectionView extends JPanel {
    private static final long serialVersionUID = 1L;
    private final JTextArea sentence = Labels.wrapping("", "font: 150%; foreground: $Kilnside.text");
    private final JLabel head = Labels.head("");
    private final JLabel newest = Labels.quiet("");
    private final LineList list = new LineList();
    private final TallyPane tally = new TallyPane();
    private final PickedPane picked = new PickedPane();
    private final JTextArea empty = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private transient Optional<String> advice = Optional.empty();
    private transient Words words;

    ConnectionView() {
        super(new MigLayout("insets 0, fill, wrap 1, gap 10", "[grow, fill]", "[][grow, fill]"));
        setOpaque(false);
        Card lines =
                new Card(new MigLayout("insets 10 14 8 8, fill, wrap 2, gap 4, hidemode 3", "[pref!][grow, fill]", ""));
        lines.add(head);
        lines.add(newest, "wmin 0, gapleft 12");
        lines.add(empty, "span 2, growx, wmin 0");
        lines.add(list.scrolled(), "span 2, grow, pushy, wmin 0, hmin 0");
        JPanel side = new JPanel(new MigLayout("insets 0, fillx, wrap 1, gap 10", "[grow, fill]", ""));
        side.setOpaque(false);
        side.add(picked, "growx, wmin 0");
        side.add(tally, "growx, wmin 0");
        MigLayout layout = new MigLayout("insets 0, fill, gap 10", "", "");
        Sheet sheet = new Sheet(layout);
        sheet.add(lines);
        sheet.add(side);
        add(sentence, "growx, wmin 0");
        add(
                new Folding(sheet.scrolled(), narrow -> {
                    layout.setColumnConstraints(narrow ? "[grow, fill]" : "[grow, fill][fill]");
                    layout.setRowConstraints(narrow ? "[grow, fill][]" : "[grow, fill]");
                    layout.setComponentConstraints(lines, "cell 0 0, grow, push, wmin 0, hmin 0");
                    layout.setComponentConstraints(
                            side, narrow ? "cell 0 1, growx, wmin 0" : "cell 1 0, w 34%!, aligny top, growy 0, hmin 0");
                    if (narrow) {
                        sheet.least(30, 40);
                    } else {
                        sheet.leastAsUsual();
                    }
                    sheet.revalidate();
                }),
                "grow, wmin 0, hmin 0");
        list.addListSelectionListener(event -> showPicked());
    }

    JComponent firstFocus() {
        return list;
    }

    void toNewest() {
        list.toNewest();
    }

    void show(LineView view, Snapshot snapshot, long nowMs, Words itsWords) {
        words = itsWords;
        LinesModel model = LinesModel.of(view, snapshot, nowMs, words);
        sentence.setText(model.trouble() ? "!  " + model.sentence() : model.sentence());
        sentence.putClientProperty(
                FlatClientProperties.STYLE,
                "font: 150%; foreground: $Kilnside." + (model.trouble() ? "ember" : "text"));
        head.setText(words.text("kiln.lines.head"));
        newest.setText(list.picked().isPresent() ? words.text("kiln.lines.standing_still") : model.newest());
        empty.setVisible(model.rows().isEmpty());
        empty.setText(words.text("kiln.lines.none"));
        list.getAccessibleContext().setAccessibleName(words.text("kiln.lines.head"));
        list.show(model.rows());
        tally.show(model.tallies(), words);
        advice = model.advice();
        showPicked();
        getAccessibleContext().setAccessibleName(model.sentence() + " " + model.newest());
    }

    private void showPicked() {
        if (words != null) {
            picked.show(list.picked(), advice, words);
        }
    }
}
