package org.kilnside.desktop.week;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.kilnside.outlook.Ware;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.week.Attendance;
import org.kilnside.week.Load;
import org.kilnside.week.Week;

/** A week while something of it is being changed; lives no longer than one change. */
final class WeekDraft {
    String name;
    String kiln;
    Optional<Temperature> room;
    Optional<Instant> due;
    Optional<Instant> kilnFree;
    Attendance there;
    boolean topAlone;
    Duration packing;
    final List<OfLoad> loads = new ArrayList<>();

    /** A load while something of it is being changed. */
    static final class OfLoad {
        String name;
        String planName;
        Schedule plan;
        OptionalDouble kg;
        Ware ware;
        Optional<Instant> ready;
        Optional<Load.After> after;
        Optional<Instant> due;
        boolean packed;

        OfLoad(Load load) {
            name = load.name();
            planName = load.planName();
            plan = load.plan();
            kg = load.kg();
            ware = load.ware();
            ready = load.ready();
            after = load.after();
            due = load.due();
            packed = load.packed();
        }

        private Load done() {
            return new Load(name, planName, plan, kg, ware, ready, after, due, packed);
        }
    }

    private WeekDraft(Week week) {
        name = week.name();
        kiln = week.kiln();
        room = week.room();
        due = week.due();
        kilnFree = week.kilnFree();
        there = week.there();
        topAlone = week.topAlone();
        packing = week.packing();
        week.loads().forEach(load -> loads.add(new OfLoad(load)));
    }

    /** The week with a change made. */
    static Week changed(Week week, Consumer<WeekDraft> change) {
        WeekDraft draft = new WeekDraft(week);
        change.accept(draft);
        return new Week(
                draft.name,
                draft.kiln,
                draft.room,
                draft.due,
                draft.kilnFree,
                draft.there,
                draft.topAlone,
                draft.packing,
                week.zone(),
                draft.loads.stream().map(OfLoad::done).toList());
    }

    /** The week with one load changed; loads are counted from 1. */
    static Week changed(Week week, int number, Consumer<OfLoad> change) {
        return changed(week, draft -> change.accept(draft.loads.get(number - 1)));
    }
}
