package org.kilnside.desktop.kiln;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.TwoParts;
import org.kilnside.files.KilnSetting;
import org.kilnside.firing.ConeSeries;
import org.kilnside.wording.Words;

/** What is known of the kiln, field by field; a change is written when the field is left or Enter is pressed. */
final class KilnView extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient KilnForm form;
    private final JComboBox<String> kilns = new JComboBox<>();
    private final JLabel kilnLabel = Labels.head("");
    private final JTextArea hint = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final JTextArea trouble = Labels.wrapping("", "font: bold; foreground: $Kilnside.ember");
    private final Card elements =
            new Card(new MigLayout("insets 10 14 12 14, fillx, wrap 1, gap 4", "[grow, fill]", ""));
    private final JLabel elementsHead = Labels.head("");
    private final JTextArea elementsText = Labels.wrapping("", "foreground: $Kilnside.text");
    private final JTextArea caution = Labels.wrapping("", "foreground: $Kilnside.lookText");
    private final transient Map<KilnSetting, Row> rows = new EnumMap<>(KilnSetting.class);
    private transient Words words;
    private boolean looked;
    private boolean filling;

    /** A field with its label and what is said below it. */
    private record Row(JLabel label, JTextField text, JComboBox<String> choice, JTextArea below) {
        JComponent input(boolean typed) {
            return typed ? text : choice;
        }
    }

    KilnView(KilnForm form) {
        super(new MigLayout("insets 0, fill", "[grow, fill]", "[grow, fill]"));
        this.form = form;
        form.whenChanged(this::redraw);
        setOpaque(false);
        Column column = new Column(
                new MigLayout("insets 8 4 8 14, fillx, wrap 2, gap 14 5, hidemode 3", "[pref!][grow, fill]", ""));
        kilnLabel.setLabelFor(kilns);
        column.add(kilnLabel);
        column.add(kilns, "growx, wmin 80");
        column.add(trouble, "span 2, growx, wmin 0");
        for (KilnSetting setting : KilnSetting.values()) {
            Row row = row(setting);
            rows.put(setting, row);
            column.add(row.label);
            boolean typed = isTyped(setting);
            column.add(row.input(typed), "growx, wmin 80");
            column.add(row.below, "skip 1, growx, wmin 0");
        }
        Column side =
                new Column(new MigLayout("insets 8 0 8 0, fillx, wrap 1, gap 10, hidemode 3", "[grow, fill]", ""));
        Card minding = new Card(new MigLayout("insets 10 14 12 14, fillx", "[grow, fill]", ""));
        minding.ground("lookGround");
        minding.add(caution, "growx, wmin 0");
        side.add(minding, "growx, wmin 0");
        side.add(hint, "growx, wmin 0");
        elements.add(elementsHead);
        elements.add(elementsText, "growx, wmin 0");
        side.add(elements, "growx, wmin 0");
        add(new TwoParts(column.scrolled(), side.scrolled(), 36), "grow, wmin 0, hmin 0");
        kilns.addActionListener(event -> {
            if (!filling && kilns.getSelectedItem() != null) {
                form.open((String) kilns.getSelectedItem(), words);
            }
        });
    }

    private static boolean isTyped(KilnSetting setting) {
        return switch (setting) {
            case WALL, OPENING, SERIES, FROM_MAKER -> false;
            default -> true;
        };
    }

    private Row row(KilnSetting setting) {
        Row row = new Row(
                Labels.quiet(""),
                new JTextField(),
                new JComboBox<>(),
                Labels.wrapping("", "foreground: $Kilnside.quiet"));
        row.label.setLabelFor(row.input(isTyped(setting)));
        row.text.addFocusListener(new FocusAdapter() {
            @Override
            public void focusLost(FocusEvent event) {
                typed(setting);
            }
        });
        row.text.addActionListener(event -> typed(setting));
        row.choice.addActionListener(event -> chosen(setting));
        return row;
    }

    private void typed(KilnSetting setting) {
        if (!filling && words != null) {
            form.change(setting, rows.get(setting).text.getText(), words);
        }
    }

    private void chosen(KilnSetting setting) {
        JComboBox<String> choice = rows.get(setting).choice;
        if (!filling && words != null && choice.getSelectedIndex() >= 0) {
            form.fields(words).stream()
                    .filter(field -> field.setting() == setting)
                    .findFirst()
                    .ifPresent(field -> form.change(setting, field.options().get(choice.getSelectedIndex()), words));
        }
    }

    JComponent firstFocus() {
        return rows.get(KilnSetting.NAME).text;
    }

    /** Whether what is being typed is in the file; else it is written, and what waits for it is run then. */
    boolean isSettled(Runnable later) {
        rows.forEach((setting, row) -> {
            if (row.text.isFocusOwner()) {
                typed(setting);
            }
        });
        return form.isSettled(later);
    }

    void undo() {
        if (words != null) {
            form.undo(words);
        }
    }

    void show(Moment moment) {
        boolean other = words != moment.words();
        words = moment.words();
        if (!looked) {
            looked = true;
            form.look(moment.snapshot().kiln(), words);
        }
        if (other) {
            redraw();
        }
    }

    private void redraw() {
        if (words == null) {
            return;
        }
        filling = true;
        kilnLabel.setText(words.text("kiln.form.kiln"));
        hint.setText(form.file().isEmpty() ? "" : words.text("kiln.form.hint", form.file()));
        caution.setText("!  " + words.text("caution.mains.text") + " " + words.text("caution.cutout.text"));
        List<String> strength = form.elements(words);
        elements.setVisible(!strength.isEmpty());
        elementsHead.setText(words.text("elements.head"));
        elementsText.setText(String.join("\n", strength));
        trouble.setVisible(form.trouble().isPresent());
        trouble.setText(form.trouble().map(its -> "!  " + its).orElse(""));
        if (kilns.getItemCount() != form.kilns().size()) {
            kilns.removeAllItems();
            form.kilns().forEach(kilns::addItem);
        }
        form.chosen().ifPresent(kilns::setSelectedItem);
        form.fields(words).forEach(this::fill);
        filling = false;
        revalidate();
        repaint();
    }

    private void fill(KilnForm.Field field) {
        Row row = rows.get(field.setting());
        row.label.setText(field.label());
        boolean wrong = !field.problem().isEmpty();
        row.below.setText(wrong ? "!  " + field.problem() : field.remark());
        row.below.setVisible(wrong || !field.remark().isEmpty());
        row.below.putClientProperty(
                FlatClientProperties.STYLE,
                wrong ? "font: bold; foreground: $Kilnside.ember" : "foreground: $Kilnside.quiet");
        if (field.options().isEmpty()) {
            // What a person is typing just now is not taken away; when it is saved the field has it as the file has.
            if (!row.text.getText().equals(field.text())) {
                row.text.setText(field.text());
                // Its beginning is what is read, where it is longer than its place.
                row.text.setCaretPosition(0);
            }
            row.text.putClientProperty(FlatClientProperties.OUTLINE, wrong ? FlatClientProperties.OUTLINE_ERROR : null);
            row.text.getAccessibleContext().setAccessibleDescription(row.below.getText());
        } else {
            row.choice.removeAllItems();
            field.options().forEach(option -> row.choice.addItem(spoken(field.setting(), option)));
            row.choice.setSelectedIndex(Math.max(0, field.options().indexOf(field.text())));
        }
    }

    /** A choice of the file in the person's language. */
    private String spoken(KilnSetting setting, String option) {
        if (option.isEmpty()) {
            return words.text("kilns.not_said");
        }
        if (setting == KilnSetting.SERIES) {
            return words.named("noted.series", ConeSeries.ofWord(option).orElseThrow());
        }
        return switch (option) {
            case "brick" -> words.text("kiln.form.brick");
            case "fibre" -> words.text("kiln.form.fibre");
            case "layered" -> words.text("kiln.form.layered");
            case "lid" -> words.text("kiln.form.lid");
            case "door" -> words.text("kiln.form.door");
            case "yes" -> words.text("kiln.form.yes");
            case "no" -> words.text("kiln.form.no");
            default -> throw new IllegalArgumentException(setting + " has no choice " + option);
        };
    }
}
