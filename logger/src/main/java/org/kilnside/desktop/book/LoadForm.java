package org.kilnside.desktop.book;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Component;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.text.JTextComponent;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.firing.Outcome;
import org.kilnside.wording.Words;

/** One batch in fields. Each is saved when the keyboard leaves it, or on Enter; one that cannot be read says why. */
final class LoadForm extends JPanel {
    private static final long serialVersionUID = 1L;

    private final Map<BatchText.Field, JTextComponent> fields = new EnumMap<>(BatchText.Field.class);
    private final Map<BatchText.Field, JLabel> labels = new EnumMap<>(BatchText.Field.class);
    private final JComboBox<Outcome> outcome = new JComboBox<>(Outcome.values());
    private final JLabel outcomeLabel = Labels.quiet("");
    private final JTextArea wrong = Labels.wrapping("", "foreground: $Kilnside.ember");
    private final KeyButton done = new KeyButton();
    private final transient LoadPane.Wishes wishes;
    private transient Words words;
    private transient LoadedBatch batch;
    private boolean filling;

    LoadForm(LoadPane.Wishes wishes, Runnable close) {
        super(new MigLayout("insets 0, fill, wrap 1, gap 6, novisualpadding", "[grow, fill]", "[grow, fill][][]"));
        this.wishes = wishes;
        setOpaque(false);
        Column rows = new Column(
                new MigLayout("insets 2 2 2 8, wrap 2, gap 10 6, fillx, novisualpadding", "[][grow, fill]", ""));
        for (BatchText.Field field : BatchText.Field.values()) {
            if (field == BatchText.Field.REMARK) {
                outcome.setRenderer(new OutcomeRenderer());
                outcome.addActionListener(event -> save());
                outcomeLabel.setLabelFor(outcome);
                rows.add(outcomeLabel);
                rows.add(outcome, "wmin 0");
            }
            add(rows, field);
        }
        done.putClientProperty(FlatClientProperties.STYLE, "margin: 2,6,2,6");
        done.addActionListener(event -> close.run());
        add(rows.scrolledWords(), "grow, wmin 0, hmin 0");
        add(wrong, "growx, wmin 0");
        add(done, "growx 0");
    }

    private void add(Column rows, BatchText.Field field) {
        JTextComponent its;
        Component placed;
        if (field == BatchText.Field.REMARK) {
            JTextArea area = new JTextArea(3, 10);
            Labels.letterByLetter(area);
            area.setLineWrap(true);
            area.setWrapStyleWord(true);
            its = area;
            placed = new JScrollPane(area);
            // In a remark the tabulator key leads on, as in every other field.
            KeyRow.bindHere(area, "TAB", area::transferFocus);
            KeyRow.bindHere(area, "shift TAB", area::transferFocusBackward);
        } else {
            its = new JTextField(8);
            placed = its;
            KeyRow.bindHere(its, "ENTER", this::save);
        }
        its.addFocusListener(new FocusAdapter() {
            @Override
            public void focusLost(FocusEvent event) {
                save();
            }
        });
        JLabel label = Labels.quiet("");
        label.setLabelFor(its);
        fields.put(field, its);
        labels.put(field, label);
        rows.add(label, field == BatchText.Field.REMARK ? "aligny top" : "");
        rows.add(placed, "wmin 0");
    }

    /** The number of the batch in the form; none has 0. */
    long number() {
        return batch == null ? 0 : batch.number();
    }

    /** Puts a batch into the fields; a field in which the person is writing is left alone. */
    void show(LoadedBatch its, Words language) {
        boolean other = batch == null || its.number() != batch.number();
        words = language;
        Map<BatchText.Field, String> before = batch == null ? Map.of() : BatchText.of(batch, words);
        batch = its;
        Map<BatchText.Field, String> texts = BatchText.of(its, words);
        filling = true;
        for (BatchText.Field field : BatchText.Field.values()) {
            JTextComponent there = fields.get(field);
            String label = field.label(words);
            labels.get(field).setText(label);
            there.getAccessibleContext().setAccessibleName(label);
            boolean untouched = there.getText().strip().equals(before.getOrDefault(field, ""));
            if (other || untouched || !there.isFocusOwner()) {
                if (!there.getText().equals(texts.get(field))) {
                    there.setText(texts.get(field));
                }
            }
        }
        fields.get(BatchText.Field.MIX)
                .putClientProperty(FlatClientProperties.PLACEHOLDER_TEXT, words.text("load.mix_hint"));
        outcomeLabel.setText(words.text("load.field.outcome"));
        outcome.getAccessibleContext().setAccessibleName(words.text("load.field.outcome"));
        outcome.setSelectedItem(its.outcome());
        done.say(words.text("load.done"), "ESCAPE", words);
        filling = false;
        if (other) {
            wrong(Optional.empty());
        }
    }

    /** To the first field, its text selected, so that a name can be written at once. */
    void begin() {
        JTextComponent name = fields.get(BatchText.Field.NAME);
        name.requestFocusInWindow();
        name.selectAll();
    }

    /** Saves what the fields say; what cannot be read stays in its field, and the sentence says why. */
    void save() {
        if (filling || batch == null) {
            return;
        }
        Map<BatchText.Field, String> texts = new EnumMap<>(BatchText.Field.class);
        fields.forEach((field, component) -> texts.put(field, component.getText()));
        BatchText.Read read = BatchText.read(batch, texts, (Outcome) outcome.getSelectedItem(), words);
        wrong(read.wrong());
        if (!read.batch().equals(batch)) {
            LoadedBatch before = batch;
            batch = read.batch();
            wishes.change(before, read.batch());
        }
    }

    private void wrong(Optional<BatchText.Wrong> what) {
        fields.forEach((field, component) -> component.putClientProperty(
                FlatClientProperties.OUTLINE,
                what.isPresent() && what.get().field() == field ? FlatClientProperties.OUTLINE_ERROR : null));
        wrong.setText(what.map(BatchText.Wrong::sentence).orElse(""));
        wrong.setVisible(what.isPresent());
    }

    JTextComponent field(BatchText.Field field) {
        return fields.get(field);
    }

    private final class OutcomeRenderer extends DefaultListCellRenderer {
        private static final long serialVersionUID = 1L;

        @Override
        public Component getListCellRendererComponent(
                JList<?> list, Object value, int index, boolean selected, boolean focused) {
            // Never empty: the box would be as low as nothing.
            String said = value == null || words == null ? " " : words.named("outcome", (Outcome) value);
            return super.getListCellRendererComponent(list, said, index, selected, focused);
        }
    }
}
