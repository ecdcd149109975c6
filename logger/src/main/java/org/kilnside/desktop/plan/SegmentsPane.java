package org.kilnside.desktop.plan;

import java.awt.Component;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.ActionEvent;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.swing.AbstractAction;
import javax.swing.JCheckBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.KeyStroke;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.plan.PlansModel.Field;
import org.kilnside.desktop.plan.PlansModel.Place;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.WarningWords;
import org.kilnside.wording.Words;

/** The segments as rows of fields, each with what is wrong with it below it. */
final class SegmentsPane extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final Temperature LIT_AT = Temperature.ofCelsius(20);
    private static final List<Field> COLUMNS = List.of(Field.RATE, Field.TARGET, Field.HOLD);

    private final transient PlansModel model;
    private final transient List<Row> rows = new ArrayList<>();
    private final JLabel rateHead = Labels.quiet("");
    private final JLabel targetHead = Labels.quiet("");
    private final JLabel holdHead = Labels.quiet("");
    private final JLabel afterHead = Labels.quiet("");
    private final JCheckBox free = new JCheckBox();
    private transient List<Boolean> shape = List.of();

    /** One segment on the screen. */
    private record Row(JLabel number, List<PlanField> fields, JLabel after, JLabel words, JTextArea wrong) {}

    SegmentsPane(PlansModel model) {
        super(new MigLayout(
                "insets 0 14 0 4, gapx 8, gapy 2, fillx, hidemode 3", "[right][][][][grow,right]", "[]4[]"));
        this.model = model;
        setOpaque(false);
        free.setOpaque(false);
        free.addActionListener(event -> model.toggleFreeCooling());
    }

    void show(Words words) {
        Schedule plan = model.plan();
        List<Boolean> its = plan.segments().stream()
                .map(segment -> segment instanceof Segment.Ramp)
                .toList();
        if (!its.equals(shape)) {
            build(its);
        }
        say(words);
        FieldText fields = new FieldText(words);
        PlannedCurve curve = plan.curveFrom(LIT_AT);
        for (int i = 0; i < rows.size(); i++) {
            Row row = rows.get(i);
            int number = i + 1;
            if (plan.segments().get(i) instanceof Segment.Ramp ramp) {
                row.fields()
                        .get(0)
                        .show(
                                fields.of(ramp.rate()),
                                text -> fields.rate(text).value().equals(Optional.of(ramp.rate())));
                row.fields()
                        .get(1)
                        .show(
                                fields.of(ramp.to()),
                                text -> fields.target(text).value().equals(Optional.of(ramp.to())));
                row.fields()
                        .get(2)
                        .show(
                                fields.of(ramp.hold()),
                                text -> fields.hold(text).value().equals(Optional.of(ramp.hold())));
                row.after().setText(after(curve, number).map(words::duration).orElse(""));
            }
            wrong(row, number, words);
        }
        free.setText(words.text("plans.free_at_end"));
        free.setSelected(plan.endsInFreeCooling());
        repaint();
    }

    private void say(Words words) {
        rateHead.setText(words.unit() + "/" + words.text("unit.hour"));
        targetHead.setText(words.text("plans.target", words.unit()));
        holdHead.setText(words.text("plans.hold"));
        afterHead.setText(words.text("plans.after"));
        String[] names = {rateHead.getText(), targetHead.getText(), holdHead.getText()};
        for (int i = 0; i < rows.size(); i++) {
            Row row = rows.get(i);
            row.words().setText(row.fields().isEmpty() ? words.text("plans.free") : "");
            for (int k = 0; k < row.fields().size(); k++) {
                row.fields().get(k).named(words.text("plans.field", i + 1, names[k]));
            }
        }
    }

    private static Optional<Duration> after(PlannedCurve curve, int number) {
        return curve.legs().stream()
                .filter(leg -> leg.segment() == number)
                .reduce((one, other) -> other)
                .map(leg -> Duration.ofMillis(leg.toMs()));
    }

    /** What was typed wrong, else what is rash in it. */
    private void wrong(Row row, int number, Words words) {
        List<String> lines = new ArrayList<>();
        boolean typedWrong = false;
        for (Field field : COLUMNS) {
            Optional<PlansModel.Rejected> rejected = model.rejected(new Place(field, number));
            if (rejected.isPresent()) {
                lines.add(rejected.get().sentence());
                typedWrong = true;
            }
        }
        if (lines.isEmpty()) {
            model.outlook().answer().ifPresent(answer -> {
                WarningWords warnings =
                        new WarningWords(words, ConeTable.of(answer.question().series()));
                answer.outlook().warnings().stream()
                        .filter(warning -> warning.segment() == number)
                        .forEach(warning -> lines.add(words.sentence(warnings.reason(warning))));
            });
        }
        String text = lines.isEmpty() ? "" : "!  " + AnswersPane.unbroken(String.join("\n!  ", lines));
        if (!row.wrong().getText().equals(text)) {
            row.wrong().setText(text);
        }
        row.wrong().setVisible(!text.isEmpty());
        row.wrong().setForeground(Theme.colour(typedWrong ? "ember" : "lookText"));
        row.wrong().putClientProperty("ground", typedWrong ? null : "lookGround");
    }

    private void build(List<Boolean> its) {
        Optional<Place> focused = focused();
        shape = its;
        removeAll();
        rows.clear();
        add(new JLabel());
        add(rateHead);
        add(targetHead);
        add(holdHead);
        add(afterHead, "wrap");
        for (int i = 0; i < its.size(); i++) {
            Row row = row(i + 1, its.get(i));
            rows.add(row);
            add(row.number());
            if (its.get(i)) {
                row.fields().forEach(field -> add(field, "growx"));
                add(row.after(), "wrap");
            } else {
                add(row.words(), "span, wrap");
            }
            add(row.wrong(), "skip 1, span, growx, wmin 40, wrap");
        }
        add(free, "skip 1, span, gaptop 4");
        focused.ifPresent(this::focus);
        revalidate();
    }

    private Row row(int number, boolean ramps) {
        List<PlanField> fields = new ArrayList<>();
        if (ramps) {
            for (Field field : COLUMNS) {
                PlanField its = new PlanField(model, new Place(field, number), field == Field.HOLD ? 9 : 6);
                along(its, "UP", field, number - 1);
                along(its, "DOWN", field, number + 1);
                fields.add(its);
            }
        }
        JTextArea wrong = new Said();
        JLabel label = Labels.quiet(String.valueOf(number));
        return new Row(label, fields, Labels.quiet(""), Labels.quiet(""), wrong);
    }

    private void along(PlanField field, String key, Field column, int number) {
        field.getInputMap(JComponent.WHEN_FOCUSED).put(KeyStroke.getKeyStroke(key), key);
        field.getActionMap().put(key, new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent event) {
                focus(new Place(column, number));
            }
        });
    }

    private Optional<Place> focused() {
        for (int i = 0; i < rows.size(); i++) {
            for (int k = 0; k < rows.get(i).fields().size(); k++) {
                if (rows.get(i).fields().get(k).isFocusOwner()) {
                    return Optional.of(new Place(COLUMNS.get(k), model.selected()));
                }
            }
        }
        return Optional.empty();
    }

    /** Brings the keyboard to a field, where there is one. */
    void focus(Place place) {
        int number = place.segment();
        if (number >= 1
                && number <= rows.size()
                && !rows.get(number - 1).fields().isEmpty()) {
            rows.get(number - 1).fields().get(COLUMNS.indexOf(place.field())).requestFocusInWindow();
        }
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        super.paintComponent(graphics);
        int selected = model.selected();
        if (selected > rows.size()) {
            return;
        }
        Component number = rows.get(selected - 1).number();
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setPaint(Theme.colour("ember"));
        int size = Math.max(4, number.getHeight() / 3);
        g.fillOval(Math.max(0, number.getX() - size - 3), number.getY() + (number.getHeight() - size) / 2, size, size);
        g.dispose();
    }

    /** Words on a ground of their tone. */
    private static final class Said extends JTextArea {
        private static final long serialVersionUID = 1L;

        Said() {
            Labels.letterByLetter(this);
            setEditable(false);
            setFocusable(false);
            setLineWrap(true);
            setWrapStyleWord(true);
            setOpaque(false);
            setHighlighter(null);
            setBorder(javax.swing.BorderFactory.createEmptyBorder(3, 8, 3, 8));
        }

        @Override
        protected void paintComponent(Graphics graphics) {
            if (getClientProperty("ground") instanceof String ground) {
                Graphics2D g = (Graphics2D) graphics.create();
                g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
                g.setPaint(Theme.colour(ground));
                g.fillRoundRect(0, 0, getWidth(), getHeight() - 2, 10, 10);
                g.dispose();
            }
            super.paintComponent(graphics);
        }
    }
}
