package org.kilnside.desktop.week;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.kilnside.session.Snapshot;
import org.kilnside.week.Load;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Week;
import org.kilnside.wording.Words;

/**
 * What the Week screen knows and does, without drawing anything: the own week, what a person typed that is no value yet,
 * and when which load is lit. Confined to one thread.
 */
final class WeekModel {
    /** Runs what may wait and brings back what it found. */
    interface Runner {
        <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed);
    }

    /**
     * One field.
     *
     * @param load counted from 1; 0 for a field of the whole week
     */
    record Place(WeekField field, int load) {}

    /** What was typed and is no value, and the sentence that says so. */
    record Rejected(String text, String sentence) {}

    /** The last thing that happened; said by its key, so that it changes language. */
    record Notice(String key, List<String> filling, boolean isTrouble) {
        String text(Words words) {
            return words.text(key, filling.toArray());
        }
    }

    private final WeekShelf shelf;
    private final Runner disk;
    private final Runnable changed;
    private final LiveWeek live;
    private final WeekKeeping keeping;
    private final LoadDeeds loads;
    private final WeekHistory history = new WeekHistory();
    private final Map<Place, Rejected> rejected = new LinkedHashMap<>();
    private List<WeekShelf.PlanChoice> plans = List.of();
    private List<WeekShelf.KilnChoice> kilns = List.of();
    private Optional<Notice> notice = Optional.empty();
    private Optional<Snapshot> newest = Optional.empty();
    private int selected;
    private Words words;

    /**
     * A model.
     *
     * @param disk runs what waits for the disk
     * @param thinker runs what takes seconds to work out; nobody else's errands wait for it
     */
    WeekModel(WeekShelf shelf, Runner disk, Runner thinker, Words words, Runnable changed) {
        this.shelf = shelf;
        this.disk = disk;
        this.words = words;
        this.changed = changed;
        live = new LiveWeek(shelf, thinker, changed);
        keeping = new WeekKeeping(this, shelf, disk);
        loads = new LoadDeeds(this, shelf, disk);
    }

    /** Reads what there is. */
    void start() {
        listAgain();
        keeping.open();
    }

    private void listAgain() {
        disk.run(
                () -> new Choices(shelf.plans(), shelf.kilns()),
                found -> {
                    plans = found.plans();
                    kilns = found.kilns();
                    changed.run();
                },
                this::failed);
    }

    private record Choices(List<WeekShelf.PlanChoice> plans, List<WeekShelf.KilnChoice> kilns) {}

    void speak(Words language) {
        words = language;
    }

    Words words() {
        return words;
    }

    Optional<Week> week() {
        return history.now();
    }

    WeekKeeping keeping() {
        return keeping;
    }

    /** What may be done to the loads. */
    LoadDeeds loads() {
        return loads;
    }

    LiveWeek live() {
        return live;
    }

    List<WeekShelf.PlanChoice> plans() {
        return plans;
    }

    List<WeekShelf.KilnChoice> kilns() {
        return kilns;
    }

    Optional<Notice> notice() {
        return notice;
    }

    Optional<Rejected> rejected(Place place) {
        return Optional.ofNullable(rejected.get(place));
    }

    WeekHistory history() {
        return history;
    }

    /** The load looked at, counted from 1; 0 for the week itself. */
    int selected() {
        return Math.min(selected, week().map(its -> its.loads().size()).orElse(0));
    }

    void select(int number) {
        if (number != selected() && number >= 0) {
            selected = number;
            history.settle();
            changed.run();
        }
    }

    /** The load looked at; empty for the week itself. */
    Optional<Load> load() {
        return selected() == 0
                ? Optional.empty()
                : week().map(its -> its.loads().get(selected() - 1));
    }

    /** When that load is fired, as last planned; empty where it is not. */
    Optional<PlannedFiring> firing() {
        return load().flatMap(load -> live.answer().flatMap(answer -> answer.firing(load.name())));
    }

    /** The next firing in the order of their lighting, or the one before. */
    void selectFiring(int by) {
        live.answer().ifPresent(answer -> {
            List<PlannedFiring> firings = answer.plan().firings();
            int at = firing().map(firings::indexOf).orElse(by > 0 ? -1 : firings.size());
            int to = Math.max(0, Math.min(firings.size() - 1, at + by));
            if (!firings.isEmpty()) {
                selectLoad(answer.planned().loads().get(firings.get(to).load()).name());
            }
        });
    }

    private void selectLoad(String name) {
        week().ifPresent(its -> {
            for (int i = 0; i < its.loads().size(); i++) {
                if (its.loads().get(i).name().equals(name)) {
                    select(i + 1);
                }
            }
        });
    }

    /** Whether something can be changed: there is a week, and its file is one. */
    boolean isOpen() {
        return week().isPresent() && keeping.broken().isEmpty();
    }

    /** What a person left in a field, or chose. */
    void typed(Place place, String text) {
        if (!isOpen() || place.load() > week().orElseThrow().loads().size()) {
            return;
        }
        WeekTexts texts = new WeekTexts(words, shelf.now());
        Week week = week().orElseThrow();
        if (rejected(place).isEmpty()
                && texts.of(place.field(), place.load(), week).equals(text)) {
            return;
        }
        if (place.field() == WeekField.PLAN) {
            plans.stream()
                    .filter(plan -> plan.shortName().equals(text))
                    .findFirst()
                    .ifPresent(plan -> edit(place, WeekDraft.changed(week, place.load(), load -> {
                        load.planName = plan.shortName();
                        load.plan = plan.plan();
                    })));
            return;
        }
        WeekTexts.Typed typed = texts.read(place.field(), place.load(), text, week);
        if (typed.week().isPresent()) {
            rejected.remove(place);
            edit(place, typed.week().get());
        } else {
            rejected.put(place, new Rejected(text, typed.problem().orElseThrow()));
        }
        changed.run();
    }

    /** Lets go of what was typed into a field and is no value. */
    void forget(Place place) {
        rejected.remove(place);
    }

    /** The field was left: the next change of it is a step of its own. */
    void left() {
        history.settle();
    }

    private void edit(Object what, Week next) {
        if (history.change(next, what)) {
            notice = Optional.empty();
            keeping.save(next);
            ask();
        }
        changed.run();
    }

    /** Changes which loads there are, or their order: a step of its own. */
    void restructure(Week next, int select) {
        history.settle();
        rejected.keySet().removeIf(place -> place.load() > 0);
        selected = select;
        edit(null, next);
        history.settle();
    }

    /** One step back; what was typed and is no value goes first. */
    void undo() {
        if (!rejected.isEmpty()) {
            rejected.clear();
            changed.run();
        } else if (keeping.broken().isEmpty()) {
            staying(history::undo);
        }
    }

    /** One step forward again. */
    void redo() {
        if (keeping.broken().isEmpty()) {
            rejected.clear();
            staying(history::redo);
        }
    }

    /** The load that is looked at stays so, wherever it stands in the list now. */
    private void staying(BooleanSupplier step) {
        Optional<String> name = load().map(Load::name);
        if (step.getAsBoolean()) {
            name.ifPresent(this::selectLoad);
            stepped();
        }
    }

    private void stepped() {
        notice = Optional.empty();
        week().ifPresent(keeping::save);
        ask();
        changed.run();
    }

    boolean canUndo() {
        return keeping.broken().isEmpty() && (!rejected.isEmpty() || history.canUndo());
    }

    boolean canRedo() {
        return keeping.broken().isEmpty() && history.canRedo();
    }

    /** Somebody else changed the file; the way back to what was here stays. */
    void takeFromDisk(Week week) {
        boolean first = week().isEmpty() && !history.canUndo();
        Optional<String> name = load().map(Load::name);
        history.settle();
        if (history.change(week, null)) {
            name.ifPresent(this::selectLoad);
            rejected.clear();
            if (!first) {
                tell("week.taken_from_disk", false);
            }
            ask();
        }
        history.settle();
        changed.run();
    }

    /** Somebody took the file away. */
    void goneFromDisk() {
        history.gone();
        rejected.clear();
        live.forget();
    }

    private void ask() {
        week().ifPresentOrElse(its -> live.ask(its, taken(), shelf.now()), live::forget);
    }

    /** Time goes on, and so may the kiln. */
    void tick(Snapshot snapshot) {
        newest = Optional.of(snapshot);
        if (live.isOutOfDate(taken(), shelf.now())) {
            ask();
            // A day written without its date may be another one by now.
            keeping.open();
        }
    }

    /** The screen is in front again: what was changed elsewhere meanwhile counts. */
    void cameBack() {
        listAgain();
        keeping.look();
        if (!live.isWorking()) {
            ask();
        }
    }

    /** Whether the week's kiln is being fired just now. */
    KilnTaken taken() {
        return newest.flatMap(snapshot -> week().map(its -> KilnTaken.of(snapshot, its.kiln(), kilns)))
                .orElse(KilnTaken.FREE);
    }

    Instant now() {
        return shelf.now();
    }

    void tell(String key, boolean isTrouble, String... filling) {
        notice = Optional.of(new Notice(key, List.of(filling), isTrouble));
        changed.run();
    }

    void failed(Exception trouble) {
        tell("plans.trouble", true, String.valueOf(trouble.getMessage()));
    }

    void changed() {
        changed.run();
    }
}
