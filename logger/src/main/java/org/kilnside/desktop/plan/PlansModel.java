package org.kilnside.desktop.plan;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.WantedCone;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.Words;

/**
 * What the Plans screen knows and does, without drawing anything: the library, the plan being edited, what a person typed
 * that is no value yet, and what the plan will come to. Confined to one thread.
 */
final class PlansModel {
    /** Runs what may wait and brings back what it found: the window's errands, or a test's own. */
    interface Runner {
        <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed);
    }

    /** A field of the editor. */
    enum Field {
        NAME,
        AIM,
        CLAY,
        NOTES,
        RATE,
        TARGET,
        HOLD,
        LOAD,
        THICKNESS,
        WANTED,
        LIMIT,
        ROOM
    }

    /**
     * One field.
     *
     * @param segment counted from 1; 0 for a field of the whole plan
     */
    record Place(Field field, int segment) {
        /** Whether a save keeps it; else it is only of the question what the plan comes to. */
        boolean isOfThePlan() {
            return field.compareTo(Field.HOLD) <= 0;
        }

        static Place of(Field field) {
            return new Place(field, 0);
        }
    }

    /** What was typed and is no value, and the sentence that says so. */
    record Rejected(String text, String sentence) {}

    /** What stands under the plan's name: the last thing that happened; said by its key, so that it changes language. */
    record Notice(String key, List<String> filling, boolean isTrouble) {
        String text(Words words) {
            return words.text(key, filling.toArray());
        }
    }

    private final PlanShelf shelf;
    private final Runner runner;
    private final Runnable changed;
    private final PlanEditor editor;
    private final LiveOutlook outlook;
    private final PlanKeeping keeping;
    private final PlanTyping typing = new PlanTyping(this);
    private List<String> kilns = List.of();
    private Optional<Notice> notice = Optional.empty();
    private int selected = 1;
    private boolean kilnChosen;
    private Words words;

    PlansModel(PlanShelf shelf, Runner runner, Words words, Runnable changed) {
        this.shelf = shelf;
        this.runner = runner;
        this.words = words;
        this.changed = changed;
        editor = new PlanEditor(PlanEdits.blank(words.text("plans.new_name")));
        outlook = new LiveOutlook(runner, changed);
        keeping = new PlanKeeping(this, shelf, runner);
    }

    /** Fills the library and takes the first plan and kiln, unless one was chosen before. */
    void start() {
        runner.run(
                shelf::kilns,
                found -> {
                    kilns = found;
                    if (!found.isEmpty() && outlook.kilnName().isEmpty()) {
                        turnToKiln(found.get(0));
                    }
                    changed.run();
                },
                this::failed);
        keeping.start();
        ask();
    }

    void speak(Words language) {
        words = language;
    }

    List<String> kilns() {
        return kilns;
    }

    Schedule plan() {
        return editor.plan();
    }

    PlanEditor editor() {
        return editor;
    }

    PlanKeeping keeping() {
        return keeping;
    }

    LiveOutlook outlook() {
        return outlook;
    }

    Optional<Notice> notice() {
        return notice;
    }

    Optional<Rejected> rejected(Place place) {
        return typing.rejected(place);
    }

    int selected() {
        return Math.min(selected, plan().segments().size());
    }

    void select(int number) {
        if (number != selected && number >= 1) {
            selected = number;
            changed.run();
        }
    }

    /** Whether there is work a save would keep, typed texts that are no values included. */
    boolean isUnsaved() {
        return editor.isChanged() || typing.inPlan().isPresent();
    }

    /** What stands in a field now, as it is typed. */
    void typed(Place place, String text) {
        typing.typed(place, text, words);
        changed.run();
    }

    /** The field was left: the next change of it is a step of its own. */
    void left() {
        editor.settle();
    }

    void edit(Object what, Schedule next) {
        if (editor.change(next, what)) {
            notice = Optional.empty();
            ask();
        }
    }

    /** Changes the plan by hand on the chart; one pull is one step back. */
    void pulled(Schedule next) {
        edit("pull", next);
        changed.run();
    }

    void insert() {
        restructure(
                PlanEdits.inserted(plan(), selected()),
                Math.min(selected() + 1, plan().segments().size() + 1));
        if (plan().segments().get(selected() - 1) instanceof Segment.FreeCooling) {
            selected = Math.max(1, selected() - 1);
            changed.run();
        }
    }

    void remove() {
        restructure(PlanEdits.removed(plan(), selected()), Math.max(1, selected() - 1));
    }

    void move(int by) {
        restructure(PlanEdits.moved(plan(), selected(), by), selected() + by);
    }

    void toggleFreeCooling() {
        restructure(Optional.of(PlanEdits.freeCooling(plan(), !plan().endsInFreeCooling())), selected());
    }

    private void restructure(Optional<Schedule> next, int select) {
        if (next.isPresent()) {
            editor.settle();
            typing.forgetInSegments();
            edit(null, next.get());
            editor.settle();
            selected = select;
        }
        changed.run();
    }

    /** One step back; what was typed and is no value goes first. */
    void undo() {
        if (!typing.forgetInPlan()) {
            editor.undo();
        }
        stepped();
    }

    /** One step forward again. */
    void redo() {
        typing.forgetInPlan();
        editor.redo();
        stepped();
    }

    private void stepped() {
        notice = Optional.empty();
        ask();
        changed.run();
    }

    /** A kiln is being fired now: it is the one meant, until the person chooses another. */
    void fired(String kiln) {
        if (!kilnChosen && kilns.contains(kiln) && !outlook.kilnName().equals(Optional.of(kiln))) {
            turnToKiln(kiln);
        }
    }

    void chooseKiln(String name) {
        kilnChosen = true;
        turnToKiln(name);
    }

    private void turnToKiln(String name) {
        outlook.named(name);
        runner.run(
                () -> shelf.kiln(name),
                known -> {
                    outlook.kiln(name, known);
                    ask();
                    changed.run();
                },
                this::failed);
    }

    /** The screen is in front again: what was changed elsewhere meanwhile counts, the library and the kiln included. */
    void cameBack() {
        keeping.listAgain();
        runner.run(
                shelf::kilns,
                found -> {
                    kilns = found;
                    changed.run();
                },
                this::failed);
        outlook.kilnName()
                .filter(name -> !outlook.known().kiln().name().isEmpty())
                .ifPresent(name -> runner.run(
                        () -> shelf.described(name),
                        its -> {
                            if (outlook.describe(name, its)) {
                                ask();
                            }
                        },
                        this::failed));
    }

    /** Takes the top that comes to the wanted cone, in whole degrees. */
    void takeTop() {
        wanted().flatMap(WantedCone::top).map(Estimate::probable).ifPresent(top -> {
            editor.settle();
            edit(null, PlanEdits.withTop(plan(), Temperature.ofCelsius(Math.round(top.celsius()))));
            changed.run();
        });
    }

    /** Takes the hold that comes to the wanted cone, in whole minutes. */
    void takeHold() {
        wanted().flatMap(WantedCone::hold).ifPresent(hold -> {
            editor.settle();
            edit(
                    null,
                    PlanEdits.withTopHold(plan(), java.time.Duration.ofMinutes(Math.round(hold.toSeconds() / 60.0))));
            changed.run();
        });
    }

    private Optional<WantedCone> wanted() {
        return outlook.answer().flatMap(answer -> answer.outlook().wanted());
    }

    void ask() {
        outlook.ask(editor.plan());
    }

    void tell(String key, boolean isTrouble, String... filling) {
        notice = Optional.of(new Notice(key, List.of(filling), isTrouble));
        changed.run();
    }

    void failed(Exception trouble) {
        String message = trouble.getMessage();
        tell("plans.trouble", true, message == null ? trouble.toString() : message);
    }

    Words words() {
        return words;
    }

    void changed() {
        changed.run();
    }

    /** Another plan was begun: its first segment is looked at. */
    void begun() {
        selected = 1;
        ask();
    }

    /** There is nothing to tell any more. */
    void quiet() {
        notice = Optional.empty();
        changed.run();
    }

    /** The first thing typed into the plan that is no value. */
    Optional<Rejected> rejectedInPlan() {
        return typing.inPlan();
    }

    void forgetRejected() {
        typing.forgetInPlan();
    }
}
