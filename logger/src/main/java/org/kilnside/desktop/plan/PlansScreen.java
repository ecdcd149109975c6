package org.kilnside.desktop.plan;

import java.awt.event.ActionEvent;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.JComponent;
import javax.swing.JOptionPane;
import javax.swing.KeyStroke;
import org.kilnside.desktop.plan.PlansModel.Field;
import org.kilnside.desktop.plan.PlansModel.Place;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.wording.Words;

/** Plans: the library and the editor, as a screen of the window. */
public final class PlansScreen implements Screen {
    /** In front it is shown once a second at least: after a longer time it was away. */
    private static final long AWAY_MS = 2500;

    private final PlansModel model;
    private final PlansView view;
    private Words words;
    private boolean quartz;
    private long lookedMs = -2000;
    private long shownMs;

    /**
     * Builds the screen.
     *
     * @param shelf where plans and kilns are kept; asked on the errands' thread only
     */
    public PlansScreen(Words words, Errands errands, PlanShelf shelf) {
        this.words = words;
        PlansModel.Runner runner = new PlansModel.Runner() {
            @Override
            public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
                errands.run(work, found, failed);
            }
        };
        model = new PlansModel(shelf, runner, words, this::changed);
        view = new PlansView(model, words, this::open);
        model.start();
    }

    @Override
    public String title(Words language) {
        return language.text("screen.plans");
    }

    @Override
    public JComponent view() {
        return view;
    }

    @Override
    public void keys(KeyRow row) {
        row.add(view, "ctrl S", its -> its.text("plans.key.save"), model.keeping()::save);
        row.add(view, "ctrl Z", its -> its.text("plans.key.undo"), model::undo);
        row.add(view, "ctrl Y", its -> its.text("plans.key.redo"), model::redo);
        row.add(view, "ctrl I", its -> its.text("plans.key.insert"), this::insert);
        row.add(view, "ctrl D", its -> its.text("plans.key.remove"), this::remove);
        row.add(view, "ctrl N", its -> its.text("plans.key.new"), this::createNew);
        row.add(view, "ctrl K", its -> its.text("plans.key.copy"), model.keeping()::saveCopy);
        row.add(view, "ctrl P", its -> its.text("plans.key.print"), model.keeping()::print);
        row.add(
                view,
                "F11",
                its -> its.text("plans.key.chart"),
                () -> view.chart().requestFocusInWindow());
        row.add(
                view,
                "F12",
                its -> its.text("plans.key.library"),
                () -> view.library().requestFocusInWindow());
        KeyRow.bind(view, "ctrl T", model::takeTop);
        KeyRow.bind(view, "ctrl shift T", model::takeHold);
        KeyRow.bind(view, "alt UP", () -> model.move(-1));
        KeyRow.bind(view, "alt DOWN", () -> model.move(1));
        onChart("LEFT", () -> view.chart().pick(-1));
        onChart("RIGHT", () -> view.chart().pick(1));
        onChart("UP", () -> view.chart().nudge(1, 0));
        onChart("DOWN", () -> view.chart().nudge(-1, 0));
        onChart("ctrl LEFT", () -> view.chart().nudge(0, -1));
        onChart("ctrl RIGHT", () -> view.chart().nudge(0, 1));
    }

    /** While the chart has the keyboard; elsewhere arrows do what they always do. */
    private void onChart(String key, Runnable deed) {
        view.chart().getInputMap(JComponent.WHEN_FOCUSED).put(KeyStroke.getKeyStroke(key), key);
        view.chart().getActionMap().put(key, new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent event) {
                deed.run();
            }
        });
    }

    @Override
    public void show(Moment moment) {
        words = moment.words();
        quartz = moment.quartz();
        model.speak(words);
        if (moment.nowMs() - shownMs > AWAY_MS) {
            model.cameBack();
        }
        shownMs = moment.nowMs();
        if (moment.nowMs() - lookedMs >= 2000 || moment.nowMs() < lookedMs) {
            lookedMs = moment.nowMs();
            model.keeping().lookOnDisk();
        }
        moment.snapshot().kiln().ifPresent(model::fired);
        changed();
    }

    @Override
    public JComponent firstFocus() {
        return view.library();
    }

    @Override
    public boolean mayLeave(Runnable later) {
        return !model.isUnsaved() || asked(later);
    }

    private void changed() {
        if (view != null) {
            view.show(words, quartz, model);
        }
    }

    private void insert() {
        model.insert();
        view.segments().focus(new Place(Field.RATE, model.selected()));
    }

    private void remove() {
        model.remove();
        view.segments().focus(new Place(Field.RATE, model.selected()));
    }

    private void open(PlanShelf.Entry entry) {
        if (!model.isUnsaved() || asked(() -> open(entry))) {
            model.keeping().open(entry.shortName());
        }
    }

    private void createNew() {
        if (!model.isUnsaved() || asked(this::createNew)) {
            model.keeping().createNew();
        }
    }

    /**
     * What is to become of the changes; true when they are seen to.
     *
     * @param later what to go on with once they are saved; not where they could not be
     */
    private boolean asked(Runnable later) {
        Object[] answers = {
            words.text("plans.leave.save"), words.text("plans.leave.discard"), words.text("plans.leave.stay")
        };
        int answer = JOptionPane.showOptionDialog(
                view,
                words.text("plans.leave", model.plan().name()),
                "Kilnside",
                JOptionPane.DEFAULT_OPTION,
                JOptionPane.QUESTION_MESSAGE,
                null,
                answers,
                answers[0]);
        if (answer == 0) {
            model.keeping().save(later);
            return false;
        }
        if (answer == 1) {
            model.keeping().discard();
            return true;
        }
        return false;
    }
}
