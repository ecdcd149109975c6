package org.kilnside.desktop.now;

import com.formdev.flatlaf.FlatClientProperties;
import java.util.Optional;
import java.util.function.Consumer;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;
import org.kilnside.alarm.Alarm;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.Words;

/** What rings, in one line over every screen but Now: whoever is woken finds it, and its answer, wherever they were. */
public final class AlarmLine extends Card {
    private static final long serialVersionUID = 1L;

    /** The key that answers it. */
    public static final String KEY = AlarmStrip.KEY;

    private final JTextArea title = Labels.wrapping("", "font: bold 125%");
    private final KeyButton know = new KeyButton();
    private final transient Consumer<String> acknowledge;
    private transient Optional<AlarmStripModel> shown = Optional.empty();

    /** @param acknowledge takes the id of the alarm that a person knows of; must return at once */
    public AlarmLine(Consumer<String> acknowledge) {
        super(new MigLayout("insets 6 16 6 10, fillx, gapx 14", "[grow, fill][]", "[]"));
        this.acknowledge = acknowledge;
        know.addActionListener(event -> answer());
        add(title, "growx, wmin 0");
        add(know, "shrink 0");
        setVisible(false);
    }

    /** Shows the worst alarm while anything rings, and nothing otherwise. */
    public void show(Snapshot snapshot, Words words) {
        Optional<AlarmStripModel> model = snapshot.alarms().stream().anyMatch(Alarm::rings)
                ? AlarmStripModel.of(snapshot, words)
                : Optional.empty();
        if (model.equals(shown)) {
            return;
        }
        shown = model;
        setVisible(model.isPresent());
        model.ifPresent(its -> {
            ground(SentencePane.ground(its.tone()));
            title.setText(
                    "!  " + its.title() + its.seen().map(seen -> "  ·  " + seen).orElse(""));
            title.setToolTipText(its.whatToDo());
            title.putClientProperty(
                    FlatClientProperties.STYLE,
                    "font: bold 125%; foreground: $Kilnside." + SentencePane.ink(its.tone()));
            know.say(its.answer(), KEY, words);
            getAccessibleContext().setAccessibleName(its.spoken());
        });
        revalidate();
    }

    @Override
    public void setBounds(int x, int y, int width, int height) {
        boolean other = width != getWidth();
        super.setBounds(x, y, width, height);
        if (other) {
            // The words wrap to the width, so the height is known only once the width is.
            SwingUtilities.invokeLater(() -> {
                title.invalidate();
                revalidate();
            });
        }
    }

    /** A person knows of the alarm that stands here. */
    public void answer() {
        shown.filter(AlarmStripModel::toAcknowledge).ifPresent(its -> acknowledge.accept(its.id()));
    }
}
