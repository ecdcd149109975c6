package org.kilnside.desktop.book;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Consumer;
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
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** What happened in the firing, with its time of day; the line one stands on is marked in the chart. */
final class HappenedPane extends JPanel {
    private static final long serialVersionUID = 1L;
    private final DefaultListModel<OpenedModel.Happened> lines = new DefaultListModel<>();
    private final JList<OpenedModel.Happened> list = new JList<>(lines);
    private transient List<OpenedModel.Happened> shown = List.of();

    HappenedPane(Consumer<OptionalLong> mark) {
        super(new MigLayout("insets 0, fill", "[grow, fill]", "[grow, fill]"));
        setOpaque(false);
        list.setCellRenderer(new Row());
        list.setOpaque(false);
        list.addListSelectionListener(event -> {
            OpenedModel.Happened there = list.getSelectedValue();
            if (!event.getValueIsAdjusting()) {
                mark.accept(there == null ? OptionalLong.empty() : OptionalLong.of(there.elapsedMs()));
            }
        });
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
        add(scroll, "wmin 0, hmin 0");
    }

    void show(List<OpenedModel.Happened> happened, Words words) {
        list.getAccessibleContext().setAccessibleName(words.text("record.section.happened"));
        if (!happened.equals(shown)) {
            shown = happened;
            lines.clear();
            lines.addAll(happened);
        }
    }

    JList<OpenedModel.Happened> lines() {
        return list;
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

    private static final class Row implements ListCellRenderer<OpenedModel.Happened> {
        private final JPanel row = new JPanel(new BorderLayout(10, 0));
        private final JLabel when = Labels.quiet("");
        private final JTextArea what = Labels.wrapping("", "foreground: $Kilnside.text");

        Row() {
            row.setOpaque(false);
            row.setBorder(BorderFactory.createEmptyBorder(3, 0, 3, 8));
            JPanel top = new JPanel(new BorderLayout());
            top.setOpaque(false);
            top.add(when, BorderLayout.NORTH);
            row.add(top, BorderLayout.WEST);
            row.add(what, BorderLayout.CENTER);
        }

        @Override
        public Component getListCellRendererComponent(
                JList<? extends OpenedModel.Happened> list,
                OpenedModel.Happened line,
                int index,
                boolean selected,
                boolean focused) {
            when.setText((selected ? "▸ " : "") + line.when());
            when.setForeground(Theme.colour("quiet"));
            when.setFont(Theme.font(1));
            what.setFont(Theme.font(1));
            what.setForeground(Theme.colour(selected ? "ember" : "text"));
            what.setText(line.what());
            int indent = when.getFontMetrics(when.getFont()).stringWidth(when.getText()) + 18;
            what.setSize(Math.max(40, list.getParent().getWidth() - indent - 12), Short.MAX_VALUE);
            row.getAccessibleContext().setAccessibleName(line.when() + " " + line.what());
            return row;
        }
    }
}
