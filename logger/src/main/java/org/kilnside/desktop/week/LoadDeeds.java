package org.kilnside.desktop.week;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kilnside.week.Load;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Week;

/** Begins a week, and adds, moves and takes out its loads. Confined to one thread. */
final class LoadDeeds {
    private final WeekModel model;
    private final WeekShelf shelf;
    private final WeekModel.Runner disk;

    LoadDeeds(WeekModel model, WeekShelf shelf, WeekModel.Runner disk) {
        this.model = model;
        this.shelf = shelf;
        this.disk = disk;
    }

    /** Whether it is known that there is no week yet. */
    private boolean mayBegin() {
        return model.keeping().isRead()
                && model.keeping().broken().isEmpty()
                && model.week().isEmpty();
    }

    /** Begins a week with one load, as there is none yet. */
    void begin() {
        if (mayBegin()) {
            firstPlan().ifPresent(plan -> {
                Load load = WeekEdits.load(model.words().text("week.new_load", 1), plan);
                String kiln = model.kilns().stream()
                        .findFirst()
                        .map(WeekShelf.KilnChoice::shortName)
                        .orElse("tall-drum");
                model.restructure(
                        WeekEdits.blank(
                                model.words().text("week.new_name"),
                                kiln,
                                model.words().preferences().zone(),
                                load),
                        0);
            });
        }
    }

    /** Begins with a copy of the example, as there is none yet. */
    void beginWithExample() {
        if (mayBegin()) {
            disk.run(shelf::example, example -> model.restructure(example, 0), model::failed);
        }
    }

    /** A bisque where there is one: ware is raw first. */
    private Optional<WeekShelf.PlanChoice> firstPlan() {
        return model.plans().stream()
                .filter(plan -> plan.shortName().equals("bisque"))
                .findFirst()
                .or(() -> model.plans().stream().findFirst());
    }

    /** Another load behind the one looked at; begins a week where there is none. */
    void add() {
        if (!model.isOpen()) {
            begin();
            return;
        }
        Week week = model.week().orElseThrow();
        firstPlan().ifPresent(plan -> {
            int behind = model.selected() == 0 ? week.loads().size() : model.selected();
            Optional<Week> more = WeekEdits.added(week, behind, WeekEdits.load(freeName(week), plan));
            if (more.isPresent()) {
                model.restructure(more.get(), behind + 1);
            } else {
                model.tell("week.full", true, String.valueOf(Week.MOST_LOADS));
            }
        });
    }

    private String freeName(Week week) {
        int number = week.loads().size() + 1;
        while (true) {
            String name = model.words().text("week.new_load", number);
            if (week.loads().stream().noneMatch(load -> load.name().equals(name))) {
                return name;
            }
            number++;
        }
    }

    /** Takes out the load looked at; what waited for it is dry by the clock from then on, and that is said. */
    void remove() {
        if (!model.isOpen() || model.selected() == 0) {
            return;
        }
        Week week = model.week().orElseThrow();
        int number = model.selected();
        String name = week.loads().get(number - 1).name();
        List<String> waiting = WeekEdits.waitingFor(week, number);
        Optional<Instant> out = out(week);
        Optional<Week> less = WeekEdits.removed(week, number, out);
        if (less.isEmpty()) {
            model.tell("week.last_load", true);
            return;
        }
        model.restructure(less.get(), Math.max(1, number - 1));
        if (!waiting.isEmpty()) {
            model.tell("week.waited_for_it", false, name, dry(less.get(), waiting));
        }
    }

    /** When the load looked at is out: what is in the kiln now when that is cool, what is planned as planned. */
    private Optional<Instant> out(Week week) {
        if (!model.live().isOf(week)) {
            return Optional.empty();
        }
        Optional<PlannedFiring> planned = model.firing();
        boolean isNext = planned.isPresent()
                && model.live().answer().orElseThrow().plan().firings().indexOf(planned.get()) == 0;
        return model.taken().isFired() && isNext ? model.taken().until() : planned.map(PlannedFiring::out);
    }

    /** From when loads are dry, where that is known. */
    private String dry(Week week, List<String> names) {
        return week.loads().stream()
                .filter(load -> names.contains(load.name()))
                .map(load -> load.name()
                        + load.ready()
                                .map(ready -> " (" + model.words().dayAndTime(ready) + ")")
                                .orElse(""))
                .collect(Collectors.joining(", "));
    }

    void move(int by) {
        if (model.isOpen()) {
            WeekEdits.moved(model.week().orElseThrow(), model.selected(), by)
                    .ifPresent(next -> model.restructure(next, model.selected() + by));
        }
    }
}
