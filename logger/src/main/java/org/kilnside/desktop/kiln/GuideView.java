package org.kilnside.desktop.kiln;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Font;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** The first steps: one question at a time, what was found, and what can be done. Only draws what its model says. */
final class GuideView extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final List<String> PLACES = List.of(
            "guide.place.port", "guide.place.cold", "guide.place.lines", "guide.place.opening", "guide.place.kiln");

    private final transient GuideModel model;
    private final JTextArea title = Labels.wrapping("", "font: 170%; foreground: $Kilnside.text");
    private final JTextArea text = Labels.wrapping("", "font: 110%; foreground: $Kilnside.text");
    private final Note trouble = new Note("alarmGround", "alarmText");
    private final Note caution = new Note("lookGround", "lookText");
    private final JLabel fieldLabel = Labels.quiet("");
    private final JTextField field = new JTextField(24);
    private final JTextArea fieldHint = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final JPanel facts = new JPanel(new MigLayout("insets 0, wrap 2, gap 16 3", "[pref!][grow, fill]", ""));
    private final JTextArea lines = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final Card linesCard = new Card(new MigLayout("insets 8 12 8 12, fillx", "[grow, fill]", ""));
    private final OptionList options = new OptionList(this::choose);
    private final List<JTextArea> places = new ArrayList<>();
    private final transient Set<Integer> been = new HashSet<>();
    private transient Words words;
    private transient List<GuideStep.Fact> factsShown = List.of();
    private boolean filling;
    private transient Optional<GuideStep> shown = Optional.empty();

    GuideView(GuideModel model) {
        super(new MigLayout("insets 0, fill, gap 10", "[grow, fill][fill]", "[grow, fill]"));
        this.model = model;
        model.whenChanged(this::redraw);
        setOpaque(false);
        facts.setOpaque(false);
        linesCard.add(lines, "growx, wmin 0");
        Column column =
                new Column(new MigLayout("insets 10 4 10 14, fillx, wrap 1, gap 10, hidemode 3", "[grow, fill]", ""));
        column.add(title, "growx, wmin 0");
        column.add(text, "growx, wmin 0");
        column.add(trouble, "growx, wmin 0");
        column.add(caution, "growx, wmin 0");
        column.add(fieldLabel, "split 2, growx 0");
        column.add(field, "growx, wmin 100");
        column.add(fieldHint, "growx, wmin 0");
        column.add(facts, "growx, wmin 0");
        column.add(linesCard, "growx, wmin 0");
        column.add(options, "growx, wmin 0, gaptop 6");
        add(column.scrolled(), "grow, push, wmin 0, hmin 0");
        Card margin = new Card(new MigLayout("insets 14 16 14 16, fillx, wrap 1, gap 10", "[grow, fill]", ""));
        for (int i = 0; i < PLACES.size(); i++) {
            JTextArea place = Labels.wrapping("", "foreground: $Kilnside.quiet");
            places.add(place);
            margin.add(place, "growx, wmin 0");
        }
        add(margin, "w 26%!, aligny top, growy 0");
        fieldLabel.setLabelFor(field);
        field.getDocument().addDocumentListener(new DocumentListener() {
            @Override
            public void insertUpdate(DocumentEvent event) {
                typed();
            }

            @Override
            public void removeUpdate(DocumentEvent event) {
                typed();
            }

            @Override
            public void changedUpdate(DocumentEvent event) {
                typed();
            }
        });
        KeyRow.bind(field, "ENTER", () -> choose(0));
        KeyRow.bind(field, "DOWN", options::focusFirst);
        field.getInputMap(WHEN_IN_FOCUSED_WINDOW).clear();
        KeyRow.bind(this, "ESCAPE", this::back);
        terminalType();
    }

    JComponent firstFocus() {
        return field.isVisible() ? field : options.first();
    }

    /** Lets go of an open port and goes back to the first question. */
    void back() {
        model.restart();
        redraw();
    }

    private void typed() {
        if (!filling) {
            model.type(field.getText());
        }
    }

    private void choose(int option) {
        if (words != null) {
            GuideSteps.choose(model, words, option);
            redraw();
        }
    }

    void show(long nowMs, Words itsWords) {
        words = itsWords;
        model.tick(nowMs);
        redraw();
    }

    private void redraw() {
        if (words == null) {
            return;
        }
        GuideStep step = GuideSteps.step(model, words);
        if (shown.equals(Optional.of(step))) {
            return;
        }
        boolean another = shown.map(its -> !its.title().equals(step.title())).orElse(true);
        shown = Optional.of(step);
        title.setText(step.title());
        text.setText(step.text());
        trouble.show(step.trouble());
        caution.show(step.caution());
        showField(step);
        showFacts(step.facts());
        linesCard.setVisible(!step.lines().isEmpty());
        lines.setText(String.join("\n", step.lines()));
        boolean otherOptions = options.show(step.options(), words);
        if (step.place() == 0) {
            been.clear();
        }
        been.add(step.place());
        for (int i = 0; i < places.size(); i++) {
            boolean here = i == step.place();
            places.get(i).setText((here ? "→  " : been.contains(i) ? "✓  " : "–  ") + words.text(PLACES.get(i)));
            places.get(i)
                    .putClientProperty(
                            FlatClientProperties.STYLE,
                            here ? "font: bold; foreground: $Kilnside.ember" : "foreground: $Kilnside.quiet");
        }
        getAccessibleContext().setAccessibleName(step.title() + " " + step.text());
        revalidate();
        boolean ours = isShowing() && (another || otherOptions);
        if (ours) {
            firstFocus().requestFocusInWindow();
        }
    }

    private void showField(GuideStep step) {
        boolean has = step.field().isPresent();
        fieldLabel.setVisible(has);
        field.setVisible(has);
        fieldHint.setVisible(has && !step.field().get().hint().isEmpty());
        step.field().ifPresent(its -> {
            fieldLabel.setText(its.label());
            fieldHint.setText(its.hint());
            if (!field.getText().equals(its.value())) {
                filling = true;
                field.setText(its.value());
                filling = false;
            }
        });
    }

    private void showFacts(List<GuideStep.Fact> found) {
        facts.setVisible(!found.isEmpty());
        if (found.equals(factsShown)) {
            return;
        }
        factsShown = found;
        facts.removeAll();
        for (GuideStep.Fact fact : found) {
            facts.add(Labels.quiet(fact.name()), "aligny top");
            facts.add(Labels.wrapping(fact.value(), "font: 110%; foreground: $Kilnside.text"), "growx, wmin 0");
        }
    }

    private void terminalType() {
        lines.setFont(new Font(Font.MONOSPACED, Font.PLAIN, 1)
                .deriveFont(Theme.font(1).getSize2D()));
    }

    @Override
    public void updateUI() {
        super.updateUI();
        if (lines != null) {
            terminalType();
        }
    }

    /** A sentence on a ground of its own, where there is one. */
    private static final class Note extends Card {
        private static final long serialVersionUID = 1L;
        private final JTextArea said;

        Note(String ground, String ink) {
            super(new MigLayout("insets 8 12 8 12, fillx", "[grow, fill]", ""));
            ground(ground);
            said = Labels.wrapping("", "foreground: $Kilnside." + ink);
            add(said, "growx, wmin 0");
        }

        void show(Optional<String> sentence) {
            setVisible(sentence.isPresent());
            said.setText(sentence.map(its -> "!  " + its).orElse(""));
        }
    }
}
