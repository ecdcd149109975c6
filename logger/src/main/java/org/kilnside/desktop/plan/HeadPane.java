package org.kilnside.desktop.plan;

import com.formdev.flatlaf.FlatClientProperties;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.plan.PlansModel.Field;
import org.kilnside.desktop.plan.PlansModel.Place;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.heatwork.Cone;
import org.kilnside.schedule.Schedule;
import org.kilnside.wording.Words;

/** What the plan is called and is for, whether it is saved, and what somebody else did to its file. */
final class HeadPane extends Card {
    private static final long serialVersionUID = 1L;
    private final transient PlansModel model;
    private final PlanField name;
    private final PlanField aim;
    private final PlanField clay;
    private final PlanField notes;
    private final JLabel aimLabel = Labels.quiet("");
    private final JLabel clayLabel = Labels.quiet("");
    private final JLabel notesLabel = Labels.quiet("");
    private final JTextArea state = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final JPanel question =
            new Card(new MigLayout("insets 6, gapx 8, gapy 4, fillx", "[grow,fill][grow,fill]"));
    private final JTextArea asked = Labels.wrapping("", "foreground: $Kilnside.lookText");
    private final JButton take = new JButton();
    private final JButton keep = new JButton();

    HeadPane(PlansModel model) {
        super(new MigLayout(
                "insets 8 12 8 12, gapx 8, gapy 4, fillx, hidemode 3",
                "[][grow, shrinkprio 200][][][][grow]",
                "[]4[]4[]"));
        this.model = model;
        name = new PlanField(model, Place.of(Field.NAME), 18);
        name.putClientProperty(FlatClientProperties.STYLE, "font: 130%");
        aim = new PlanField(model, Place.of(Field.AIM), 3);
        clay = new PlanField(model, Place.of(Field.CLAY), 8);
        notes = new PlanField(model, Place.of(Field.NOTES), 18);
        ((Card) question).ground("lookGround");
        take.addActionListener(event -> model.keeping().takeFromDisk());
        keep.addActionListener(event -> model.keeping().keepMine());
        question.add(asked, "span, growx, wmin 60, wrap");
        question.add(take);
        question.add(keep);
        add(name, "span 2, growx, wmin 120");
        add(aimLabel);
        add(aim, "wmin pref");
        add(clayLabel);
        add(clay, "growx, wrap");
        add(notesLabel);
        add(notes, "span, growx, wrap");
        add(state, "span, growx, wmin 60, wrap");
        add(question, "span, growx");
    }

    void show(Words words) {
        Schedule plan = model.plan();
        name.named(words.text("plans.name"));
        aimLabel.setText(words.text("plans.aim"));
        aim.named(aimLabel.getText());
        clayLabel.setText(words.text("plans.clay"));
        clay.named(clayLabel.getText());
        notesLabel.setText(words.text("plans.notes"));
        notes.named(notesLabel.getText());
        FieldText fields = new FieldText(words);
        name.show(plan.name(), text -> text.strip().equals(plan.name()));
        Optional<Cone> cone = plan.aimsFor().flatMap(Cone::find);
        aim.show(
                cone.map(Cone::number).orElse(""),
                text -> fields.cone(text).value().equals(Optional.of(cone)));
        clay.show(
                plan.clay().orElse(""), text -> text.strip().equals(plan.clay().orElse("")));
        String its = plan.notes().orElse("").replace('\n', ' ');
        notes.show(its, text -> text.strip().equals(its.strip()));
        List<String> wrong = new ArrayList<>();
        for (Field field : new Field[] {Field.NAME, Field.AIM, Field.CLAY, Field.NOTES}) {
            model.rejected(Place.of(field)).ifPresent(each -> wrong.add(each.sentence()));
        }
        boolean trouble = !wrong.isEmpty()
                || model.notice().map(PlansModel.Notice::isTrouble).orElse(false);
        state.setText(wrong.isEmpty() ? state(words) : String.join("\n", wrong));
        state.setForeground(Theme.colour(trouble ? "ember" : "quiet"));
        question.setVisible(model.keeping().isOtherOnDisk());
        asked.setText(words.text("plans.other_on_disk"));
        take.setText(words.text("plans.take_from_disk"));
        keep.setText(words.text("plans.keep_mine"));
    }

    private String state(Words words) {
        if (model.notice().isPresent()) {
            return model.notice().get().text(words);
        }
        if (model.isUnsaved()) {
            return words.text("plans.state.changed");
        }
        PlanEditor.Source source = model.editor().source();
        if (source.shortName().isEmpty()) {
            return words.text("plans.state.new");
        }
        return source.own()
                ? words.text("plans.state.saved", source.shortName().get())
                : words.text("plans.state.starter");
    }
}
