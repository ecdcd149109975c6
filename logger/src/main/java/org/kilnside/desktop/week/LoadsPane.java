package org.kilnside.desktop.week;

import java.awt.BorderLayout;
import java.awt.Component;
import java.util.List;
import javax.swing.BorderFactory;
import javax.swing.DefaultListModel;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.ListCellRenderer;
import javax.swing.ListSelectionModel;
import javax.swing.SwingConstants;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.KeyHints;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.desktop.theme.WrappingList;
import org.kilnside.wording.Words;

/** The week and its loads; the one chosen has its fields and its times beside it. Enter goes into its fields. */
final class LoadsPane extends Card {
    private static final long serialVersionUID = 1L;

    private final transient WeekModel model;
    private final DefaultListModel<WeekLines.Row> rows = new DefaultListModel<>();
    private final WrappingList<WeekLines.Row> list = new WrappingList<>(rows);
    private final KeyHints keys = new KeyHints("week.keys.loads", "UP/DOWN", "ENTER", "alt UP/DOWN");
    private transient List<WeekLines.Row> shown = List.of();
    private boolean filling;

    LoadsPane(WeekModel model, Runnable toFields) {
        super(new BorderLayout(0, 4));
        this.model = model;
        setBorder(BorderFactory.createEmptyBorder(8, 8, 6, 6));
        list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        list.setCellRenderer(new Line());
        list.addListSelectionListener(event -> {
            if (!filling && list.getSelectedIndex() >= 0) {
                model.select(list.getSelectedIndex());
            }
        });
        KeyRow.bindHere(list, "ENTER", toFields);
        KeyRow.bindHere(list, "DELETE", model.loads()::remove);
        add(list.scrolled(), BorderLayout.CENTER);
        add(keys, BorderLayout.SOUTH);
    }

    void show(WeekLines lines, Words words) {
        filling = true;
        list.getAccessibleContext().setAccessibleName(words.text("week.loads"));
        if (!shown.equals(lines.rows())) {
            shown = lines.rows();
            rows.clear();
            shown.forEach(rows::addElement);
        }
        if (list.getSelectedIndex() != model.selected()) {
            list.setSelectedIndex(model.selected());
            list.ensureIndexIsVisible(model.selected());
        }
        keys.show(words);
        filling = false;
        list.repaint();
    }

    /** Whether there is room to say what its keys do. */
    void hints(boolean shownThere) {
        keys.setVisible(shownThere);
    }

    JComponent first() {
        return list;
    }

    /** When it is lit as a number in front, its name, and below it when. */
    private static final class Line implements ListCellRenderer<WeekLines.Row> {
        private final JPanel panel = new JPanel(new BorderLayout(6, 0));
        private final JPanel both = new JPanel(new BorderLayout());
        private final JPanel top = new JPanel(new BorderLayout());
        private final JLabel number = new JLabel("", SwingConstants.CENTER);
        private final JTextArea name = Labels.wrapping("", "foreground: $Kilnside.text");
        private final JTextArea line = Labels.wrapping("", "foreground: $Kilnside.quiet");

        Line() {
            panel.setBorder(BorderFactory.createEmptyBorder(4, 6, 4, 4));
            both.setOpaque(false);
            both.add(name, BorderLayout.NORTH);
            both.add(line, BorderLayout.CENTER);
            top.setOpaque(false);
            top.add(number, BorderLayout.NORTH);
            panel.add(top, BorderLayout.WEST);
            panel.add(both, BorderLayout.CENTER);
        }

        @Override
        public Component getListCellRendererComponent(
                JList<? extends WeekLines.Row> its,
                WeekLines.Row row,
                int index,
                boolean isSelected,
                boolean hasFocus) {
            panel.setOpaque(isSelected);
            panel.setBackground(Theme.colour(hasFocus ? "lookGround" : "key"));
            number.setFont(Theme.font(1.15));
            number.setForeground(Theme.colour("ember"));
            number.setText(row.number().isEmpty() ? index == 0 ? "" : "–" : row.number());
            int wide = index == 0 ? 0 : number.getFontMetrics(number.getFont()).stringWidth("0") + 4;
            number.setPreferredSize(new java.awt.Dimension(
                    wide, number.getFontMetrics(number.getFont()).getHeight()));
            name.setFont(index == 0 ? Theme.font(1).deriveFont(java.awt.Font.BOLD) : Theme.font(1));
            name.setForeground(Theme.colour(isSelected && hasFocus ? "lookText" : "text"));
            line.setFont(Theme.font(0.88));
            line.setForeground(Theme.colour(isSelected && hasFocus ? "lookText" : "quiet"));
            int width = Math.max(40, its.getParent().getWidth() - wide - 18);
            name.setSize(width, Short.MAX_VALUE);
            name.setText(row.name());
            line.setSize(width, Short.MAX_VALUE);
            line.setText(row.line());
            panel.getAccessibleContext().setAccessibleName(row.number() + " " + row.name() + ", " + row.line());
            return panel;
        }
    }
}
