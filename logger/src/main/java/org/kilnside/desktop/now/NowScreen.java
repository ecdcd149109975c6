package org.kilnside.desktop.now;

import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import javax.swing.JComponent;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.wording.Words;

/** The live firing, as a screen of the window. */
public final class NowScreen implements Screen {
    private final NowView view;
    private final Runnable toggleQuartz;
    private final BooleanSupplier hears;

    /**
     * Builds the screen.
     *
     * @param note takes a person's note; must return at once
     * @param byHand takes what a person said by hand; must return at once
     * @param acknowledge takes the id of an alarm that a person knows of; must return at once
     * @param hears whether what a person says here is heard: another copy may be cut off, or only allowed to look
     * @param toggleQuartz marks 573 °C in the charts, or no longer
     */
    public NowScreen(
            Words words,
            Consumer<String> note,
            Consumer<NowModel.Hand> byHand,
            Consumer<String> acknowledge,
            Runnable toggleQuartz,
            BooleanSupplier hears) {
        this.hears = hears;
        view = new NowView(words, note, byHand, acknowledge);
        this.toggleQuartz = toggleQuartz;
    }

    @Override
    public String title(Words words) {
        return words.text("screen.now");
    }

    @Override
    public JComponent view() {
        return view;
    }

    @Override
    public void keys(KeyRow row) {
        KeyRow.bind(view, AlarmStrip.KEY, view::acknowledge);
        row.add(view, "F11", its -> its.text("key.large"), view::toggleLarge);
        row.add(view, "END", its -> its.text("key.now"), () -> view.chart().backToNow());
        row.add(view, "HOME", its -> its.text("key.whole"), () -> view.chart().whole());
        row.add(view, "F12", its -> its.text("key.quartz"), toggleQuartz);
        // As they are typed: on one keyboard + has a key of its own, on another it is Shift and =.
        for (String key : new String[] {"typed +", "typed ="}) {
            KeyRow.bind(view, key, () -> view.chart().zoom(0.7));
        }
        KeyRow.bind(view, "typed -", () -> view.chart().zoom(1 / 0.7));
        KeyRow.bind(view, "LEFT", () -> view.chart().pan(-0.2));
        KeyRow.bind(view, "RIGHT", () -> view.chart().pan(0.2));
        KeyRow.bind(view, "ctrl LEFT", () -> view.chart().movePointer(-0.01));
        KeyRow.bind(view, "ctrl RIGHT", () -> view.chart().movePointer(0.01));
    }

    @Override
    public void show(Moment moment) {
        view.hears(hears.getAsBoolean());
        view.show(NowModel.of(moment.snapshot(), moment.nowMs(), moment.words(), moment.quartz()), moment.words());
    }
}
