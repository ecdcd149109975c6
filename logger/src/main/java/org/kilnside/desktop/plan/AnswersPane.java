package org.kilnside.desktop.plan;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Component;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.swing.DefaultComboBoxModel;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.plan.PlansModel.Field;
import org.kilnside.desktop.plan.PlansModel.Place;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.Cone;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.outlook.Ware;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.Words;

/** In which kiln, with what in it; and what the plan will come to there. */
final class AnswersPane extends Card {
    private static final long serialVersionUID = 1L;
    private static final String[] STATES = {"plans.ware.unknown", "plans.ware.RAW", "plans.ware.GLAZED"};

    private final transient PlansModel model;
    private final JLabel kilnLabel = Labels.quiet("");
    private final JComboBox<String> kiln = new JComboBox<>();
    private final JLabel wareLabel = Labels.quiet("");
    private final JComboBox<String> ware = new JComboBox<>();
    private final JLabel loadLabel = Labels.quiet("");
    private final PlanField load;
    private final JLabel thicknessLabel = Labels.quiet("");
    private final PlanField thickness;
    private final JLabel limitLabel = Labels.quiet("");
    private final PlanField limit;
    private final JLabel roomLabel = Labels.quiet("");
    private final PlanField room;
    private final JComboBox<ConeSeries> series = new JComboBox<>(ConeSeries.values());
    private final JLabel wantedLabel = Labels.quiet("");
    private final PlanField wanted;
    private final JTextArea wrong = Labels.wrapping("", "foreground: $Kilnside.ember");
    private final JTextArea sentence = Labels.wrapping("", "font: bold 115%; foreground: $Kilnside.text");
    private final JTextArea coneRange = Labels.wrapping("", "font: 88%; foreground: $Kilnside.quiet");
    private final JPanel figures =
            new JPanel(new MigLayout("insets 0, gapx 8, gapy 0, fillx, wrap 2", "[grow,fill][right]"));
    private final JLabel afterLighting = Labels.quiet("");
    private final transient List<JLabel[]> lines = new ArrayList<>();
    private final JTextArea forWanted = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final KeyButton takeTop = new KeyButton();
    private final KeyButton takeHold = new KeyButton();
    private final JTextArea foot = Labels.wrapping("", "font: 88%; foreground: $Kilnside.quiet");
    private boolean filling;
    private transient Words spoken;
    private transient List<String> kilns = List.of();

    AnswersPane(PlansModel model) {
        super(new MigLayout(
                "insets 10 12 8 12, gapx 8, gapy 3, fillx, hidemode 2",
                "[][grow,fill]",
                "[][][][]6[]0[]4[]6[]2[]2[]2[]2[]push[]"));
        this.model = model;
        load = new PlanField(model, Place.of(Field.LOAD), 5);
        thickness = new PlanField(model, Place.of(Field.THICKNESS), 4);
        wanted = new PlanField(model, Place.of(Field.WANTED), 4);
        limit = new PlanField(model, Place.of(Field.LIMIT), 5);
        room = new PlanField(model, Place.of(Field.ROOM), 4);
        series.setRenderer(new SeriesRenderer());
        series.addActionListener(event -> {
            if (!filling && series.getSelectedItem() instanceof ConeSeries its) {
                model.outlook().series(its);
            }
        });
        figures.setOpaque(false);
        figures.add(afterLighting, "span, align right");
        kiln.addActionListener(event -> {
            if (!filling && kiln.getSelectedItem() instanceof String name) {
                model.chooseKiln(name);
            }
        });
        ware.addActionListener(event -> {
            if (!filling) {
                model.outlook()
                        .state(
                                switch (ware.getSelectedIndex()) {
                                    case 1 -> Optional.of(Ware.State.RAW);
                                    case 2 -> Optional.of(Ware.State.GLAZED);
                                    default -> Optional.empty();
                                });
            }
        });
        takeTop.addActionListener(event -> model.takeTop());
        takeHold.addActionListener(event -> model.takeHold());
        takeTop.putClientProperty(FlatClientProperties.STYLE, "margin: 2,6,2,6");
        takeHold.putClientProperty(FlatClientProperties.STYLE, "margin: 2,6,2,6");
        add(kilnLabel);
        add(kiln, "wrap, wmin 40");
        add(wareLabel);
        add(ware, "wrap, wmin 40");
        JPanel small = new JPanel(new MigLayout(
                "insets 0, gapx 6, gapy 3, fillx, wrap 4", "[]4[grow 50, fill, sg f]10[]4[grow 50, fill, sg f]", ""));
        small.setOpaque(false);
        small.add(thicknessLabel);
        small.add(thickness, "wmin 30");
        small.add(limitLabel);
        small.add(limit, "wmin 30");
        small.add(loadLabel);
        small.add(load, "wmin 30");
        small.add(roomLabel);
        small.add(room, "wmin 30");
        add(small, "span, growx, wmin 40, wrap");
        add(wrong, "span, growx, wmin 40, wrap");
        add(sentence, "span, growx, wmin 40, wrap");
        add(coneRange, "span, growx, wmin 40, wrap");
        add(figures, "span, growx, wmin 40, wrap");
        add(wantedLabel);
        add(wanted, "wmin 40, wrap");
        add(series, "skip 1, growx, wmin 30, wrap");
        add(forWanted, "span, growx, wmin 40, wrap");
        add(takeTop, "span, growx, wmin 40, wrap");
        add(takeHold, "span, growx, wmin 40, wrap");
        add(foot, "span, growx, wmin 40");
    }

