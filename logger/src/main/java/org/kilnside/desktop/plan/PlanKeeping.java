package org.kilnside.desktop.plan;

import java.util.List;
import java.util.Optional;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.wording.Words;

/**
 * Keeps plans: the library, opening and saving, and what somebody else did to a plan's file meanwhile. Nothing a person
 * made is lost: a starter plan is copied, not written; what is on disk and was not read is put aside. Confined to one
 * thread.
 */
final class PlanKeeping {
    private final PlansModel model;
    private final PlanShelf shelf;
    private final PlansModel.Runner runner;
    private List<PlanShelf.Entry> plans = List.of();
    private Optional<String> otherOnDisk = Optional.empty();
    private boolean looking;

    /** Counts the plans begun, so that a save that ends later does not speak for another plan. */
    private int begun;

    PlanKeeping(PlansModel model, PlanShelf shelf, PlansModel.Runner runner) {
        this.model = model;
        this.shelf = shelf;
        this.runner = runner;
    }

    /** Fills the library and opens its first plan, unless one is being worked on. */
    void start() {
        runner.run(
                shelf::plans,
                found -> {
                    plans = found;
                    found.stream()
                            .filter(entry -> entry.problem().isEmpty())
                            .findFirst()
                            .filter(first -> model.editor().source().equals(PlanEditor.Source.NEW)
                                    && !model.editor().isChanged())
                            .ifPresent(first -> open(first.shortName()));
                    model.changed();
                },
                model::failed);
    }

    List<PlanShelf.Entry> plans() {
        return plans;
    }

    /** Whether somebody else changed the file of the plan being edited, and nobody has decided yet. */
    boolean isOtherOnDisk() {
        return otherOnDisk.isPresent();
    }

    void open(String shortName) {
        runner.run(
                () -> shelf.open(shortName),
                opened -> {
                    begin(
                            opened.plan(),
                            new PlanEditor.Source(Optional.of(opened.shortName()), opened.own(), opened.text()));
                    model.quiet();
                },
                model::failed);
    }

    void createNew() {
        begin(PlanEdits.blank(model.words().text("plans.new_name")), PlanEditor.Source.NEW);
        model.quiet();
    }

    private void begin(Schedule plan, PlanEditor.Source source) {
        begun++;
        model.editor().begin(plan, source);
        model.forgetRejected();
        otherOnDisk = Optional.empty();
        model.begun();
    }

    /** Saves over the person's own plan; a starter plan or a new one becomes a new plan of the person's own. */
    void save() {
        save(isOwn(), () -> {});
    }

    private boolean isOwn() {
        return model.editor().source().own()
                && model.editor().source().shortName().isPresent();
    }

    /** Saves as a new plan of the person's own. */
    void saveCopy() {
        save(false, () -> {});
    }

    /**
     * Saves on the way out.
     *
     * @param after what to go on with once it is on disk; where it could not be, one stays here and nothing is lost
     */
    void save(Runnable after) {
        save(isOwn(), after);
    }

    /** Puts the plan back to what is on disk. */
    void discard() {
        model.editor().discard();
        model.forgetRejected();
        model.ask();
        model.quiet();
    }

    private void save(boolean over, Runnable after) {
        Optional<PlansModel.Rejected> wrong = model.rejectedInPlan();
        if (wrong.isPresent()) {
            model.tell("plans.not_saved", true, wrong.get().sentence());
            return;
        }
        Schedule plan = model.editor().plan();
        PlanEditor.Source source = model.editor().source();
        int which = begun;
        runner.run(
                () -> over ? shelf.save(source.shortName().orElseThrow(), plan, source.text()) : shelf.saveNew(plan),
                done -> {
                    if (which == begun) {
                        model.editor()
                                .saved(plan, new PlanEditor.Source(Optional.of(done.shortName()), true, done.text()));
                        otherOnDisk = Optional.empty();
                    }
                    if (done.aside().isPresent()) {
                        model.tell(
                                "plans.saved_aside",
                                false,
                                done.shortName(),
                                done.aside().get());
                    } else {
                        model.tell("plans.saved", false, done.shortName());
                    }
                    listAgain();
                    if (which == begun && !model.isUnsaved()) {
                        after.run();
                    }
                },
                model::failed);
    }

    /** Reads the library anew. */
    void listAgain() {
        runner.run(
                shelf::plans,
                found -> {
                    plans = found;
                    model.changed();
                },
                model::failed);
    }

    /** Looks whether somebody else changed the file; asks the person when so. */
    void lookOnDisk() {
        PlanEditor.Source source = model.editor().source();
        if (looking || !source.own() || source.shortName().isEmpty()) {
            return;
        }
        looking = true;
        runner.run(
                () -> shelf.textNow(source.shortName().get()),
                now -> {
                    looking = false;
                    if (!model.editor().source().equals(source)) {
                        return;
                    }
                    Optional<String> other = now.filter(text -> !text.isEmpty() && !text.equals(source.text()));
                    if (!other.equals(otherOnDisk)) {
                        otherOnDisk = other;
                        model.changed();
                    }
                },
                trouble -> looking = false);
    }

    /** Takes what is on disk; the way back to what was here stays. */
    void takeFromDisk() {
        model.editor()
                .source()
                .shortName()
                .ifPresent(name -> runner.run(
                        () -> shelf.open(name),
                        opened -> {
                            model.editor().takeFromDisk(opened.plan(), opened.text());
                            model.forgetRejected();
                            otherOnDisk = Optional.empty();
                            model.tell("plans.taken_from_disk", false);
                            model.ask();
                        },
                        model::failed));
    }

    /** Writes what is here; what is on disk is put aside. */
    void keepMine() {
        save(true, () -> {});
    }

    /** Prints what to key into the controller. */
    void print() {
        Schedule plan = model.editor().plan();
        Words its = model.words();
        ControllerNumbers numbers = ControllerNumbers.of(model.outlook().known().sensor());
        runner.run(
                () -> shelf.print(plan, model.outlook().kilnName(), numbers, its),
                where -> model.tell("plans.printed", false, where),
                model::failed);
    }
}
