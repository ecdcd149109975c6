package org.kilnside.desktop.now;

import java.awt.Component;
import java.util.List;
import javax.swing.DefaultListModel;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.ListCellRenderer;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.MomentRow;
import org.kilnside.desktop.theme.WrappingList;
import org.kilnside.wording.Words;

/** What happened, newest first. */
final class EventsPane extends Card {
    private static final long serialVersionUID = 1L;
    private final JLabel head = Labels.head("");
    private final DefaultListModel<NowModel.EventLine> lines = new DefaultListModel<>();
    private final WrappingList<NowModel.EventLine> list = new WrappingList<>(lines);
    private transient List<NowModel.EventLine> shown = List.of();

    EventsPane() {
        super(new MigLayout("insets 6 14 6 6, fill, wrap 1, gap 2", "[grow, fill]", "[][grow, fill]"));
        list.setCellRenderer(new Row());
        list.setVisibleRowCount(4);
        add(head);
        add(list.scrolled(), "hmin 40, wmin 0");
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

    /** A time and what happened then; trouble begins with a sign. */
    private static final class Row implements ListCellRenderer<NowModel.EventLine> {
        private final MomentRow row = new MomentRow(2);

        @Override
        public Component getListCellRendererComponent(
                JList<? extends NowModel.EventLine> list,
                NowModel.EventLine line,
                int index,
                boolean selected,
                boolean focused) {
            String what = line.trouble() ? "! " + line.what() : line.what();
            return row.saying(line.when(), what, selected && list.isFocusOwner(), list);
        }
    }
}