    void show(Words words) {
        filling = true;
        kilnLabel.setText(words.text("plans.kiln"));
        loadLabel.setText(words.text("plans.load"));
        wareLabel.setText(words.text("plans.ware"));
        thicknessLabel.setText(words.text("plans.thickness"));
        wantedLabel.setText(words.text("plans.wanted"));
        limitLabel.setText(words.text("plans.limit", words.unit()));
        roomLabel.setText(words.text("plans.room", words.unit()));
        spoken = words;
        series.getAccessibleContext().setAccessibleName(words.text("noted.series"));
        series.setSelectedItem(model.outlook().series());
        kiln.getAccessibleContext().setAccessibleName(kilnLabel.getText());
        ware.getAccessibleContext().setAccessibleName(wareLabel.getText());
        if (!kilns.equals(model.kilns())) {
            kilns = model.kilns();
            kiln.setModel(new DefaultComboBoxModel<>(kilns.toArray(String[]::new)));
        }
        model.outlook().kilnName().ifPresent(kiln::setSelectedItem);
        int firings = model.outlook().known().firings();
        kiln.setToolTipText(words.text("plans.kiln_firings", firings));
        String[] states = {words.text(STATES[0]), words.text(STATES[1]), words.text(STATES[2])};
        if (ware.getItemCount() == 0 || !ware.getItemAt(0).equals(states[0])) {
            ware.setModel(new DefaultComboBoxModel<>(states));
        }
        ware.setSelectedIndex(
                model.outlook().ware().state().map(its -> its.ordinal() + 1).orElse(0));
        filling = false;
        afterLighting.setText(words.text("plans.after_lighting"));
        fields(words);
        Optional<LiveOutlook.Answer> answer = model.outlook().answer();
        if (answer.isPresent()) {
            answer(AnswerLines.of(answer.get(), words), words);
        } else {
            sentence.setText(words.sentence(words.text("plans.working")) + " …");
        }
        takeTop.setVisible(takeTop.isEnabled());
        takeHold.setVisible(takeHold.isEnabled());
        model.outlook().trouble().ifPresent(trouble -> sentence.setText(words.text("plans.trouble", trouble)));
        sentence.setForeground(Theme.colour(model.outlook().isUpToDate() ? "text" : "quiet"));
    }

