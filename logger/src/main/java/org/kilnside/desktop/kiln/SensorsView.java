package org.kilnside.desktop.kiln;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Component;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.kiln.SensorForm.Field;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.TwoParts;
import org.kilnside.wording.Words;

/** The kiln's sensors: the list at the left, what can be noted of them at the right. */
final class SensorsView extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient SensorsModel model;
    private final transient SensorList list;
    private final JTextArea head = Labels.wrapping("", "font: bold; foreground: $Kilnside.quiet");
    private final JTextArea none = Labels.wrapping("", "font: 115%; foreground: $Kilnside.text");
    private final JTextArea said = Labels.wrapping("", "font: bold; foreground: $Kilnside.quiet");
    private final JTextArea explained = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final Card deeds =
            new Card(new MigLayout("insets 10 14 12 14, fillx, wrap 1, gap 4, novisualpadding", "[grow, fill]", ""));
    private final Card card = new Card(
            new MigLayout("insets 12 14 14 14, fillx, wrap 2, gap 10 4, hidemode 3", "[pref!][grow, fill]", ""));
    private final JTextArea title = Labels.wrapping("", "font: 140%; foreground: $Kilnside.text");
    private final Map<Deed, KeyButton> buttons = new EnumMap<>(Deed.class);
    private final Map<Field, Row> rows = new EnumMap<>(Field.class);
    private final KeyButton note = new KeyButton();
    private final KeyButton leave = new KeyButton();
    private transient Words words;
    private transient Optional<SensorForm> shown = Optional.empty();
    private boolean filling;

    /** What can be done here, with its key. */
    private enum Deed {
        FIT("ctrl N", "sensors.do.fit"),
        MOVE("ctrl M", "sensors.do.move"),
        COMPARE("ctrl R", "sensors.do.compare"),
        MEND("ctrl E", "sensors.do.mend"),
        STRIKE("DELETE", "sensors.do.strike");

        private final String key;
        private final String text;

        Deed(String key, String text) {
            this.key = key;
            this.text = text;
        }
    }

    /** A field with its label and what is wrong with it. */
    private record Row(JLabel label, JTextField text, JComboBox<String> choice, JTextArea below) {
        JComponent input(Field field) {
            return SensorForm.options(field).isEmpty() ? text : choice;
        }
    }

    SensorsView(SensorsModel model) {
        super(new MigLayout("insets 0, fill", "[grow, fill]", "[grow, fill]"));
        this.model = model;
        setOpaque(false);
        list = new SensorList(model::choose, () -> run(Deed.MEND), () -> run(Deed.STRIKE));
        JPanel left = new JPanel(
                new MigLayout("insets 8 4 4 4, fill, wrap 1, gap 4, hidemode 3", "[grow, fill]", "[][][grow, fill]"));
        left.setOpaque(false);
        left.add(head, "cell 0 0, growx, wmin 0");
        left.add(none, "cell 0 1, growx, wmin 0");
        left.add(list.scrolled(), "cell 0 2, grow, wmin 0, hmin 0");
        Column side =
                new Column(new MigLayout("insets 8 0 8 0, fillx, wrap 1, gap 10, hidemode 3", "[grow, fill]", ""));
        for (Deed deed : Deed.values()) {
            KeyButton button = new KeyButton();
            button.putClientProperty(FlatClientProperties.STYLE, "margin: 2,6,2,6");
            button.addActionListener(event -> run(deed));
            buttons.put(deed, button);
            deeds.add(button, "growx, wmin 0");
            if (deed != Deed.STRIKE) {
                KeyRow.bind(this, deed.key, () -> run(deed));
            }
        }
        card.add(title, "span 2, growx, wmin 0, gapbottom 4");
        for (Field field : Field.values()) {
            Row row = row(field);
            rows.put(field, row);
            card.add(row.label);
            card.add(row.input(field), "growx, wmin 60, hmin pref");
            card.add(row.below, "skip 1, growx, wmin 0");
        }
        note.addActionListener(event -> take());
        leave.addActionListener(event -> leave());
        card.add(note, "span 2, split 2, growx, gaptop 6");
        card.add(leave, "growx");
        KeyRow.bind(card, "ENTER", this::take);
        KeyRow.bind(card, "ESCAPE", this::leave);
        side.add(said, "growx, wmin 0");
        side.add(card, "growx, wmin 0");
        side.add(deeds, "growx, wmin 0");
        side.add(explained, "growx, wmin 0");
        add(new TwoParts(left, side.scrolled(), 46), "grow, wmin 0, hmin 0");
        model.whenChanged(this::redraw);
    }

    private Row row(Field field) {
        Row row = new Row(
                Labels.quiet(""),
                new JTextField(),
                new JComboBox<>(),
                Labels.wrapping("", "font: bold; foreground: $Kilnside.ember"));
        row.label.setLabelFor(row.input(field));
        SensorForm.options(field).forEach(row.choice::addItem);
        row.choice.setRenderer(new Spoken(field));
        row.choice.addActionListener(event -> typed(field, (String) row.choice.getSelectedItem()));
        row.text.getDocument().addDocumentListener(new DocumentListener() {
            @Override
            public void insertUpdate(DocumentEvent event) {
                typed(field, row.text.getText());
            }

            @Override
            public void removeUpdate(DocumentEvent event) {
                typed(field, row.text.getText());
            }

            @Override
            public void changedUpdate(DocumentEvent event) {
                // Plain text has no attributes that could change.
            }
        });
        return row;
    }

    private void typed(Field field, String text) {
        if (!filling && text != null) {
            model.form().filter(form -> !form.text(field).equals(text)).ifPresent(form -> {
                form.type(field, text);
                if (field == Field.AMPLIFIER) {
                    redraw();
                }
            });
        }
    }

    private void run(Deed deed) {
        if (words == null) {
            return;
        }
        switch (deed) {
            case FIT -> model.fit(words);
            case MOVE -> model.move(words);
            case COMPARE -> model.compare(words);
            case MEND -> model.mend(words);
            case STRIKE -> model.strike(words);
        }
    }

    void undo() {
        if (words != null) {
            model.undo(words);
        }
    }

    private void take() {
        take(() -> {});
    }

    private void take(Runnable later) {
        if (words != null) {
            model.note(words, later);
            // To the first that is wrong, so that it can be mended.
            model.form()
                    .ifPresent(form -> form.deed().fields().stream()
                            .filter(field -> form.problem(field).isPresent())
                            .findFirst()
                            .ifPresent(field -> rows.get(field).input(field).requestFocusInWindow()));
        }
    }

    private void leave() {
        model.leaveForm();
    }

    boolean isHalfWritten() {
        return model.isHalfWritten();
    }

    /**
     * Whether the person may go: a note that is half written is asked about.
     *
     * @param later what to go on with once it is noted; not where it cannot be
     */
    boolean mayLeave(Runnable later) {
        if (words == null || !model.isHalfWritten()) {
            return true;
        }
        Object[] answers = {
            words.text("sensors.half.note"), words.text("sensors.half.discard"), words.text("sensors.half.stay")
        };
        int answer = JOptionPane.showOptionDialog(
                this,
                words.text("sensors.half"),
                "Kilnside",
                JOptionPane.DEFAULT_OPTION,
                JOptionPane.QUESTION_MESSAGE,
                null,
                answers,
                answers[0]);
        if (answer == 0) {
            take(later);
        } else if (answer == 1) {
            model.leaveForm();
            return true;
        }
        return false;
    }

    JComponent firstFocus() {
        return model.entries().isEmpty() ? buttons.get(Deed.FIT) : list.first();
    }

    /** Turns to a kiln and reads anew what the book knows. */
    void open(Optional<String> kiln) {
        kiln.ifPresent(its -> {
            if (words == null) {
                model.open(its);
            } else {
                model.turnTo(its, words);
            }
        });
    }

    /** @param kiln the kiln the person has turned to, should it be known only now */
    void show(Moment moment, Optional<String> kiln) {
        if (isShowing() && model.kiln().isEmpty()) {
            open(kiln);
        }
        if (words != moment.words()) {
            words = moment.words();
            redraw();
        }
    }

    private void redraw() {
        if (words == null) {
            return;
        }
        filling = true;
        List<SensorEntries.Lines> lines = model.entries().stream()
                .map(entry -> SensorEntries.of(entry, words))
                .toList();
        head.setText(model.kiln().map(name -> words.text("sensors.head", name)).orElse(words.text("sensors.no_kiln")));
        none.setVisible(lines.isEmpty() && model.kiln().isPresent());
        none.setText(words.text("kilns.no_sensor"));
        list.named(head.getText());
        boolean fresh = !list.isAnyShown() && !lines.isEmpty();
        list.show(lines, model.chosen());
        if (model.form().isEmpty() && fresh) {
            // The list came after the keyboard was sent here, or just before it arrives.
            SwingUtilities.invokeLater(() -> {
                if (buttons.get(Deed.FIT).isFocusOwner()) {
                    list.focusChosen();
                }
            });
        }
        explained.setText(words.text("sensors.explained"));
        said.setVisible(model.said().isPresent());
        model.said().ifPresent(its -> {
            said.setText(its.isTrouble() ? "!  " + its.text() : its.text());
            said.putClientProperty(
                    FlatClientProperties.STYLE,
                    "font: bold; foreground: $Kilnside." + (its.isTrouble() ? "ember" : "text"));
        });
        buttons.forEach((deed, button) -> {
            button.say(words.text(deed.text), deed.key, words);
            button.setEnabled(model.kiln().isPresent());
        });
        Optional<SensorForm> form = model.form();
        boolean another = !form.equals(shown);
        shown = form;
        card.setVisible(form.isPresent());
        deeds.setVisible(form.isEmpty());
        form.ifPresent(this::fill);
        filling = false;
        revalidate();
        repaint();
        if (another) {
            form.ifPresentOrElse(
                    its -> rows.get(its.deed().fields().get(0))
                            .input(its.deed().fields().get(0))
                            .requestFocusInWindow(),
                    () -> {
                        if (!list.focusChosen()) {
                            buttons.get(Deed.FIT).requestFocusInWindow();
                        }
                    });
        }
    }

    private void fill(SensorForm form) {
        title.setText(form.title(words));
        note.say(words.text("sensors.note"), "ENTER", words);
        leave.say(words.text("sensors.leave"), "ESCAPE", words);
        rows.forEach((field, row) -> {
            boolean there = form.deed().fields().contains(field);
            Optional<String> problem = form.problem(field);
            row.label.setVisible(there);
            row.label.setText(field.label(words));
            row.input(field).setVisible(there);
            row.below.setVisible(there && problem.isPresent());
            row.below.setText(problem.map(sentence -> "!  " + sentence).orElse(""));
            row.input(field)
                    .putClientProperty(
                            FlatClientProperties.OUTLINE,
                            problem.isPresent() ? FlatClientProperties.OUTLINE_ERROR : null);
            row.input(field).getAccessibleContext().setAccessibleDescription(row.below.getText());
            if (!SensorForm.options(field).isEmpty()) {
                row.choice.setSelectedItem(form.text(field));
            } else if (!row.text.getText().equals(form.text(field))) {
                row.text.setText(form.text(field));
            }
        });
    }

    private final class Spoken extends DefaultListCellRenderer {
        private static final long serialVersionUID = 1L;
        private final transient Field field;

        Spoken(Field field) {
            this.field = field;
        }

        @Override
        public Component getListCellRendererComponent(
                JList<?> its, Object value, int index, boolean selected, boolean focused) {
            return super.getListCellRendererComponent(
                    its,
                    words == null || value == null ? " " : SensorForm.spoken(field, (String) value, words),
                    index,
                    selected,
                    focused);
        }
    }
}
