package org.kilnside.desktop.now;

import java.awt.CardLayout;
import java.awt.Rectangle;
import java.util.List;
import java.util.function.Consumer;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.KeyHints;
import org.kilnside.desktop.theme.Sheet;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.NowSentence;
import org.kilnside.wording.Words;

/** The Now screen: the sentence, the number, the curve, and what goes with them. Only draws what its model says. */
public final class NowView extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final String WHOLE = "whole";
    private static final String LARGE = "large";

    /** How wide what stands beside the chart is: more when it tells the whole firing. */
    private static final String BESIDE = "w 32%!, growy, hmin 0";

    private static final String BESIDE_WITH_SUMMARY = "w 40%!, growy, hmin 0";

    /** Below this many lines of text across the window, all stands one below the other, to be scrolled up and down. */
    private static final double NARROW = 54;

    /** Under an alarm's strip the page is scrolled in a small window: then nothing in it need be cut, lines of text. */
    private static final double ROOM_UNDER_ALARM = 3;

    private static final String BELOW = "span 2, growx, wmin 0";

    private static final int GAP = 10;

    /** Its heading alone, or half a line below it, tells nobody what happened: so many lines of text it needs. */
    private static final double LEAST_OF_EVENTS = 3.2;

    private static final String ROWS = "[]0[]0[grow, fill]10[]";
    private static final String ROWS_WITH_SUMMARY = "[]0[]0[grow, fill]0[]";

    private final PretendBanner pretend = new PretendBanner();
    private final AlarmStrip alarms;
    private final SentencePane sentence = new SentencePane();
    private final NumberPane number = new NumberPane();
    private final FiguresPane figures = new FiguresPane();
    private final ChartPane chart;
    private final Card chartCard;
    private final KeyHints chartKeys = new KeyHints("chart.keys", "+/-", "LEFT/RIGHT", "ctrl LEFT/RIGHT");
    private final ComingPane coming = new ComingPane();
    private final EventsPane events = new EventsPane();
    private final SummaryPane summary = new SummaryPane();
    private final NotePane notes;
    private final StatusPane status = new StatusPane();
    private final LargePane large = new LargePane();
    private final CardLayout sizes = new CardLayout();
    private final JPanel stage = new JPanel(sizes);
    private final JPanel side;
    private final MigLayout layout =
            new MigLayout("insets 0, fill, gap 10, hidemode 2", "[grow, fill][fill]", "[][grow, fill]");
    private final Sheet sheet = new Sheet(layout);
    private final MigLayout beside = new MigLayout("insets 0, fill, gap 10, hidemode 3", "[grow, fill]", ROWS);
    private boolean isLarge;
    private boolean tellsSummary;
    private boolean alarmed;
    private boolean isNarrow;

    /**
     * Builds the screen.
     *
     * @param note takes a person's note; must return at once
     * @param byHand takes what a person said by hand; must return at once
     * @param acknowledge takes the id of an alarm that a person knows of; must return at once
     */
    public NowView(Words words, Consumer<String> note, Consumer<NowModel.Hand> byHand, Consumer<String> acknowledge) {
        super(new MigLayout("insets 0, fill, wrap 1, gap 0, hidemode 3", "[grow, fill]", "[][grow, fill]"));
        alarms = new AlarmStrip(acknowledge);
        chart = new ChartPane(words);
        notes = new NotePane(note, byHand);
        chartCard = new Card(new MigLayout("insets 8 10 6 6, fill, wrap 1, gap 0", "[grow, fill]", "[grow, fill][]"));
        chartCard.ground("chart.surface");
        chartCard.add(chart, "wmin 0, hmin 0");
        chartCard.add(chartKeys, "wmin 0, gapleft 6");
        pretend.setVisible(false);

        side = new JPanel(beside) {
            private static final long serialVersionUID = 1L;

            @Override
            public void doLayout() {
                giveWay();
                super.doLayout();
            }
        };
        side.setOpaque(false);
        side.add(summary, "cell 0 0, wmin 0, hmin 60, grow, gapbottom 10");
        side.add(coming, "cell 0 1, growx, wmin 0, gapbottom 10");
        side.add(events, "cell 0 2, grow, wmin 0, hmin 32");
        side.add(notes, "cell 0 3, growx, wmin 0");
        summary.setVisible(false);
        coming.setVisible(false);

        sheet.add(number);
        sheet.add(figures);
        sheet.add(chartCard);
        sheet.add(side);
        arrange();

        // The sentence and the states stay in sight however small the window is.
        JPanel whole = new JPanel(
                new MigLayout("insets 8 16 8 16, fill, hidemode 3", "[grow, fill]", "[]0[]10[grow, fill]10[]"));
        whole.setOpaque(false);
        // Each in a cell of its own: where no alarm is shown the others must not move up a row.
        whole.add(alarms, "cell 0 0, growx, wmin 0, hmin pref, gapbottom 10");
        whole.add(sentence, "cell 0 1, growx, wmin 0");
        whole.add(sheet.scrolled(), "cell 0 2, grow, wmin 0, hmin 0");
        whole.add(status, "cell 0 3, growx, wmin 0");

        stage.setOpaque(false);
        stage.add(whole, WHOLE);
        stage.add(large, LARGE);
        // However little room is left: that this is no kiln of now must be read before anything else.
        add(pretend, "cell 0 0, growx, hmin pref");
        add(stage, "cell 0 1, grow, wmin 0, hmin 0");
    }

    public ChartPane chart() {
        return chart;
    }

    /** Whether what a person says here is heard. */
    void hears(boolean heard) {
        notes.hears(heard);
    }

    /** Shows a model; nothing is worked out here. */
    public void show(NowModel model, Words words) {
        pretend.setVisible(model.notReal().isPresent());
        model.notReal().ifPresent(pretend::show);
        alarms.show(model.alarms(), words);
        boolean tall = model.alarms().filter(its -> !its.isOver()).isPresent();
        if (tall != alarmed) {
            alarmed = tall;
            arrange();
        }
        sentence.show(
                model.sentence(), model.ahead().map(NowModel.Coming::sentence).orElse(""));
        boolean over = model.summary().isPresent();
        boolean alarming = !model.number().live() && model.sentence().tone() == NowSentence.Tone.BLIND;
        number.show(model.number(), alarming);
        figures.show(model.figures());
        figures.setVisible(!over && !model.figures().isEmpty());
        chart.show(model.chart(), words);
        chartKeys.show(words);
        chart.getAccessibleContext().setAccessibleName(words.text("chart.name", model.spoken()));
        coming.setVisible(model.ahead().isPresent());
        model.ahead().ifPresent(coming::show);
        events.show(model.events(), words);
        if (over != tellsSummary) {
            tellsSummary = over;
            arrange();
            beside.setRowConstraints(over ? ROWS_WITH_SUMMARY : ROWS);
            summary.setVisible(over);
            notes.setVisible(!over);
            number.setVisible(!over);
            revalidate();
        }
        model.summary().ifPresent(its -> summary.show(its, words));
        notes.show(model.hand(), words, !model.events().isEmpty());
        status.show(model.connection(), model.book());
        large.show(model);
        getAccessibleContext().setAccessibleName(model.spoken());
    }

    /** Where there is no room for what happened, it leaves its place to what is to come and to be done. */
    private void giveWay() {
        int taken = 0;
        for (JComponent other : List.of(summary, coming, notes)) {
            taken += other.isVisible() ? other.getPreferredSize().height + GAP : 0;
        }
        int line = getFontMetrics(Theme.font(1)).getHeight();
        events.setVisible(isNarrow || tellsSummary || side.getHeight() - taken >= line * LEAST_OF_EVENTS);
    }

    /** Side by side where there is room, else one below the other. */
    private void arrange() {
        if (isNarrow) {
            int line = getFontMetrics(Theme.font(1)).getHeight();
            layout.setRowConstraints("[][][grow, fill][]");
            layout.setComponentConstraints(number, BELOW + ", wrap");
            layout.setComponentConstraints(figures, BELOW + ", wrap");
            layout.setComponentConstraints(chartCard, BELOW + ", growy, hmin " + line * 14 + ", wrap");
            layout.setComponentConstraints(side, BELOW);
            sheet.least(36, 60);
        } else {
            layout.setRowConstraints("[][grow, fill]");
            layout.setComponentConstraints(number, "span 2, split 2, growy");
            layout.setComponentConstraints(figures, "grow, pushx, wmin 0, wrap");
            layout.setComponentConstraints(chartCard, "grow, push, wmin 0, hmin 0");
            layout.setComponentConstraints(side, tellsSummary ? BESIDE_WITH_SUMMARY : BESIDE);
            sheet.leastTallerBy(alarmed ? ROOM_UNDER_ALARM : 0);
        }
        sheet.revalidate();
        // What was in sight is somewhere else now: begin with the number again.
        SwingUtilities.invokeLater(() -> sheet.scrollRectToVisible(new Rectangle(0, 0, 1, 1)));
    }

    @Override
    public void doLayout() {
        boolean narrow = getWidth() < getFontMetrics(Theme.font(1)).getHeight() * NARROW;
        if (narrow != isNarrow) {
            isNarrow = narrow;
            arrange();
        }
        super.doLayout();
    }

    /** A person knows of the alarm in sight. */
    void acknowledge() {
        alarms.acknowledge();
    }

    /** Between everything and the number that is read from three metres. */
    public void toggleLarge() {
        isLarge = !isLarge;
        sizes.show(stage, isLarge ? LARGE : WHOLE);
    }

    public boolean isLarge() {
        return isLarge;
    }
}
