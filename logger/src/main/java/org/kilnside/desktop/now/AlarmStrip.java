package org.kilnside.desktop.now;

import com.formdev.flatlaf.FlatClientProperties;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.swing.JLabel;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.NowSentence;
import org.kilnside.wording.Words;

/** The worst alarm, large, with what to do and a button to say that one knows; the others by name. */
final class AlarmStrip extends Card {
    private static final long serialVersionUID = 1L;

    /** The key that says it too, anywhere on the screen. */
    static final String KEY = "ctrl ENTER";

    private static final String AS_EVER = "fillx, hidemode 3, gapx 18, gapy 3";
    private static final String WIDE = "insets 12 16 12 16, " + AS_EVER;
    private static final String THIN = "insets 4 16 4 16, " + AS_EVER;

    private final JTextArea title = Labels.wrapping("", "font: bold 190%");
    private final JLabel standing = new JLabel();
    private final JTextArea seen = Labels.wrapping("", "font: bold 125%");
    private final JTextArea whatToDo = Labels.wrapping("", "font: 115%");
    private final JTextArea others = Labels.wrapping("", "");
    private final KeyButton know = new KeyButton();
    private final transient Consumer<String> acknowledge;
    private transient Optional<AlarmStripModel> shown = Optional.empty();

    AlarmStrip(Consumer<String> acknowledge) {
        super(new MigLayout(WIDE, "[grow, fill][]", "[][][]"));
        this.acknowledge = acknowledge;
        know.addActionListener(event -> acknowledge());
        // Each in a cell of its own: a button that is not shown must not move the rest.
        add(title, "cell 0 0, wmin 0, hmin pref, flowy, gapy 0");
        add(standing, "cell 0 0, wmin 0, hmin pref");
        add(know, "cell 1 0 1 3, aligny center, shrink 0");
        add(seen, "cell 0 1, wmin 0, hmin pref");
        add(whatToDo, "cell 0 2, wmin 0, hmin pref, flowy");
        add(others, "cell 0 2, wmin 0, hmin pref");
        setVisible(false);
    }

    void show(Optional<AlarmStripModel> model, Words words) {
        if (!model.equals(shown)) {
            shown = model;
            setVisible(model.isPresent());
            model.ifPresent(its -> fill(its, words));
            revalidate();
        }
    }

    private void fill(AlarmStripModel its, Words words) {
        boolean calm = its.tone() == NowSentence.Tone.CALM;
        ground(calm ? "card" : SentencePane.ground(its.tone()));
        String ink = "foreground: $Kilnside." + SentencePane.ink(its.tone());
        String otherTitles = its.others().isEmpty()
                ? ""
                : words.text("alarm.others", its.others().size(), String.join(" · ", its.others()));
        if (its.isOver()) {
            // Nothing is to be done any more: one line, so that nothing of the page is lost to it.
            title.setText(Stream.of(its.title(), its.standing(), otherTitles)
                    .filter(text -> !text.isEmpty())
                    .collect(Collectors.joining("  ·  ")));
        } else {
            title.setText(calm ? its.title() : "!  " + its.title());
        }
        ((MigLayout) getLayout()).setLayoutConstraints(calm ? THIN : WIDE);
        standing.setText(its.standing());
        standing.setVisible(!its.isOver());
        seen.setText(its.seen().orElse(""));
        seen.setVisible(its.seen().isPresent() && !its.isOver());
        whatToDo.setText(its.whatToDo());
        whatToDo.setVisible(!its.isOver());
        others.setText(otherTitles);
        others.setVisible(!otherTitles.isEmpty() && !its.isOver());
        know.say(its.answer(), KEY, words);
        know.setVisible(its.toAcknowledge());
        know.putClientProperty(
                FlatClientProperties.STYLE, its.isOver() ? "margin: 2,14,2,14" : "margin: 8,14,8,14; font: bold");
        title.putClientProperty(FlatClientProperties.STYLE, titleFont(its) + ink);
        standing.putClientProperty(FlatClientProperties.STYLE, ink);
        seen.putClientProperty(FlatClientProperties.STYLE, "font: bold 125%; " + ink);
        whatToDo.putClientProperty(FlatClientProperties.STYLE, (calm ? "" : "font: 115%; ") + ink);
        others.putClientProperty(FlatClientProperties.STYLE, ink);
        getAccessibleContext().setAccessibleName(its.spoken());
    }

    private static String titleFont(AlarmStripModel its) {
        if (its.isOver()) {
            return "";
        }
        return its.tone() == NowSentence.Tone.CALM ? "font: bold 140%; " : "font: bold 190%; ";
    }

    /** A person knows of the alarm that stands here. */
    void acknowledge() {
        // Also where the recorder is gone or only lets this copy look: it is silent here then.
        shown.filter(AlarmStripModel::toAcknowledge).ifPresent(its -> acknowledge.accept(its.id()));
    }
}