    private void fields(Words words) {
        FieldText fields = new FieldText(words);
        load.named(loadLabel.getText());
        thickness.named(thicknessLabel.getText());
        wanted.named(wantedLabel.getText());
        limit.named(words.text("plans.limit_in_full"));
        limit.setToolTipText(words.text("plans.limit_in_full"));
        room.named(roomLabel.getText());
        Optional<Temperature> highest = model.outlook().ware().limit();
        limit.show(
                highest.map(fields::of).orElse(""),
                text -> fields.limit(text).value().equals(Optional.of(highest)));
        Optional<Temperature> its = model.outlook().room();
        room.show(
                its.map(fields::of).orElse(""),
                text -> fields.room(text).value().equals(Optional.of(its)));
        room.putClientProperty(FlatClientProperties.PLACEHOLDER_TEXT, fields.of(OutlookQuestion.USUAL_ROOM));
        Optional<Double> kilograms = model.outlook().loadKg().isPresent()
                ? Optional.of(model.outlook().loadKg().getAsDouble())
                : Optional.empty();
        load.show(
                kilograms.map(fields::number).orElse(""),
                text -> fields.kilograms(text).value().equals(Optional.of(kilograms)));
        Optional<Double> millimetres = model.outlook().ware().thicknessMm().isPresent()
                ? Optional.of(model.outlook().ware().thicknessMm().getAsDouble())
                : Optional.empty();
        thickness.show(
                millimetres.map(fields::number).orElse(""),
                text -> fields.millimetres(text).value().equals(Optional.of(millimetres)));
        Optional<Cone> cone = model.outlook().wanted();
        wanted.show(
                cone.map(Cone::number).orElse(""),
                text -> fields.cone(text).value().equals(Optional.of(cone)));
        List<String> problems = new ArrayList<>();
        for (Field field : new Field[] {Field.LOAD, Field.THICKNESS, Field.LIMIT, Field.ROOM, Field.WANTED}) {
            model.rejected(Place.of(field)).ifPresent(each -> problems.add(each.sentence()));
        }
        wrong.setText(String.join("\n", problems));
        wrong.setVisible(!problems.isEmpty());
    }

    private void answer(AnswerLines its, Words words) {
        sentence.setText(unbroken(its.sentence()));
        coneRange.setText(unbroken(its.coneRange().orElse("")));
        coneRange.setVisible(its.coneRange().isPresent());
        while (lines.size() < its.figures().size()) {
            JLabel[] line = {Labels.quiet(""), new JLabel(), Labels.quiet("")};
            line[1].putClientProperty(FlatClientProperties.STYLE, "font: bold; foreground: $Kilnside.text");
            line[2].putClientProperty(FlatClientProperties.STYLE, "font: 88%; foreground: $Kilnside.quiet");
            lines.add(line);
            figures.add(line[0], "gaptop 3, wmin 0");
            figures.add(line[1], "gaptop 3");
            figures.add(line[2], "span, align right");
        }
        for (int i = 0; i < its.figures().size(); i++) {
            AnswerLines.Figure figure = its.figures().get(i);
            lines.get(i)[0].setText(figure.label());
            lines.get(i)[1].setText(figure.value());
            lines.get(i)[2].setText(figure.range());
            lines.get(i)[1]
                    .getAccessibleContext()
                    .setAccessibleName(figure.label() + ": " + figure.value() + ", " + figure.range());
        }
        forWanted.setText(unbroken(its.wanted().orElse("")));
        forWanted.setVisible(its.wanted().isPresent());
        takeTop.setEnabled(its.takeTop().isPresent());
        takeHold.setEnabled(its.takeHold().isPresent());
        its.takeTop().ifPresent(text -> takeTop.say(text, "ctrl T", words));
        its.takeHold().ifPresent(text -> takeHold.say(text, "ctrl shift T", words));
        foot.setText(String.join("\n", its.foot()));
    }

    /** A number and its unit stay on one line. */
    static String unbroken(String text) {
        return text.replace(" °", "\u00a0°");
    }

    private final class SeriesRenderer extends DefaultListCellRenderer {
        private static final long serialVersionUID = 1L;

        @Override
        public Component getListCellRendererComponent(
                JList<?> its, Object value, int index, boolean selected, boolean focused) {
            String said = spoken == null || value == null ? " " : spoken.named("noted.series", (ConeSeries) value);
            return super.getListCellRendererComponent(its, said, index, selected, focused);
        }
    }
}
