package org.kilnside.desktop.plan;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.kilnside.desktop.plan.FieldText.Typed;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.WantedCone;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlanLimits;
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
        WANTED
    }

    /**
     * One field.
     *
     * @param segment counted from 1; 0 for a field of the whole plan
     */
    record Place(Field field, int segment) {
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
    private final Map<Place, Rejected> rejected = new LinkedHashMap<>();
    private List<String> kilns = List.of();
    private Optional<Notice> notice = Optional.empty();
    private int selected = 1;
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
                        chooseKiln(found.get(0));
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
        return Optional.ofNullable(rejected.get(place));
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
        return editor.isChanged() || rejected.keySet().stream().anyMatch(PlansModel::isOfThePlan);
    }

    private static boolean isOfThePlan(Place place) {
        return place.field().compareTo(Field.HOLD) <= 0;
    }

    /** What stands in a field now, as it is typed. */
    void typed(Place place, String text) {
        FieldText fields = new FieldText(words);
        int number = place.segment();
        switch (place.field()) {
            case NAME -> take(place, text, fields.name(text), name -> edit(place, PlanEdits.named(plan(), name)));
            case AIM ->
                take(
                        place,
                        text,
                        fields.cone(text),
                        cone -> edit(place, PlanEdits.aimingFor(plan(), cone.map(each -> "cone " + each.number()))));
            case CLAY ->
                take(
                        place,
                        text,
                        fields.text(text, PlanLimits.LONGEST_CLAY),
                        clay -> edit(place, PlanEdits.forClay(plan(), clay)));
            case NOTES ->
                take(
                        place,
                        text,
                        fields.text(text, PlanLimits.LONGEST_NOTES),
                        notes -> edit(place, PlanEdits.noted(plan(), notes)));
            case RATE ->
                take(
                        place,
                        text,
                        fields.rate(text),
                        rate -> edit(
                                place,
                                PlanEdits.withRamp(
                                                plan(), number, ramp -> new Segment.Ramp(rate, ramp.to(), ramp.hold()))
                                        .orElse(plan())));
            case TARGET ->
                take(
                        place,
                        text,
                        fields.target(text),
                        to -> edit(
                                place,
                                PlanEdits.withRamp(
                                                plan(), number, ramp -> new Segment.Ramp(ramp.rate(), to, ramp.hold()))
                                        .orElse(plan())));
            case HOLD ->
                take(
                        place,
                        text,
                        fields.hold(text),
                        hold -> edit(
                                place,
                                PlanEdits.withRamp(
                                                plan(), number, ramp -> new Segment.Ramp(ramp.rate(), ramp.to(), hold))
                                        .orElse(plan())));
            case LOAD -> take(place, text, fields.kilograms(text), outlook::load);
            case THICKNESS -> take(place, text, fields.millimetres(text), outlook::thickness);
            case WANTED -> take(place, text, fields.cone(text), outlook::wanted);
        }
        changed.run();
    }

    private <T> void take(Place place, String text, Typed<T> typed, Consumer<T> taken) {
        if (typed.value().isPresent()) {
            rejected.remove(place);
            taken.accept(typed.value().get());
        } else {
            rejected.put(place, new Rejected(text, typed.problem().orElseThrow()));
        }
    }

    /** The field was left: the next change of it is a step of its own. */
    void left() {
        editor.settle();
    }

    private void edit(Object what, Schedule next) {
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
            rejected.keySet().removeIf(place -> place.segment() > 0);
            edit(null, next.get());
            editor.settle();
            selected = select;
        }
        changed.run();
    }

    /** One step back; what was typed and is no value goes first. */
    void undo() {
        if (!rejected.keySet().removeIf(PlansModel::isOfThePlan)) {
            editor.undo();
        }
        stepped();
    }

    /** One step forward again. */
    void redo() {
        rejected.keySet().removeIf(PlansModel::isOfThePlan);
        editor.redo();
        stepped();
    }

    private void stepped() {
        notice = Optional.empty();
        ask();
        changed.run();
    }

    void chooseKiln(String name) {
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
        return rejected.entrySet().stream()
                .filter(entry -> isOfThePlan(entry.getKey()))
                .map(Map.Entry::getValue)
                .findFirst();
    }

    void forgetRejected() {
        rejected.keySet().removeIf(PlansModel::isOfThePlan);
    }
}
