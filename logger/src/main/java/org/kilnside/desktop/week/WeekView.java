package org.kilnside.desktop.week;

import java.awt.BorderLayout;
import java.awt.CardLayout;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Folding;
import org.kilnside.desktop.theme.FrontCard;
import org.kilnside.desktop.theme.KeyHints;
import org.kilnside.desktop.theme.KeyName;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Sheet;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** The screen: what it comes to, the days ahead, and below them the loads, their fields and their times. Only draws. */
final class WeekView extends JPanel {
    private static final long serialVersionUID = 1L;

    /** From this height on, in lines of text, there is room for the hints below the drawing. */
    private static final int TALL = 40;

    /** How high the lower row is at least, in lines of text, where there is room. */
    private static final int LOW = 9;

    private final CardLayout cards = new CardLayout();
    private final JPanel stage = new FrontCard(cards);
    private final MigLayout layout = new MigLayout("insets 8, gap 8, fill, hidemode 3", "", "");
    private final Sheet sheet = new Sheet(layout);
    private final Card head =
            new Card(new MigLayout("insets 8 14 8 14, fillx, wrap 1, gap 2, hidemode 3", "[grow, fill]", ""));
    private final JTextArea sentence = Labels.wrapping("", "font: bold 150%; foreground: $Kilnside.text");
    private final JTextArea more = Labels.wrapping("", "font: 108%; foreground: $Kilnside.text");
    private final JTextArea next = Labels.wrapping("", "font: bold 118%; foreground: $Kilnside.ember");
    private final JTextArea notice = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final Card days = new Card(
            new MigLayout("insets 4 8 2 8, fill, wrap 1, gap 0, hidemode 3", "[grow, fill]", "[grow, fill][]"));
    private final DaysCanvas canvas;
    private final KeyHints keys =
            new KeyHints("week.keys.days", "F11", "LEFT/RIGHT", "+", "-", "ctrl LEFT/RIGHT", "HOME");
    private final LoadsPane loads;
    private final FieldsPane fields;
    private final JComponent fieldsCard;
    private final DetailPane detail = new DetailPane();
    private final JComponent detailCard;
    private final JTextArea foot = Labels.wrapping("", "font: 92%; foreground: $Kilnside.quiet");
    private final BeginPane begin;

    WeekView(WeekModel model) {
        super(new BorderLayout());
        setOpaque(false);
        canvas = new DaysCanvas(model);
        fields = new FieldsPane(model);
        loads = new LoadsPane(model, fields::begin);
        begin = new BeginPane(model);
        head.add(sentence, "growx, wmin 0");
        head.add(next, "growx, wmin 0");
        head.add(more, "growx, wmin 0");
        head.add(notice, "growx, wmin 0");
        days.add(canvas, "grow, wmin 0");
        days.add(keys, "growx, wmin 0");
        fieldsCard = card(scrolled(fields));
        detailCard = card(detail);
        sheet.add(head);
        sheet.add(days);
        sheet.add(loads);
        sheet.add(fieldsCard);
        sheet.add(detailCard);
        sheet.add(foot);
        stage.add(new Folding(sheet.scrolled(), this::arrange), "week");
        stage.add(begin, "begin");
        add(stage, BorderLayout.CENTER);
    }

    private static JComponent card(JComponent what) {
        Card card = new Card(new BorderLayout());
        card.add(what, BorderLayout.CENTER);
        return card;
    }

    private static JScrollPane scrolled(JComponent what) {
        Column column = new Column(new BorderLayout());
        column.add(what, BorderLayout.CENTER);
        return column.scrolledWords();
    }

    private void arrange(boolean narrow) {
        if (narrow) {
            layout.setColumnConstraints("[grow, fill]");
            layout.setRowConstraints("[][grow 34, fill][grow 20, fill][grow 30, fill][grow 30, fill][]");
            layout.setComponentConstraints(head, "cell 0 0, growx, wmin 0");
            layout.setComponentConstraints(days, "cell 0 1, grow, wmin 0");
            layout.setComponentConstraints(loads, "cell 0 2, grow, wmin 0");
            layout.setComponentConstraints(fieldsCard, "cell 0 3, grow, wmin 0");
            layout.setComponentConstraints(detailCard, "cell 0 4, grow, wmin 0");
            layout.setComponentConstraints(foot, "cell 0 5, growx, wmin 0, gapleft 8");
            sheet.least(30, 92);
        } else {
            // They scroll: never higher than they have to be, so that the drawing has its place.
            String low = ", grow, wmin 0, h 0:" + getFontMetrics(Theme.font(1)).getHeight() * LOW + "px:";
            layout.setColumnConstraints("[fill, 20%][grow, fill][fill, 33%]");
            layout.setRowConstraints("[][grow 50, fill][grow 50, fill][]");
            layout.setComponentConstraints(head, "cell 0 0, spanx 3, growx, wmin 0");
            layout.setComponentConstraints(days, "cell 0 1, spanx 3, grow, wmin 0");
            layout.setComponentConstraints(loads, "cell 0 2" + low);
            layout.setComponentConstraints(fieldsCard, "cell 1 2" + low);
            layout.setComponentConstraints(detailCard, "cell 2 2" + low);
            layout.setComponentConstraints(foot, "cell 0 3, spanx 3, growx, wmin 0, gapleft 8, gapright 8");
            sheet.least(30, 26);
        }
        sheet.revalidate();
    }

    void show(WeekModel model, Words words) {
        boolean isOpen = model.isOpen();
        cards.show(stage, isOpen ? "week" : "begin");
        if (!isOpen) {
            begin.show(model, words);
            return;
        }
        WeekLines lines = WeekLines.of(model, words);
        say(sentence, lines.sentence());
        say(next, lines.next());
        say(more, lines.more().stream().collect(Collectors.joining(" ")));
        say(notice, model.notice().map(its -> its.text(words)).orElse(""));
        notice.setForeground(
                Theme.colour(model.notice().filter(WeekModel.Notice::isTrouble).isPresent() ? "ember" : "quiet"));
        head.ground(lines.isTrouble() ? "lookGround" : "card");
        String ink = lines.isTrouble() ? "lookText" : "text";
        sentence.setForeground(Theme.colour(ink));
        next.setForeground(Theme.colour(lines.isTrouble() ? ink : "ember"));
        more.setForeground(Theme.colour(ink));
        if (lines.isTrouble()) {
            notice.setForeground(Theme.colour("lookText"));
        }
        canvas.show(words);
        canvas.getAccessibleContext()
                .setAccessibleDescription(
                        lines.detail().name() + ": " + lines.detail().light());
        keys.show(words);
        // Where it is low the drawing needs the place; its key stands in the row below.
        boolean isTall = getHeight() > getFontMetrics(Theme.font(1)).getHeight() * TALL;
        keys.setVisible(isTall);
        loads.hints(isTall);
        loads.show(lines, words);
        fields.show(words);
        detail.show(lines.detail(), words);
        List<String> last = new ArrayList<>(lines.foot());
        last.add(words.text("week.caution_short", KeyName.of("ctrl E", words)));
        say(foot, String.join(" ", last));
    }

    private static void say(JTextArea area, String text) {
        area.setVisible(!text.isEmpty());
        if (!text.equals(area.getName())) {
            area.setName(text);
            area.setText(text);
        }
    }

    DaysCanvas canvas() {
        return canvas;
    }

    FieldsPane fields() {
        return fields;
    }

    JComponent listOfLoads() {
        return loads.first();
    }

    JComponent begins() {
        return begin.first();
    }
}
