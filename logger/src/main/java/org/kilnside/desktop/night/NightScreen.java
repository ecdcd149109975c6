package org.kilnside.desktop.night;

import java.util.Optional;
import javax.swing.JComponent;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Folding;
import org.kilnside.firing.Lighting;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.session.AlarmTrial;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Before the kiln is lit, and whether an alarm would be heard tonight, as a screen of the window. */
public final class NightScreen implements Screen {
    private static final Logger LOG = LoggerFactory.getLogger(NightScreen.class);

    private final Port port;
    private final Errands errands;
    private final Errands trials = new Errands();
    private final ListPane list;
    private final ProgramPane program = new ProgramPane();
    private final WatchPane watch;
    private final JPanel view = new JPanel(new MigLayout("insets 8 16 8 16, fill", "[grow, fill]", "[grow, fill]"));
    private Words words;
    private String asked = "";
    private ControllerNumbers numbers = ControllerNumbers.SAME;

    /** What the screen asks of the recording; filled from outside, since only the window knows the session. */
    public interface Port {
        /** Notes the list with the firing; may wait. */
        void lighting(Lighting ticked);

        /** The numbers a kiln's controller shows, as far as its sensor is known; may wait. */
        ControllerNumbers numbers(String kiln);

        /** Whether the recording takes anything from here. */
        boolean takesNotes();

        /** Rings the test at the recorder and on every copy that follows; may wait. */
        void ringTest();

        /** The alarm of this computer, to try; empty where none is set up. */
        Optional<AlarmTrial> alarmTrial();
    }

    /** Reads a temperature as a person types it. */
    @FunctionalInterface
    public interface TypedTemperature {
        /** @throws IllegalArgumentException with one sentence when it is none */
        Temperature read(String typed);
    }

    /**
     * Builds the screen.
     *
     * @param port takes the list, and tries the alarm
     * @param errands where what waits is sent
     * @param reader reads what a person types for a temperature
     */
    public NightScreen(Port port, Words words, Errands errands, TypedTemperature reader) {
        this.port = port;
        this.words = words;
        this.errands = errands;
        list = new ListPane(ticked -> errands.run(() -> port.lighting(ticked)), reader);
        watch = new WatchPane(this::test, this::testEverywhere);
        JPanel left = column();
        left.add(list, "growx, wmin 0");
        JPanel right = column();
        right.add(program, "growx, wmin 0, hidemode 3");
        right.add(watch, "growx, wmin 0");
        MigLayout layout = new MigLayout("insets 0, fillx, gap 10", "", "[top]");
        Column page = new Column(layout);
        page.add(left);
        page.add(right);
        view.setOpaque(false);
        view.add(
                new Folding(page.scrolled(), narrow -> {
                    layout.setColumnConstraints(narrow ? "[grow, fill]" : "[50%, fill][50%, fill]");
                    layout.setComponentConstraints(left, "cell 0 0, growx, wmin 0, aligny top");
                    layout.setComponentConstraints(
                            right, (narrow ? "cell 0 1" : "cell 1 0") + ", growx, wmin 0, aligny top");
                    page.revalidate();
                }),
                "grow, wmin 0, hmin 0");
    }

    private static JPanel column() {
        JPanel column = new JPanel(new MigLayout("insets 0, fillx, wrap 1, gap 10", "[grow, fill]", ""));
        column.setOpaque(false);
        return column;
    }

    @Override
    public String title(Words its) {
        return its.text("screen.night");
    }

    @Override
    public JComponent view() {
        return view;
    }

    @Override
    public JComponent firstFocus() {
        return list.firstBox();
    }

    @Override
    public void keys(KeyRow row) {
        row.add(view, "ctrl S", its -> its.text("night.note"), list::noteIt);
        row.add(view, "ctrl K", its -> its.text("night.skip"), list::skipIt);
        row.add(view, "ctrl T", its -> its.text("night.test"), this::test);
        row.add(view, "ctrl E", its -> its.text("night.everywhere"), this::testEverywhere);
    }

    @Override
    public void show(Moment moment) {
        words = moment.words();
        moment.snapshot().kiln().filter(kiln -> !kiln.equals(asked)).ifPresent(this::ask);
        NightModel model = NightModel.of(moment.snapshot(), port.takesNotes(), numbers, words);
        list.show(model, words);
        program.show(model.card(), words);
        watch.show(model, port.alarmTrial().isPresent(), port.takesNotes(), words);
    }

    /** What the kiln's controller shows decides what has to be keyed in; the next moment shows it. */
    private void ask(String kiln) {
        asked = kiln;
        errands.run(
                () -> port.numbers(kiln),
                found -> numbers = kiln.equals(asked) ? found : numbers,
                failure -> LOG.warn("the card is in true degrees: {}", failure.getMessage()));
    }

    /** Rings everywhere; the strip of alarms on the Now screen, and Ctrl+Enter there, takes the answer. */
    private void testEverywhere() {
        if (!watch.isTestableEverywhere()) {
            return;
        }
        errands.run(port::ringTest);
        watch.tested(false, words.text("night.rings_everywhere"));
    }

    private void test() {
        Optional<AlarmTrial> trial = port.alarmTrial();
        if (trial.isEmpty() || !watch.isTestable()) {
            return;
        }
        watch.tested(true, words.text("alarm_test.begins"));
        // On a thread of its own: it waits for the sound, and nobody else's errand waits for it.
        trials.run(
                trial.get()::tryIt,
                trouble -> {
                    if (trouble.isPresent()) {
                        watch.tested(false, trouble.get());
                    } else {
                        ask(trial.get());
                    }
                },
                failure -> watch.tested(false, words.text("night.test_failed", failure.getMessage())));
    }

    private void ask(AlarmTrial trial) {
        Object[] answers = {words.text("night.heard"), words.text("night.not_heard")};
        int answer = JOptionPane.showOptionDialog(
                view,
                words.text("night.heard_ask"),
                words.text("night.test"),
                JOptionPane.DEFAULT_OPTION,
                JOptionPane.QUESTION_MESSAGE,
                null,
                answers,
                answers[1]);
        if (answer == 0) {
            errands.run(trial::heard);
        }
        watch.tested(false, words.text(answer == 0 ? "alarm_test.kept" : "alarm_test.not_heard"));
    }
}
