package org.kilnside.desktop.week;

import java.awt.Graphics;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.util.ArrayList;
import java.util.List;
import javax.swing.BorderFactory;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** What is chosen, in sentences: a firing in the order of the clock, or the cautions and costs of all. Scrolled by the arrow keys. */
final class DetailPane extends JPanel {
    private static final long serialVersionUID = 1L;

    private final Column column =
            new Column(new MigLayout("insets 10 14 10 14, fillx, wrap 1, gap 5, hidemode 3", "[grow, fill]", ""));
    private final JTextArea name = Labels.wrapping("", "font: bold; foreground: $Kilnside.quiet");
    private final JTextArea plan = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final JTextArea light = Labels.wrapping("", "font: bold 118%; foreground: $Kilnside.text");
    private final JPanel lines = new JPanel(new MigLayout("insets 0, fillx, wrap 1, gap 5", "[grow, fill]", ""));
    private final JScrollPane scroll = column.scrolledWords();
    private transient WeekLines.Detail shown;

    DetailPane() {
        super(new MigLayout("insets 2, fill", "[grow, fill]", "[grow, fill]"));
        setOpaque(false);
        lines.setOpaque(false);
        column.add(name, "growx, wmin 0");
        column.add(plan, "growx, wmin 0");
        column.add(light, "growx, wmin 0");
        column.add(lines, "growx, wmin 0");
        column.setFocusable(true);
        column.addFocusListener(new FocusAdapter() {
            @Override
            public void focusGained(FocusEvent event) {
                repaint();
            }

            @Override
            public void focusLost(FocusEvent event) {
                repaint();
            }
        });
        add(scroll, "grow, wmin 0, hmin 0");
    }

    void show(WeekLines.Detail its, Words words) {
        column.getAccessibleContext().setAccessibleName(words.text("week.detail"));
        if (its.equals(shown)) {
            return;
        }
        boolean other = shown == null || !shown.name().equals(its.name());
        shown = its;
        put(name, its.name());
        put(plan, its.plan());
        put(light, its.light());
        lines.removeAll();
        List<JTextArea> all = new ArrayList<>();
        its.lines().forEach(line -> all.add(Labels.wrapping(line, "foreground: $Kilnside.text")));
        all.forEach(area -> lines.add(area, "growx, wmin 0"));
        for (String warning : its.warnings()) {
            Card card = new Card(new MigLayout("insets 4 8 4 8, fillx", "[grow, fill]", ""));
            card.ground("lookGround");
            card.add(Labels.wrapping("!  " + warning, "foreground: $Kilnside.lookText"), "growx, wmin 0");
            lines.add(card, "growx, wmin 0");
        }
        lines.setBorder(BorderFactory.createEmptyBorder());
        column.revalidate();
        if (other) {
            javax.swing.SwingUtilities.invokeLater(() -> scroll.getViewport().setViewPosition(new java.awt.Point()));
        }
        repaint();
    }

    private static void put(JTextArea area, String text) {
        area.setText(text);
        area.setVisible(!text.isEmpty());
    }

    @Override
    protected void paintChildren(Graphics graphics) {
        super.paintChildren(graphics);
        if (column.isFocusOwner()) {
            graphics.setColor(Theme.colour("ember"));
            graphics.drawRect(0, 0, getWidth() - 1, getHeight() - 1);
        }
    }
}
