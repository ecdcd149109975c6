package org.kilnside.desktop.plan;

import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.ScrollPaneConstants;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.wording.Words;

/** The screen: the library, the plan as a curve and as rows, and what it comes to. Only draws. */
final class PlansView extends JPanel {
    private static final long serialVersionUID = 1L;
    private final ShelfPane shelf;
    private final HeadPane head;
    private final PlanChart chart;
    private final SegmentsPane segments;
    private final AnswersPane answers;

    PlansView(PlansModel model, Words words, java.util.function.Consumer<PlanShelf.Entry> open) {
        super(new MigLayout("insets 0, fill", "[grow,fill]", "[grow,fill]"));
        setOpaque(false);
        shelf = new ShelfPane(words, open);
        head = new HeadPane(model);
        chart = new PlanChart(model, words);
        segments = new SegmentsPane(model);
        answers = new AnswersPane(model);
        Card rows = new Card(new MigLayout("insets 8 12 8 6, fill", "[grow,fill]", "[grow,fill]"));
        rows.add(scrolled(segments), "wmin 100, hmin 80");
        JPanel sheet = new JPanel(new MigLayout(
                "insets 8, gap 8, fill",
                "[fill, 13%:15%:18%][grow 70,fill][fill, 27%:30%:30%]",
                "[fill][grow 55,fill][grow 45,fill]"));
        sheet.add(shelf, "spany 3, grow, wmin 80");
        sheet.add(head, "growx, wmin 100");
        sheet.add(scrolled(answers), "spany 3, grow, wmin 100, wrap");
        sheet.add(chart, "grow, wrap");
        sheet.add(rows, "grow");
        sheet.setOpaque(false);
        add(sheet, "wmin 100, hmin 100");
    }

    private static JScrollPane scrolled(JComponent what) {
        Upright upright = new Upright(what);
        JScrollPane scroll = new JScrollPane(upright);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        scroll.setHorizontalScrollBarPolicy(ScrollPaneConstants.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.getVerticalScrollBar().setUnitIncrement(20);
        return scroll;
    }

    void show(Words words, boolean quartz, PlansModel model) {
        shelf.show(model, words);
        head.show(words);
        segments.show(words);
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
