package org.kilnside.desktop.book;

import java.awt.CardLayout;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Supplier;
import javax.swing.JComponent;
import javax.swing.JPanel;
import org.kilnside.book.KnownBatch;
import org.kilnside.book.WrittenRecord;
import org.kilnside.chart.Overlay;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.wording.Words;

/**
 * The firing book, as a screen of the window: the list, and the firing that is open. Everything that may wait for the disk
 * is an errand on a thread of this screen's own, so that a note on the live firing never waits behind a long list.
 */
public final class BookScreen implements Screen {
    private static final String LIST = "list";
    private static final String OPENED = "opened";

    /** How often the book is asked whether somebody else changed it, ms. */
    private static final long LOOK_EVERY_MS = 2_000;

    private final BookAccess book;
    private final Errands errands = new Errands();
    private final CardLayout cards = new CardLayout();
    private final JPanel view = new JPanel(cards);
    private final FiringsPane firings;
    private final OpenedPane opened;
    private final RecordKeeper keeper;
    private final Set<Long> marked = new LinkedHashSet<>();
    private Words words;
    private KeyRow row;
    private FiringList list = FiringList.EMPTY;
    private Optional<OpenedModel> model = Optional.empty();
    private List<KnownBatch> known = List.of();
    private Optional<String> caution = Optional.empty();
    private Optional<String> trouble = Optional.empty();
    private boolean read;
    private boolean asking;
    private OptionalLong changes = OptionalLong.empty();
    private long lookedAtMs = Long.MIN_VALUE / 2;
    private List<Long> toSketch = List.of();
    private int sketched;
    private boolean sketching;
    private boolean opening;
    private boolean quartz;

    /** Which wish a slow answer belongs to: an answer to a wish given up is dropped. */
    private int wish;

    /**
     * Builds the screen.
     *
     * @param book called on this screen's own thread only
     */
    public BookScreen(Words words, BookAccess book) {
        this.words = words;
        this.book = book;
        firings = new FiringsPane(words, this::look, this::sortBy, this::openSelected);
        keeper = new RecordKeeper(book, errands, this::recordIsNow, this::changeFailed);
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
        row.add(view, "ctrl F", text("key.search", () -> model.isEmpty()), this::search);
        row.add(view, "ctrl O", text("key.sort", () -> model.isEmpty()), this::sortByNext);
        row.add(view, "ESCAPE", text("key.back", () -> model.isPresent()), this::back);
        row.add(
                view,
                "HOME",
                text("key.whole", () -> model.isPresent()),
                () -> opened.chart().whole());
        row.add(view, "ctrl T", text("key.common", this::severalAreOpen), this::meetElsewhere);
        row.add(view, "ctrl Z", text("key.undo", keeper::canUndo), keeper::undo);
        row.add(view, "ctrl Y", text("key.redo", keeper::canRedo), keeper::redo);
        row.add(view, "F12", text("key.quartz", () -> model.isPresent()), this::toggleQuartz);
        opened.keys(view);
        OverlayPane chart = opened.chart();
        for (String key : new String[] {"PLUS", "ADD", "EQUALS"}) {
            KeyRow.bindHere(chart, key, () -> chart.zoom(0.7));
        }
        for (String key : new String[] {"MINUS", "SUBTRACT"}) {
            KeyRow.bindHere(chart, key, () -> chart.zoom(1 / 0.7));
        }
        KeyRow.bindHere(chart, "LEFT", () -> chart.pan(-0.2));
        KeyRow.bindHere(chart, "RIGHT", () -> chart.pan(0.2));
        KeyRow.bindHere(chart, "ctrl LEFT", () -> chart.movePointer(-0.01));
        KeyRow.bindHere(chart, "ctrl RIGHT", () -> chart.movePointer(0.01));
    }

    private static java.util.function.Function<Words, String> text(String key, Supplier<Boolean> counts) {
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
        if (!asking && moment.nowMs() - lookedAtMs > LOOK_EVERY_MS) {
            lookedAtMs = moment.nowMs();
            lookIntoTheBook();
        }
        if (others) {
            showAll();
        }
    }

    /** Asks whether the list or the open record has changed, and reads anew what has. */
    private void lookIntoTheBook() {
        asking = true;
        Optional<Long> open = model.map(its -> its.first().number());
        OptionalLong before = changes;
        errands.run(
                () -> {
                    long now = book.changes();
                    boolean different = before.isEmpty() || before.getAsLong() != now;
                    return new Look(
                            now,
                            open.isEmpty() ? Optional.empty() : Optional.of(book.record(open.get())),
                            different ? Optional.of(book.batches()) : Optional.empty());
                },
                found -> {
                    asking = false;
                    trouble = trouble.filter(said -> model.isPresent());
                    if (before.isEmpty() || before.getAsLong() != found.changes()) {
                        changes = OptionalLong.of(found.changes());
                        readList();
                    }
                    found.batches().ifPresent(batches -> known = batches);
                    if (!keeper.isBusy()) {
                        found.record().ifPresent(record -> recordIsNow(open.orElseThrow(), record));
                    }
                },
                failure -> {
                    asking = false;
                    read = true;
                    fail(failure);
                });
    }

