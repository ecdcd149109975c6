package org.kilnside.desktop.book;

import java.awt.Component;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Consumer;
import javax.swing.DefaultListModel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.ListCellRenderer;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.MomentRow;
import org.kilnside.desktop.theme.WrappingList;
import org.kilnside.wording.Words;

/** What happened in the firing, with its time of day; the line one stands on is marked in the chart. */
final class HappenedPane extends JPanel {
    private static final long serialVersionUID = 1L;
    private final DefaultListModel<OpenedModel.Happened> lines = new DefaultListModel<>();
    private final WrappingList<OpenedModel.Happened> list = new WrappingList<>(lines);
    private transient List<OpenedModel.Happened> shown = List.of();

    HappenedPane(Consumer<OptionalLong> mark) {
        super(new MigLayout("insets 0, fill", "[grow, fill]", "[grow, fill]"));
        setOpaque(false);
        list.setCellRenderer(new Row());
        list.addListSelectionListener(event -> {
            OpenedModel.Happened there = list.getSelectedValue();
            if (!event.getValueIsAdjusting()) {
                mark.accept(there == null ? OptionalLong.empty() : OptionalLong.of(there.elapsedMs()));
            }
        });
        add(list.scrolled(), "wmin 0, hmin 0");
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

    private static final class Row implements ListCellRenderer<OpenedModel.Happened> {
        private final MomentRow row = new MomentRow(3);

        @Override
        public Component getListCellRendererComponent(
                JList<? extends OpenedModel.Happened> list,
                OpenedModel.Happened line,
                int index,
                boolean selected,
                boolean focused) {
            return row.saying((selected ? "▸ " : "") + line.when(), line.what(), selected, list);
        }
    }
}
