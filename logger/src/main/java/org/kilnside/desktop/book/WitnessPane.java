package org.kilnside.desktop.book;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Component;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javax.swing.BorderFactory;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.ListSelectionModel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.book.NotedCone;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.KeyHints;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.firing.ConeSeries;
import org.kilnside.wording.Words;

/** What the witness cones showed, a pack a shelf, written in one line. */
final class WitnessPane extends JPanel {
    private static final long serialVersionUID = 1L;

    private final DefaultListModel<NotedCone> cones = new DefaultListModel<>();
    private final JList<NotedCone> list = new JList<>(cones);
    private final JTextArea explained = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final JTextArea wrong = Labels.wrapping("", "foreground: $Kilnside.ember");
    private final KeyHints keys = new KeyHints("noted.keys", "ENTER", "DELETE");
    private final JTextField pack = new JTextField();
    private final JComboBox<ConeSeries> series = new JComboBox<>(ConeSeries.values());
    private final transient Consumer<List<NotedCone>> add;
    private transient OpenedFiring firing;
    private transient Words words;

    WitnessPane(Words words, Consumer<List<NotedCone>> add, Consumer<NotedCone> strikeOut) {
        super(new MigLayout(
                "insets 0, fill, wrap 1, gap 6, hidemode 3, novisualpadding",
                "[grow, fill]",
                "[][grow, fill][][][][]"));
        this.words = words;
        this.add = add;
        setOpaque(false);
        list.setOpaque(false);
        list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        list.setCellRenderer(new Row());
        KeyRow.bindHere(
                list,
                "DELETE",
                () -> Optional.ofNullable(list.getSelectedValue()).ifPresent(strikeOut));
        JScrollPane scroll = new JScrollPane(list);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        series.setRenderer(new SeriesRenderer());
        KeyRow.bindHere(pack, "ENTER", this::take);
        wrong.setVisible(false);
        add(explained, "cell 0 0, growx, wmin 0");
        add(scroll, "cell 0 1, grow, wmin 0, hmin 40");
        add(pack, "cell 0 2, growx, wmin 0");
        add(series, "cell 0 3, growx, wmin 0");
        add(keys, "cell 0 4, growx, wmin 0");
        add(wrong, "cell 0 5, growx, wmin 0");
    }

    void show(OpenedFiring its, Words language) {
        if (firing == null || firing.number() != its.number()) {
            series.setSelectedItem(its.series());
        }
        firing = its;
        words = language;
        explained.setText(words.text("noted.explained"));
        keys.show(words);
        pack.putClientProperty(FlatClientProperties.PLACEHOLDER_TEXT, words.text("noted.hint"));
        pack.getAccessibleContext().setAccessibleName(words.text("record.section.witness"));
        pack.getAccessibleContext().setAccessibleDescription(words.text("noted.explained"));
        series.getAccessibleContext().setAccessibleName(words.text("noted.series"));
        series.repaint();
        list.getAccessibleContext().setAccessibleName(words.text("record.section.witness"));
        List<NotedCone> noted = its.record().cones();
        List<NotedCone> shown = new ArrayList<>();
        for (int i = 0; i < cones.size(); i++) {
            shown.add(cones.get(i));
        }
        if (!noted.equals(shown)) {
            cones.clear();
            cones.addAll(noted);
        }
        list.repaint();
    }

    private void take() {
        String written = pack.getText();
        if (written.isBlank() || firing == null) {
            return;
        }
        Optional<List<NotedCone>> read = written.length() > BatchText.LONGEST
                ? Optional.empty()
                : WitnessText.read(
                        written,
                        (ConeSeries) series.getSelectedItem(),
                        firing,
                        words.preferences().zone());
        wrong.setVisible(read.isEmpty());
        pack.putClientProperty(
                FlatClientProperties.OUTLINE, read.isEmpty() ? FlatClientProperties.OUTLINE_ERROR : null);
        if (read.isEmpty()) {
            String shown = written.length() <= 60 ? written : written.substring(0, 60) + "…";
            wrong.setText(words.text("noted.expected", shown));
        } else {
            pack.setText("");
            add.accept(read.get());
        }
    }

    JTextField pack() {
        return pack;
    }

    private final class Row extends DefaultListCellRenderer {
        private static final long serialVersionUID = 1L;

        Row() {
            putClientProperty("html.disable", true);
        }

        @Override
        public Component getListCellRendererComponent(
                JList<?> its, Object value, int index, boolean selected, boolean focused) {
            NotedCone cone = (NotedCone) value;
            boolean first = index == 0
                    || !its.getModel().getElementAt(index - 1).equals(value)
                            && !((NotedCone) its.getModel().getElementAt(index - 1))
                                    .shelf()
                                    .equals(cone.shelf());
            String shelf = cone.shelf().isBlank() ? words.text("noted.no_shelf") : cone.shelf();
            JLabel label = (JLabel) super.getListCellRendererComponent(
                    its,
                    (first ? shelf + ":  " : "      ") + WitnessText.of(cone, firing, words),
                    index,
                    false,
                    focused);
            label.setOpaque(false);
            label.setForeground(Theme.colour(selected && its.isFocusOwner() ? "ember" : "text"));
            label.setBorder(BorderFactory.createEmptyBorder(3, 4, 3, 4));
            label.setText((selected ? "▸ " : "") + label.getText());
            return label;
        }
    }

    private final class SeriesRenderer extends DefaultListCellRenderer {
        private static final long serialVersionUID = 1L;

        @Override
        public Component getListCellRendererComponent(
                JList<?> its, Object value, int index, boolean selected, boolean focused) {
            return super.getListCellRendererComponent(
                    its,
                    value == null ? "" : words.named("noted.series", (ConeSeries) value),
                    index,
                    selected,
                    focused);
        }
    }
}