    private record Look(long changes, Optional<WrittenRecord> record, Optional<List<KnownBatch>> batches) {}

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
                review(model.get().first(), wish);
            }
        } else if (row != null) {
            row.show(words);
        }
    }

    /** A change was not made: the record is read anew, so that the person sees what stands there now. */
    private void changeFailed(Exception failure) {
        fail(failure);
        lookedAtMs = Long.MIN_VALUE / 2;
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
                        this::fail));
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
                    showAll();
                    sketchTheRest();
                },
                this::fail);
    }

    /** Works out the small curves that are not there yet, one errand each, so that other errands come in between. */
    private void sketchTheRest() {
        if (sketching) {
            return;
        }
        toSketch = list.toSketch();
        sketched = 0;
        sketching = !toSketch.isEmpty();
        sketchNext();
    }

    private void sketchNext() {
        if (!sketching || sketched >= toSketch.size()) {
            sketching = false;
            showAll();
            return;
        }
        long number = toSketch.get(sketched);
        errands.run(
                () -> book.sketch(number),
                sketch -> {
                    sketched++;
                    list = list.with(number, sketch);
                    showList();
                    sketchNext();
                },
                failure -> {
                    // One firing that cannot be read does not keep the others from being drawn.
                    sketched++;
                    fail(failure);
                    sketchNext();
                });
    }

    private Optional<String> busy() {
        return sketching && toSketch.size() > 1
                ? Optional.of(words.text("firings.sketching", sketched, toSketch.size()))
                : opening ? Optional.of(words.text("firings.opening")) : Optional.empty();
    }

    void fail(Exception failure) {
        opening = false;
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

    private void sortByNext() {
        FiringList.Order[] orders = FiringList.Order.values();
        sortBy(orders[(list.order().ordinal() + 1) % orders.length]);
    }

    private void search() {
        if (model.isEmpty()) {
            firings.search();
        }
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
        int asked = ++wish;
        opening = true;
        trouble = Optional.empty();
        showList();
        openNext(numbers, new ArrayList<>(), asked);
    }

    /** One after the other, so that Esc can stop it in between. */
    private void openNext(List<Long> numbers, List<OpenedFiring> done, int asked) {
        if (done.size() == numbers.size()) {
            opening = false;
            model = Optional.of(OpenedModel.of(done).withQuartz(quartz));
            cards.show(view, OPENED);
            showAll();
            opened.chart().whole();
            opened.chart().requestFocusInWindow();
            study(done.get(0), asked);
            return;
        }
        long number = numbers.get(done.size());
        errands.run(
                () -> book.open(number),
                firing -> {
                    if (asked == wish) {
                        done.add(firing);
                        openNext(numbers, done, asked);
                    }
                },
                failure -> {
                    if (asked == wish) {
                        fail(failure);
                    }
                });
    }

    private void study(OpenedFiring firing, int asked) {
        errands.run(
                () -> book.study(firing),
                study -> {
                    if (asked == wish && model.isPresent()) {
                        model = Optional.of(model.get().with(study));
                        showAll();
                        review(model.get().first(), asked);
                    }
                },
                failure -> {
                    if (asked == wish) {
                        fail(failure);
                    }
                });
    }

    private void review(OpenedFiring firing, int asked) {
        errands.run(
                () -> book.review(firing),
                found -> {
                    if (asked == wish && model.isPresent() && found.isPresent()) {
                        model = Optional.of(model.get().with(found.get()));
                        showAll();
                    }
                },
                failure -> {
                    if (asked == wish) {
                        fail(failure);
                    }
                });
    }

    /** Stops what is under way; then back to the list; there, forgets the search. */
    private void back() {
        if (opening) {
            wish++;
            opening = false;
        } else if (model.isPresent() && opened.load().isFormOpen()) {
            opened.load().closeForm();
        } else if (model.isPresent()) {
            opened.notes().save();
            wish++;
            model = Optional.empty();
            trouble = Optional.empty();
            cards.show(view, LIST);
            firings.table().requestFocusInWindow();
        } else if (sketching) {
            sketching = false;
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
    public boolean mayLeave() {
        // Nothing is ever unsaved but what is being written this second.
        opened.notes().save();
        opened.load().form().save();
        return true;
    }

    private void layOver(OptionalDouble celsius) {
        model = model.map(its -> its.withCommon(celsius));
        showAll();
    }

    private void meetElsewhere() {
        if (severalAreOpen()) {
            opened.common().toggle();
        }
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
        model.ifPresent(its -> opened.show(its, known, busy(), trouble.or(() -> caution), words));
        if (row != null) {
            row.show(words);
        }
    }

    private void showList() {
        if (model.isEmpty()) {
            List<FiringLine> lines = list.visible(words).stream()
                    .map(firing -> FiringLine.of(firing, marked.contains(firing.number()), words))
                    .toList();
            firings.show(list, lines, busy(), trouble.or(() -> caution), read, words);
        }
    }
}
