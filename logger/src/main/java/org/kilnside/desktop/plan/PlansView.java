package org.kilnside.desktop.plan;

import java.awt.BorderLayout;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Folding;
import org.kilnside.desktop.theme.KeyHints;
import org.kilnside.desktop.theme.Sheet;
import org.kilnside.wording.Words;

/** The screen: the library, the plan as a curve and as rows, and what it comes to. Only draws. */
final class PlansView extends JPanel {
    private static final long serialVersionUID = 1L;

    private final MigLayout layout = new MigLayout("insets 8, gap 8, fill", "", "");
    private final Sheet sheet = new Sheet(layout);
    private final Card rows;
    private final JScrollPane answered;
    private final ShelfPane shelf;
    private final HeadPane head;
    private final PlanChart chart;
    private final SegmentsPane segments;
    private final AnswersPane answers;
    private final KeyHints keys =
            new KeyHints("plans.keys", "F11", "LEFT/RIGHT", "UP/DOWN", "ctrl LEFT/RIGHT", "alt UP/DOWN");

    PlansView(PlansModel model, Words words, java.util.function.Consumer<PlanShelf.Entry> open) {
        super(new MigLayout("insets 0, fill", "[grow,fill]", "[grow,fill]"));
        setOpaque(false);
        shelf = new ShelfPane(words, open);
        head = new HeadPane(model);
        chart = new PlanChart(model, words);
        segments = new SegmentsPane(model);
        answers = new AnswersPane(model);
        rows = new Card(new MigLayout("insets 8 12 6 6, fill, wrap 1, gap 2", "[grow,fill]", "[grow,fill][]"));
        rows.add(scrolled(segments), "wmin 100, hmin 80");
        rows.add(keys, "wmin 0, gapright 6");
        answered = scrolled(answers);
        sheet.add(shelf);
        sheet.add(head);
        sheet.add(answered);
        sheet.add(chart);
        sheet.add(rows);
        add(new Folding(sheet.scrolled(), this::arrange), "grow, wmin 0, hmin 0");
    }

    /** Side by side where there is room; in a narrow window or with large text one below the other, to be scrolled. */
    private void arrange(boolean isNarrow) {
        if (isNarrow) {
            layout.setColumnConstraints("[grow, fill]");
            layout.setRowConstraints("[][grow 34, fill][grow 30, fill][grow 64, fill][grow 30, fill]");
            layout.setComponentConstraints(head, "cell 0 0, growx, wmin 0");
            layout.setComponentConstraints(chart, "cell 0 1, grow, wmin 0");
            layout.setComponentConstraints(rows, "cell 0 2, grow, wmin 0");
            layout.setComponentConstraints(answered, "cell 0 3, grow, wmin 0");
            layout.setComponentConstraints(shelf, "cell 0 4, grow, wmin 0");
            sheet.least(30, 88);
        } else {
            layout.setColumnConstraints("[fill, 13%:15%:18%][grow 70,fill][fill, 27%:30%:30%]");
            layout.setRowConstraints("[fill][grow 55,fill][grow 45,fill]");
            layout.setComponentConstraints(shelf, "cell 0 0, spany 3, grow, wmin 80");
            layout.setComponentConstraints(head, "cell 1 0, growx, wmin 100");
            layout.setComponentConstraints(answered, "cell 2 0, spany 3, grow, wmin 100");
            layout.setComponentConstraints(chart, "cell 1 1, grow");
            layout.setComponentConstraints(rows, "cell 1 2, grow");
            sheet.least(30, 12);
        }
        sheet.revalidate();
    }

    private static JScrollPane scrolled(JComponent what) {
        Column column = new Column(new BorderLayout());
        column.add(what, BorderLayout.CENTER);
        return column.scrolled();
    }

    void show(Words words, boolean quartz, PlansModel model) {
        shelf.show(model, words);
        head.show(words);
        segments.show(words);
        keys.show(words);
        answers.show(words);
        chart.show(words, quartz);
    }

    PlanChart chart() {
        return chart;
    }

    SegmentsPane segments() {
        return segments;
    }

    JComponent library() {
        return shelf.first();
    }
}
