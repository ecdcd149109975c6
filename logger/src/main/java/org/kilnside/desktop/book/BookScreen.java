package org.kilnside.desktop.book;

import java.awt.CardLayout;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;
import javax.swing.JComponent;
import javax.swing.JPanel;
import org.kilnside.book.CurveSketch;
import org.kilnside.book.KnownBatch;
import org.kilnside.book.WrittenRecord;
import org.kilnside.chart.Overlay;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.review.Review;
import org.kilnside.wording.Words;

/**
 * The firing book, as a screen of the window: the list, and the firing that is open. Everything that may wait for the disk
 * is an errand on a thread of this screen's own, so that a note on the live firing never waits behind a long list.
 */
public final class BookScreen implements Screen, Opening.Answers {
    private static final String LIST = "list";
    private static final String OPENED = "opened";

    private final BookAccess book;
    private final Errands errands = new Errands();
    private final CardLayout cards = new CardLayout();
    private final JPanel view = new JPanel(cards);
    private final FiringsPane firings;
    private final OpenedPane opened;
    private final RecordKeeper keeper;
    private final SketchRun sketches;
    private final Opening opening;
    private final Set<Long> marked = new LinkedHashSet<>();
    private Words words;
    private KeyRow row;
    private FiringList list = FiringList.EMPTY;
    private Optional<OpenedModel> model = Optional.empty();
    private List<KnownBatch> known = List.of();
    private Optional<String> caution = Optional.empty();
    private Optional<String> trouble = Optional.empty();

    /** What keeps the book itself from being read; gone as soon as it can be. */
    private Optional<String> bookTrouble = Optional.empty();

    private boolean read;
    private final BookWatch watch;
    private boolean quartz;

    /**
     * Builds the screen.
     *
     * @param book called on this screen's own thread only
     */
    public BookScreen(Words words, BookAccess book) {
        this.words = words;
        this.book = book;
        firings = new FiringsPane(words, book::now, this::look, this::sortBy, this::openSelected);
        keeper = new RecordKeeper(book, errands, this::recordIsNow, this::changeFailed);
        sketches = new SketchRun(book, errands, this::sketched, this::failed);
        opening = new Opening(book, errands, this);
        opened = new OpenedPane(
                words,
                this::layOver,
                this::mark,
                new RecordDesk(book, errands, keeper, () -> model, new BookWindows(this, view)));
        view.setOpaque(false);
        view.add(firings, LIST);
        view.add(opened, OPENED);
        KeyRow.bindHere(firings.table(), "ENTER", this::openSelected);
        KeyRow.bindHere(firings.table(), "SPACE", this::toggleMark);
        // Read before anybody looks: then list and curves are there when the screen is opened.
        watch = new BookWatch(book, errands, () -> model.map(its -> its.first().number()), new Noticed());
        watch.look();
    }

    @Override
    public String title(Words its) {
        return its.text("screen.book");
    }

    @Override
    public JComponent view() {
        return view;
    }

    @Override
    public JComponent firstFocus() {
        return model.isPresent() ? opened.chart() : firings.table();
    }

    @Override
    public void keys(KeyRow its) {
        row = its;
        row.tell("ENTER", text("key.open", () -> model.isEmpty()), this::openSelected);
        row.tell("SPACE", text("key.mark", () -> model.isEmpty()), this::toggleMark);
        row.add(view, "ctrl F", text("key.search", () -> model.isEmpty()), firings::search);
        row.tell(FiringsTable.NEXT_ORDER, text("key.sort", () -> model.isEmpty()), () -> sortBy(list.nextOrder()));
        row.tell(FiringsTable.TURN_ROUND, text("key.turn_round", () -> model.isEmpty()), () -> sortBy(list.order()));
        row.add(view, "ESCAPE", text("key.back", () -> model.isPresent()), this::back);
        row.add(
                view,
                "HOME",
                text("key.whole", () -> model.isPresent()),
                () -> opened.chart().whole());
        row.add(view, "ctrl T", text("key.common", this::severalAreOpen), opened.common()::toggle);
        row.add(view, "ctrl Z", text("key.undo", keeper::canUndo), keeper::undo);
        row.add(view, "ctrl Y", text("key.redo", keeper::canRedo), keeper::redo);
        row.add(view, "F12", text("key.quartz", () -> model.isPresent()), this::toggleQuartz);
        opened.keys(view);
    }

