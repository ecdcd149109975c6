package org.kilnside.desktop.book;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.CardLayout;
import java.awt.Rectangle;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.function.Consumer;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;
import org.kilnside.book.KnownBatch;
import org.kilnside.chart.Overlay;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.FrontCard;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.KeyHints;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.TwoParts;
import org.kilnside.wording.Words;

/** The firing that is open: its sentence, its chart with those laid over it, and beside it what belongs to it. */
final class OpenedPane extends JPanel {
    private static final long serialVersionUID = 1L;

    /** What stands beside the chart, each under its own key. */
    enum Section {
        FIGURES("record.section.figures"),
        HAPPENED("record.section.happened"),
        LOAD("record.section.load"),
        NOTES("record.section.notes"),
        WITNESS("record.section.witness"),
        REVIEW("record.section.review");

        private final String text;

        Section(String text) {
            this.text = text;
        }
    }

    private final JLabel title = Labels.quiet("");
    private final JLabel keys = Labels.quiet("");
    private final JTextArea headline = Labels.wrapping("", "font: 150%; foreground: $Kilnside.text");
    private final JTextArea said = Labels.wrapping("", "foreground: $Kilnside.lookText");
    private final Card saidCard = new Card(new MigLayout("insets 8 14 8 14, fill", "[grow, fill]"));
    private final OverlayPane chart;
    private final CommonPane common;
    private final FiguresPane figures = new FiguresPane();
    private final HappenedPane happened;
    private final LoadPane load;
    private final NotesPane notes;
    private final WitnessPane witness;
    private final ReviewPane review = new ReviewPane();
    private final CardLayout cards = new CardLayout();
    private final FrontCard stage = new FrontCard(cards);
    private final List<KeyButton> tabs = new ArrayList<>();
    private final KeyHints chartKeys = new KeyHints("chart.keys", "+/-", "LEFT/RIGHT", "ctrl LEFT/RIGHT");
    private final TwoParts parts;
    private Section section = Section.FIGURES;

    OpenedPane(Words words, Consumer<OptionalDouble> layOver, Consumer<OptionalLong> mark, RecordDesk desk) {
        super(new MigLayout("insets 8 16 8 16, fill, wrap 1, gap 8, hidemode 3", "[grow, fill]", "[][][][grow, fill]"));
        setOpaque(false);
        chart = new OverlayPane(words);
        common = new CommonPane(words, layOver);
        happened = new HappenedPane(mark);
        load = new LoadPane(words, desk.loadWishes(), new PhotoStrip(desk.photoWishes(), desk::thumbnail));
        notes = new NotesPane(words, desk::notes);
        witness = new WitnessPane(words, desk::addCones, desk::strikeOut);
        saidCard.ground("lookGround");
        saidCard.add(said, "growx, wmin 0");
        saidCard.setVisible(false);

        Card chartCard = new Card(
                new MigLayout("insets 8 10 6 6, fill, wrap 1, hidemode 3", "[grow, fill]", "[][grow, fill]2[]"));
        chartCard.ground("chart.surface");
        chartCard.add(common, "cell 0 0, growx, wmin 0");
        chartCard.add(chart, "cell 0 1, grow, wmin 0, hmin 0");
        chartCard.add(chartKeys, "cell 0 2, growx, wmin 0, gapleft 6");

        JPanel bar = new JPanel(new MigLayout(
                "insets 0, fillx, gap 4, wrap 3, novisualpadding", "[grow, fill, sg][grow, fill, sg][grow, fill, sg]"));
        bar.setOpaque(false);
        for (Section its : Section.values()) {
            KeyButton tab = new KeyButton();
            tab.putClientProperty(FlatClientProperties.STYLE, "margin: 3,6,3,6");
            tab.addActionListener(event -> turnTo(its));
            tabs.add(tab);
            bar.add(tab, "wmin 0");
            stage.add(pane(its), its.name());
            KeyRow.bind(this, "ctrl " + (its.ordinal() + 1), () -> turnTo(its));
        }
        Card side =
                new Card(new MigLayout("insets 10 12 10 10, fill, wrap 1, gap 8", "[grow, fill]", "[][grow, fill]"));
        side.add(bar, "growx, wmin 0");
        side.add(stage, "grow, wmin 0, hmin 0");

        parts = new TwoParts(chartCard, side, 40);
        title.putClientProperty("html.disable", true);
        JPanel head = new JPanel(new MigLayout("insets 0, fillx, gap 16", "[grow, fill][]", "[]"));
        head.setOpaque(false);
        head.add(title, "growx, wmin 0");
        head.add(keys);
        add(head, "cell 0 0, growx, wmin 0");
        add(headline, "cell 0 1, growx, wmin 0");
        add(saidCard, "cell 0 2, growx, wmin 0");
        add(parts, "cell 0 3, grow, wmin 0, hmin 0");
        turnTo(section);
    }

