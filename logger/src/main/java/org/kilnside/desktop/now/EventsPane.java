package org.kilnside.desktop.now;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.List;
import javax.swing.BorderFactory;
import javax.swing.DefaultListModel;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.ListCellRenderer;
import javax.swing.ScrollPaneConstants;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** What happened, newest first. */
final class EventsPane extends Card {
    private static final long serialVersionUID = 1L;
    private final JLabel head = Labels.head("");
    private final DefaultListModel<NowModel.EventLine> lines = new DefaultListModel<>();
    private final JList<NowModel.EventLine> list = new JList<>(lines);
    private transient List<NowModel.EventLine> shown = List.of();

    EventsPane() {
        super(new MigLayout("insets 10 14 10 6, fill, wrap 1, gap 4", "[grow, fill]", "[][grow, fill]"));
        list.setCellRenderer(new Row());
        list.setOpaque(false);
        list.setVisibleRowCount(4);
        JScrollPane scroll = new JScrollPane(
                list, ScrollPaneConstants.VERTICAL_SCROLLBAR_AS_NEEDED, ScrollPaneConstants.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(null);
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        scroll.getViewport().addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent event) {
                measureAnew();
            }
        });
        add(head);
        add(scroll, "hmin 40, wmin 0");
    }

    void show(List<NowModel.EventLine> events, Words words) {
        head.setText(words.text("window.events"));
        list.getAccessibleContext().setAccessibleName(words.text("window.events"));
        if (!events.equals(shown)) {
            shown = events;
            lines.clear();
            lines.addAll(events);
        }
    }

    /** Rows are as high as their words at this width, which the list remembers until it is told. */
    private void measureAnew() {
        list.setFixedCellHeight(1);
        list.setFixedCellHeight(-1);
    }

    @Override
    public void updateUI() {
        super.updateUI();
        if (list != null) {
            SwingUtilities.invokeLater(this::measureAnew);
        }
    }

    /** A time and what happened then; trouble begins with a sign. */
    private static final class Row implements ListCellRenderer<NowModel.EventLine> {
        private final JPanel row = new JPanel(new BorderLayout(10, 0));
        private final JLabel when = Labels.quiet("");
        private final JTextArea what = Labels.wrapping("", "foreground: $Kilnside.text");

        Row() {
            row.setOpaque(false);
            row.setBorder(BorderFactory.createEmptyBorder(2, 0, 2, 8));
            JPanel top = new JPanel(new BorderLayout());
            top.setOpaque(false);
            top.add(when, BorderLayout.NORTH);
            row.add(top, BorderLayout.WEST);
            row.add(what, BorderLayout.CENTER);
        }

        @Override
        public Component getListCellRendererComponent(
                JList<? extends NowModel.EventLine> list,
                NowModel.EventLine line,
                int index,
                boolean selected,
                boolean focused) {
            when.setText(line.when());
            when.setForeground(Theme.colour("quiet"));
            when.setFont(Theme.font(1));
            what.setFont(Theme.font(1));
            what.setForeground(Theme.colour(selected && list.isFocusOwner() ? "ember" : "text"));
            what.setText(line.trouble() ? "! " + line.what() : line.what());
            int indent = when.getFontMetrics(when.getFont()).stringWidth(line.when()) + 18;
            what.setSize(Math.max(40, list.getParent().getWidth() - indent - 12), Short.MAX_VALUE);
            row.getAccessibleContext().setAccessibleName(line.when() + " " + line.what());
            return row;
        }
    }
}