    private static Function<Words, String> text(String key, Supplier<Boolean> counts) {
        return words -> counts.get() ? words.text(key) : "";
    }

    private boolean severalAreOpen() {
        return model.isPresent() && !model.get().isAlone();
    }

    @Override
    public void show(Moment moment) {
        boolean others = !moment.words().equals(words) || moment.quartz() != quartz;
        if (moment.quartz() != quartz) {
            quartz = moment.quartz();
            model = model.map(its -> its.withQuartz(quartz));
        }
        words = moment.words();
        watch.tick(moment.nowMs());
        if (others) {
            showAll();
        }
    }

    /** What the watch over the book saw. */
    private final class Noticed implements BookWatch.Seen {
        @Override
        public void well() {
            bookTrouble = Optional.empty();
        }

        @Override
        public void listChanged() {
            readList();
        }

        @Override
        public void batches(List<KnownBatch> all) {
            known = all;
        }

        @Override
        public void record(long number, WrittenRecord record) {
            if (!keeper.isBusy()) {
                recordIsNow(number, record);
            }
        }

        @Override
        public void unreadable(Exception failure) {
            read = true;
            bookTrouble = Optional.of(BookTrouble.sentence(failure, words));
            showAll();
        }
    }

    private void recordIsNow(long number, WrittenRecord record) {
        if (model.isPresent() && model.get().first().number() == number) {
            WrittenRecord before = model.get().first().record();
            boolean otherCones = !before.cones().equals(record.cones());
            if (!before.equals(record)) {
                trouble = Optional.empty();
                model = Optional.of(model.get().with(model.get().first().with(record)));
                showAll();
            }
            if (otherCones) {
                opening.study(model.get().first());
            }
        } else if (row != null) {
            row.show(words);
        }
    }

    /** A change was not made: the record is read anew, so that the person sees what stands there now. */
    private void changeFailed(Exception failure) {
        failed(failure);
        watch.lookSoon();
        model.map(its -> its.first().number())
                .ifPresent(number -> errands.run(
                        () -> book.record(number),
                        record -> {
                            Optional<String> said = trouble;
                            if (model.isPresent() && model.get().first().number() == number) {
                                model = Optional.of(
                                        model.get().with(model.get().first().with(record)));
                            }
                            trouble = said;
                            showAll();
                        },
                        this::failed));
    }

    private void readList() {
        errands.run(
                book::list,
                found -> {
                    read = true;
                    list = list.with(found.firings());
                    caution = found.caution();
                    marked.retainAll(
                            found.firings().stream().map(f -> f.number()).toList());
                    sketches.begin(list.toSketch());
                    showAll();
                },
                this::failed);
    }

    private void sketched(long number, CurveSketch sketch) {
        list = list.with(number, sketch);
        showList();
    }

    private Optional<String> busy() {
        if (opening.isOpening()) {
            return Optional.of(words.text("firings.opening"));
        }
        return sketches.isLong()
                ? Optional.of(words.text("firings.sketching", sketches.done(), sketches.all()))
                : Optional.empty();
    }

    @Override
    public void failed(Exception failure) {
        trouble = Optional.of(BookTrouble.sentence(failure, words));
        showAll();
    }

    private void look(FiringList.Filter filter) {
        list = list.with(filter);
        showList();
    }

    private void sortBy(FiringList.Order order) {
        list = list.by(order);
        showList();
    }

