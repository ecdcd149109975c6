package org.kilnside.desktop.week;

import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import javax.swing.JComponent;
import javax.swing.SwingUtilities;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.wording.Words;

/** Several loads, one kiln and a date: when to light each, as a screen of the window. */
public final class WeekScreen implements Screen {
    /** In front it is shown once a second at least: after a longer time it was away. */
    private static final long AWAY_MS = 2500;

    private static final long LOOK_MS = 2000;

    private final WeekModel model;
    private final WeekView view;
    private Words words;
    private long shownMs;
    private long lookedMs;
    private boolean began;
    private Optional<KeyRow> row = Optional.empty();

    /**
     * Builds the screen.
     *
     * @param errands where what waits for the disk is sent
     * @param shelf where the week is kept and planned; asked on other threads only
     */
    public WeekScreen(Words words, Errands errands, WeekShelf shelf) {
        this.words = words;
        // A plan takes seconds to work out: nobody else's errand waits for it.
        model = new WeekModel(shelf, runner(errands), runner(new Errands()), words, this::changed);
        view = new WeekView(model);
    }

    private static WeekModel.Runner runner(Errands errands) {
        return new WeekModel.Runner() {
            @Override
            public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
                errands.run(work, found, failed);
            }
        };
    }

    @Override
    public String title(Words language) {
        return language.text("screen.week");
    }

    @Override
    public JComponent view() {
        return view;
    }

    @Override
    public void keys(KeyRow its) {
        row = Optional.of(its);
        its.add(
                view,
                "ctrl N",
                words(
                        () -> model.keeping().broken().isEmpty(),
                        () -> model.isOpen() ? "week.key.add" : "week.key.begin"),
                this::add);
        its.add(
                view,
                "ctrl D",
                words(() -> model.isOpen() && model.selected() > 0, () -> "week.key.remove"),
                this::remove);
        its.add(view, "ctrl Z", words(model::canUndo, () -> "key.undo"), this::undo);
        its.add(view, "ctrl Y", words(model::canRedo, () -> "key.redo"), this::redo);
        its.add(view, "ctrl E", words(model::isOpen, () -> "week.key.week"), this::whole);
        its.add(
                view,
                "F11",
                words(model::isOpen, () -> "week.key.days"),
                () -> view.canvas().requestFocusInWindow());
        its.add(
                view,
                "F12",
                words(model::isOpen, () -> "week.key.loads"),
                () -> view.listOfLoads().requestFocusInWindow());
        KeyRow.bind(view, "ctrl K", model.loads()::beginWithExample);
        KeyRow.bind(view, "alt UP", () -> move(-1));
        KeyRow.bind(view, "alt DOWN", () -> move(1));
    }

    /** What a key does, in words while it does it. */
    private static Function<Words, String> words(BooleanSupplier counts, Supplier<String> key) {
        return language -> counts.getAsBoolean() ? language.text(key.get()) : "";
    }

    private void add() {
        view.fields().commit();
        boolean wasOpen = model.isOpen();
        model.loads().add();
        SwingUtilities.invokeLater(() -> {
            if (wasOpen) {
                view.fields().begin();
            } else {
                view.listOfLoads().requestFocusInWindow();
            }
        });
    }

    private void remove() {
        view.fields().commit();
        model.loads().remove();
        view.listOfLoads().requestFocusInWindow();
    }

    private void undo() {
        view.fields().commit();
        model.undo();
    }

    private void redo() {
        view.fields().commit();
        model.redo();
    }

    private void move(int by) {
        view.fields().commit();
        model.loads().move(by);
    }

    /** The week itself: its fields, what it costs, and every caution. */
    private void whole() {
        view.fields().commit();
        model.select(0);
        view.fields().begin();
    }

    @Override
    public void show(Moment moment) {
        words = moment.words();
        model.speak(words);
        model.tick(moment.snapshot());
        if (!began) {
            began = true;
            lookedMs = moment.nowMs();
            model.start();
        } else if (moment.nowMs() - shownMs > AWAY_MS) {
            model.cameBack();
        }
        shownMs = moment.nowMs();
        if (moment.nowMs() - lookedMs >= LOOK_MS || moment.nowMs() < lookedMs) {
            lookedMs = moment.nowMs();
            model.keeping().look();
        }
        changed();
    }

    @Override
    public JComponent firstFocus() {
        return model.isOpen() ? view.listOfLoads() : view.begins();
    }

    @Override
    public boolean mayLeave(Runnable later) {
        view.fields().commit();
        return model.keeping().isSettled(later);
    }

    private void changed() {
        if (view != null) {
            view.show(model, words);
            row.ifPresent(its -> its.show(words));
        }
    }
}