    private JComponent pane(Section its) {
        return switch (its) {
            case FIGURES -> figures;
            case HAPPENED -> happened;
            case LOAD -> load;
            case NOTES -> notes;
            case WITNESS -> witness;
            case REVIEW -> review;
        };
    }

    /** Brings a section to the front. */
    void turnTo(Section its) {
        section = its;
        cards.show(stage, its.name());
        for (int i = 0; i < tabs.size(); i++) {
            boolean front = i == its.ordinal();
            tabs.get(i)
                    .putClientProperty(
                            FlatClientProperties.STYLE,
                            "margin: 3,6,3,6; " + (front ? "font: bold; borderColor: $Kilnside.ember" : ""));
            tabs.get(i).setSelected(front);
        }
        JComponent first = switch (its) {
            case HAPPENED -> happened.lines();
            case LOAD -> load.batches();
            case NOTES -> notes.area();
            case WITNESS -> witness.pack();
            // Below the chart they are seen only where the keyboard is.
            case FIGURES, REVIEW -> parts.isNarrow() ? tabs.get(its.ordinal()) : chart;
        };
        first.requestFocusInWindow();
        stage.revalidate();
        if (parts.isNarrow()) {
            SwingUtilities.invokeLater(() -> stage.scrollRectToVisible(
                    new Rectangle(0, 0, stage.getWidth(), Math.min(stage.getHeight(), parts.getHeight()))));
        }
    }

    /**
     * Shows what is open.
     *
     * @param known every batch the book knows
     * @param busy what is being done; empty when nothing is
     * @param trouble what a person has to know; empty when all is well
     */
    void show(OpenedModel model, List<KnownBatch> known, Optional<String> busy, Optional<String> trouble, Words words) {
        title.setText(model.title(words) + busy.map(its -> "  ·  " + its).orElse(""));
        headline.setText(
                model.headline(words) + model.cone(words).map(its -> " " + its).orElse(""));
        Optional<String> sentence = trouble.or(() -> model.leftOut(words));
        said.setText(sentence.orElse(""));
        saidCard.setVisible(sentence.isPresent());
        common.setVisible(!model.isAlone());
        common.show(model.common(), words);
        Overlay overlay = model.overlay(words);
        chart.show(model, overlay, words);
        chartKeys.show(words);
        chart.getAccessibleContext().setAccessibleName(words.text("chart.name", headline.getText()));
        figures.show(model.figures(words), words);
        happened.show(model.happened(words), words);
        load.show(model.first().number(), model.first().record(), known, words);
        notes.show(model.first().number(), model.first().record().notes(), words);
        witness.show(model.first(), words);
        review.show(model.reviewed(words));
        for (Section its : Section.values()) {
            tabs.get(its.ordinal()).sayBriefly(words.text(its.text), "ctrl " + (its.ordinal() + 1), words);
        }
        keys.setText(words.text("record.keys", Section.values().length));
        getAccessibleContext().setAccessibleName(title.getText() + ". " + headline.getText());
    }

    /** The same model with another moment marked, without working anything out anew. */
    void mark(OpenedModel model, Words words) {
        chart.show(model, model.overlay(words), words);
    }

    OverlayPane chart() {
        return chart;
    }

    CommonPane common() {
        return common;
    }

    /** Ties the keys of the load, which bring it to the front. */
    void keys(JComponent view) {
        KeyRow.bind(view, "ctrl N", () -> inLoad(load::add));
        KeyRow.bind(view, "ctrl B", () -> inLoad(load::addAgain));
        KeyRow.bind(view, "ctrl E", () -> inLoad(load::edit));
        KeyRow.bind(view, "ctrl P", () -> inLoad(load::choosePhoto));
    }

    private void inLoad(Runnable deed) {
        if (isShowing()) {
            turnTo(Section.LOAD);
            deed.run();
        }
    }

    LoadPane load() {
        return load;
    }

    NotesPane notes() {
        return notes;
    }

    Section section() {
        return section;
    }
}
