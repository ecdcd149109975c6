package org.kilnside.desktop.plan;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.event.ActionEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.util.List;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.BorderFactory;
import javax.swing.DefaultListModel;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;
import javax.swing.ListCellRenderer;
import javax.swing.ListSelectionModel;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** The library. Enter, space or a click opens. */
final class ShelfPane extends Card {
    private static final long serialVersionUID = 1L;
    private final JLabel head = Labels.head("");
    private final DefaultListModel<PlanShelf.Entry> entries = new DefaultListModel<>();
    private final JList<PlanShelf.Entry> list = new JList<>(entries) {
        private static final long serialVersionUID = 1L;

        @Override
        public boolean getScrollableTracksViewportWidth() {
            return true;
        }
    };
    private transient List<PlanShelf.Entry> shown = List.of();
    private transient Words words;

    ShelfPane(Words words, Consumer<PlanShelf.Entry> open) {
        super(new BorderLayout(0, 6));
        this.words = words;
        setBorder(BorderFactory.createEmptyBorder(10, 10, 10, 6));
        list.setOpaque(false);
        list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        list.setCellRenderer(new Line());
        list.putClientProperty(FlatClientProperties.STYLE, "selectionArc: 8");
        list.addMouseListener(new MouseAdapter() {
            @Override
            public void mouseClicked(MouseEvent event) {
                chosen(open);
            }
        });
        for (String key : new String[] {"ENTER", "SPACE"}) {
            list.getInputMap(JComponent.WHEN_FOCUSED).put(KeyStroke.getKeyStroke(key), "open");
        }
        list.getActionMap().put("open", new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent event) {
                chosen(open);
            }
        });
        JScrollPane scroll = new JScrollPane(list);
        scroll.setBorder(null);
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        scroll.setHorizontalScrollBarPolicy(JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        add(head, BorderLayout.NORTH);
        add(scroll, BorderLayout.CENTER);
    }

    private void chosen(Consumer<PlanShelf.Entry> open) {
        if (list.getSelectedValue() != null) {
            open.accept(list.getSelectedValue());
        }
    }

    void show(PlansModel model, Words language) {
        words = language;
        head.setText(words.text("plans.library"));
        list.getAccessibleContext().setAccessibleName(head.getText());
        if (!shown.equals(model.keeping().plans())) {
            shown = model.keeping().plans();
            entries.clear();
            shown.forEach(entries::addElement);
        }
        if (!list.isFocusOwner()) {
            int open = -1;
            for (int i = 0; i < shown.size(); i++) {
                if (model.editor()
                        .source()
                        .shortName()
                        .equals(java.util.Optional.of(shown.get(i).shortName()))) {
                    open = i;
                }
            }
            if (open < 0) {
                list.clearSelection();
            } else {
                list.setSelectedIndex(open);
            }
        }
        list.repaint();
    }

    JComponent first() {
        return list;
    }

    /** A plan's name, and below it whose it is. */
    private final class Line implements ListCellRenderer<PlanShelf.Entry> {
        private final JPanel panel = new JPanel(new BorderLayout());
        private final JLabel title = new JLabel();
        private final JLabel whose = Labels.quiet("");

        Line() {
            panel.setBorder(BorderFactory.createEmptyBorder(4, 6, 4, 4));
            panel.add(title, BorderLayout.NORTH);
            panel.add(whose, BorderLayout.SOUTH);
        }

        @Override
        public Component getListCellRendererComponent(
                JList<? extends PlanShelf.Entry> its,
                PlanShelf.Entry entry,
                int index,
                boolean isSelected,
                boolean hasFocus) {
            panel.setOpaque(isSelected);
            panel.setBackground(Theme.colour(hasFocus ? "lookGround" : "key"));
            title.setText(entry.title());
            title.setForeground(Theme.colour("text"));
            title.setFont(Theme.font(1));
            whose.setFont(Theme.font(0.82));
            whose.setForeground(Theme.colour("quiet"));
            whose.setText(words.text(
                    entry.problem().isPresent() ? "plans.unreadable" : entry.own() ? "plans.own" : "plans.starter"));
            panel.setToolTipText(entry.problem().orElse(entry.shortName()));
            panel.getAccessibleContext().setAccessibleName(entry.title() + ", " + whose.getText());
            return panel;
        }
    }
}