    private void toggleMark() {
        firings.table().selected().ifPresent(number -> {
            if (!marked.remove(number)) {
                marked.add(number);
            }
            trouble = marked.size() > Overlay.MOST_LINES
                    ? Optional.of(words.text("overlay.too_many", Overlay.MOST_LINES))
                    : Optional.empty();
            while (marked.size() > Overlay.MOST_LINES) {
                marked.remove(number);
            }
            showList();
        });
    }

    /** Opens the firing one stands on; those marked are laid over it. */
    private void openSelected() {
        firings.table().selected().ifPresent(number -> {
            List<Long> numbers = new ArrayList<>(List.of(number));
            marked.stream().filter(other -> !other.equals(number)).forEach(numbers::add);
            open(numbers.subList(0, Math.min(numbers.size(), Overlay.MOST_LINES)));
        });
    }

    private void open(List<Long> numbers) {
        trouble = Optional.empty();
        opening.open(numbers);
        showList();
    }

    @Override
    public void opened(List<OpenedFiring> found) {
        model = Optional.of(OpenedModel.of(found).withQuartz(quartz));
        cards.show(view, OPENED);
        showAll();
        opened.chart().whole();
        opened.chart().requestFocusInWindow();
    }

    @Override
    public void studied(FiringStudy study) {
        model = model.map(its -> its.with(study));
        showAll();
    }

    @Override
    public void reviewed(Review review) {
        model = model.map(its -> its.with(review));
        showAll();
    }

    /** Stops what is under way; then back to the list; there, forgets the search. */
    private void back() {
        if (opening.isOpening()) {
            opening.giveUp();
        } else if (model.isPresent() && opened.load().isFormOpen()) {
            opened.load().closeForm();
        } else if (model.isPresent()) {
            opened.notes().save();
            opening.giveUp();
            model = Optional.empty();
            trouble = Optional.empty();
            cards.show(view, LIST);
            firings.table().requestFocusInWindow();
        } else if (sketches.isLong()) {
            sketches.stop();
        } else if (!list.filter().isNone() || firings.isSearching()) {
            firings.clearSearch();
            firings.table().requestFocusInWindow();
        } else {
            marked.clear();
        }
        showAll();
    }

    /** The words of now, for what a deed says. */
    Words words() {
        return words;
    }

    OpenedPane opened() {
        return opened;
    }

    /** Says what a person has to know, until something else is said. */
    void say(String sentence) {
        trouble = Optional.of(sentence);
        showAll();
    }

    @Override
    public boolean mayLeave(Runnable later) {
        // Nothing is ever unsaved but what is being written this second.
        opened.notes().save();
        opened.load().form().save();
        if (!keeper.isBusy()) {
            return true;
        }
        keeper.onceIdle(failure -> {
            if (failure.isEmpty() || new BookWindows(this, view).leavesUnsaved(failure.get())) {
                opened.notes().letGo();
                later.run();
            }
        });
        return false;
    }

    private void layOver(OptionalDouble celsius) {
        model = model.map(its -> its.withCommon(celsius));
        showAll();
    }

    private void mark(OptionalLong elapsedMs) {
        if (model.isPresent()) {
            model = model.map(its -> its.marking(elapsedMs));
            opened.mark(model.get(), words);
        }
    }

    private void toggleQuartz() {
        model = model.map(its -> its.withQuartz(!its.quartz()));
        showAll();
    }

    private void showAll() {
        showList();
        model.ifPresent(its ->
                opened.show(its, known, busy(), trouble.or(() -> bookTrouble).or(() -> caution), words));
        if (row != null) {
            row.show(words);
        }
    }

    private void showList() {
        if (model.isEmpty()) {
            List<FiringLine> lines = list.visible(words).stream()
                    .map(firing -> FiringLine.of(firing, marked.contains(firing.number()), words))
                    .toList();
            firings.show(list, lines, busy(), trouble.or(() -> bookTrouble).or(() -> caution), read, words);
        }
    }
}
