package org.kilnside.desktop.plan;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
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
    private final Map<Place, Rejected> rejected = new LinkedHashMap<>();
    private List<PlanShelf.Entry> plans = List.of();
    private List<String> kilns = List.of();
    private Optional<Notice> notice = Optional.empty();
    private Optional<String> otherOnDisk = Optional.empty();
    private boolean looking;
    private int selected = 1;
    private Words words;

    PlansModel(PlanShelf shelf, Runner runner, Words words, Runnable changed) {
        this.shelf = shelf;
        this.runner = runner;
        this.words = words;
        this.changed = changed;
        editor = new PlanEditor(PlanEdits.blank(words.text("plans.new_name")));
        outlook = new LiveOutlook(runner, changed);
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
        runner.run(
                shelf::plans,
                found -> {
                    plans = found;
                    found.stream()
                            .filter(entry -> entry.problem().isEmpty())
                            .findFirst()
                            .filter(first -> editor.source().equals(PlanEditor.Source.NEW) && !editor.isChanged())
                            .ifPresent(first -> open(first.shortName()));
                    changed.run();
                },
                this::failed);
        ask();
    }

    void speak(Words language) {
        words = language;
    }

    List<PlanShelf.Entry> plans() {
        return plans;
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

    LiveOutlook outlook() {
        return outlook;
    }

    Optional<Notice> notice() {
        return notice;
    }

    Optional<Rejected> rejected(Place place) {
        return Optional.ofNullable(rejected.get(place));
    }

    /** Whether somebody else changed the file of the plan being edited, and nobody has decided yet. */
    boolean isOtherOnDisk() {
        return otherOnDisk.isPresent();
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

    // ---- the library

    void open(String shortName) {
        runner.run(
                () -> shelf.open(shortName),
                opened -> {
                    begin(
                            opened.plan(),
                            new PlanEditor.Source(Optional.of(opened.shortName()), opened.own(), opened.text()));
                    notice = Optional.empty();
                    changed.run();
                },
                this::failed);
    }

    void createNew() {
        begin(PlanEdits.blank(words.text("plans.new_name")), PlanEditor.Source.NEW);
        notice = Optional.empty();
        changed.run();
    }

    private void begin(Schedule plan, PlanEditor.Source source) {
        editor.begin(plan, source);
        rejected.keySet().removeIf(PlansModel::isOfThePlan);
        otherOnDisk = Optional.empty();
        selected = 1;
        ask();
    }

    /** Saves over the person's own plan; a starter plan or a new one becomes a new plan of the person's own. */
    void save() {
        boolean over = editor.source().own() && editor.source().shortName().isPresent();
        save(over);
    }

    /** Saves as a new plan of the person's own. */
    void saveCopy() {
        save(false);
    }

    /**
     * Saves on the way out.
     *
     * @return whether a save is under way; not where something typed is no value yet
     */
    boolean saveToLeave() {
        save();
        return rejected.keySet().stream().noneMatch(PlansModel::isOfThePlan);
    }

    /** Puts the plan back to what is on disk. */
    void discard() {
        editor.discard();
        rejected.keySet().removeIf(PlansModel::isOfThePlan);
        notice = Optional.empty();
        ask();
        changed.run();
    }

    private void save(boolean over) {
        Optional<Place> wrong =
                rejected.keySet().stream().filter(PlansModel::isOfThePlan).findFirst();
        if (wrong.isPresent()) {
            tell("plans.not_saved", true, rejected.get(wrong.get()).sentence());
            return;
        }
        Schedule plan = editor.plan();
        PlanEditor.Source source = editor.source();
        runner.run(
                () -> over ? shelf.save(source.shortName().orElseThrow(), plan, source.text()) : shelf.saveNew(plan),
                done -> {
                    editor.saved(plan, new PlanEditor.Source(Optional.of(done.shortName()), true, done.text()));
                    otherOnDisk = Optional.empty();
                    if (done.aside().isPresent()) {
                        tell(
                                "plans.saved_aside",
                                false,
                                done.shortName(),
                                done.aside().get());
                    } else {
                        tell("plans.saved", false, done.shortName());
                    }
                    listAgain();
                },
                this::failed);
    }

    private void listAgain() {
        runner.run(
                shelf::plans,
                found -> {
                    plans = found;
                    changed.run();
                },
                this::failed);
    }

    /** Looks whether somebody else changed the file; asks the person when so. */
    void lookOnDisk() {
        PlanEditor.Source source = editor.source();
        if (looking || !source.own() || source.shortName().isEmpty()) {
            return;
        }
        looking = true;
        runner.run(
                () -> shelf.textNow(source.shortName().get()),
                now -> {
                    looking = false;
                    if (!editor.source().equals(source)) {
                        return;
                    }
                    Optional<String> other = now.filter(text -> !text.isEmpty() && !text.equals(source.text()));
                    if (!other.equals(otherOnDisk)) {
                        otherOnDisk = other;
                        changed.run();
                    }
                },
                trouble -> looking = false);
    }

    /** Takes what is on disk; the way back to what was here stays. */
    void takeFromDisk() {
        editor.source()
                .shortName()
                .ifPresent(name -> runner.run(
                        () -> shelf.open(name),
                        opened -> {
                            editor.takeFromDisk(opened.plan(), opened.text());
                            rejected.keySet().removeIf(PlansModel::isOfThePlan);
                            otherOnDisk = Optional.empty();
                            tell("plans.taken_from_disk", false);
                            ask();
                        },
                        this::failed));
    }

    /** Writes what is here; what is on disk is put aside. */
    void keepMine() {
        save(true);
    }

    /** Prints what to key into the controller. */
    void print() {
        Schedule plan = editor.plan();
        Words its = words;
        runner.run(
                () -> shelf.print(plan, outlook.kilnName(), its),
                where -> tell("plans.printed", false, where),
                this::failed);
    }

    // ---- editing

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

    // ---- what it comes to

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
        listAgain();
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

    /** The segments something is wrong with, first of them; for the eye and for a key that goes there. */
    OptionalInt firstWarned() {
        return outlook.answer().stream()
                .flatMap(answer -> answer.outlook().warnings().stream())
                .mapToInt(warning -> warning.segment())
                .findFirst();
    }

    private void ask() {
        outlook.ask(editor.plan());
    }

    private void tell(String key, boolean isTrouble, String... filling) {
        notice = Optional.of(new Notice(key, List.of(filling), isTrouble));
        changed.run();
    }

    private void failed(Exception trouble) {
        String message = trouble.getMessage();
        tell("plans.trouble", true, message == null ? trouble.toString() : message);
    }
}
