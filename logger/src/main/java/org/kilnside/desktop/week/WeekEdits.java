package org.kilnside.desktop.week;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.outlook.Ware;
import org.kilnside.week.Attendance;
import org.kilnside.week.Load;
import org.kilnside.week.Week;

/** What may be done to a week's loads; each gives a new week, or none where it cannot be done. Loads are counted from 1. */
final class WeekEdits {
    /** Where nobody says how long glazed ware takes to dry (common practice). */
    static final Duration USUAL_DRYING = Duration.ofHours(24);

    /** Where nobody says when somebody is there: not by night. */
    private static final LocalTime MORNING = LocalTime.of(7, 0);

    private static final LocalTime NIGHT = LocalTime.of(22, 0);

    private WeekEdits() {}

    /** A week to begin with: one load, somebody there by day. */
    static Week blank(String name, String kiln, ZoneId zone, Load load) {
        Attendance awake = new Attendance(
                List.of(new Attendance.Hours(EnumSet.allOf(DayOfWeek.class), MORNING, NIGHT)), List.of());
        return new Week(
                name,
                kiln,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                awake,
                false,
                Week.USUAL_PACKING,
                zone,
                List.of(load));
    }

    static Load load(String name, WeekShelf.PlanChoice plan) {
        return new Load(
                name,
                plan.shortName(),
                plan.plan(),
                OptionalDouble.empty(),
                Ware.UNKNOWN,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false);
    }

    /** Another name; what waits for the load knows it by that. */
    static Week named(Week week, int number, String name) {
        String before = week.loads().get(number - 1).name();
        return WeekDraft.changed(week, draft -> {
            draft.loads.get(number - 1).name = name;
            draft.loads.forEach(load -> load.after = load.after.map(
                    after -> new Load.After(after.load().equals(before) ? name : after.load(), after.drying())));
        });
    }

    /** For what the load waits; what waits for another firing does not stand in the kiln. */
    static Week waitingFor(Week week, int number, Optional<String> other) {
        return WeekDraft.changed(week, number, load -> {
            Duration drying = load.after.map(Load.After::drying).orElse(USUAL_DRYING);
            load.after = other.map(name -> new Load.After(name, drying));
            load.packed &= other.isEmpty();
        });
    }

    /** What stands in the kiln waits for nothing, and nothing else stands in it. */
    static Week packed(Week week, int number, boolean packed) {
        return WeekDraft.changed(week, draft -> {
            draft.loads.forEach(load -> load.packed &= !packed);
            WeekDraft.OfLoad its = draft.loads.get(number - 1);
            its.packed = packed;
            its.after = packed ? Optional.empty() : its.after;
        });
    }

    /** Another load behind one; empty where a week has no more. */
    static Optional<Week> added(Week week, int behind, Load load) {
        return week.loads().size() >= Week.MOST_LOADS
                ? Optional.empty()
                : Optional.of(WeekDraft.changed(week, draft -> draft.loads.add(behind, new WeekDraft.OfLoad(load))));
    }

    /**
     * Takes a load out; empty where it is the only one. What waited for it is dry by the clock from then on.
     *
     * @param out when it was to be unloaded, where that was planned
     */
    static Optional<Week> removed(Week week, int number, Optional<Instant> out) {
        if (number < 1 || week.loads().size() < 2) {
            return Optional.empty();
        }
        String name = week.loads().get(number - 1).name();
        return Optional.of(WeekDraft.changed(week, draft -> {
            draft.loads.remove(number - 1);
            draft.loads.forEach(load -> load.after
                    .filter(after -> after.load().equals(name))
                    .ifPresent(after -> {
                        load.ready = out.map(time -> time.plus(after.drying())).or(() -> load.ready);
                        load.after = Optional.empty();
                    }));
        }));
    }

    /** The names of the loads that wait for one. */
    static List<String> waitingFor(Week week, int number) {
        String name = week.loads().get(number - 1).name();
        return week.loads().stream()
                .filter(load ->
                        load.after().filter(after -> after.load().equals(name)).isPresent())
                .map(Load::name)
                .toList();
    }

    /** Further up or down in the list; empty at its end. */
    static Optional<Week> moved(Week week, int number, int by) {
        int to = number + by;
        return number < 1 || to < 1 || to > week.loads().size()
                ? Optional.empty()
                : Optional.of(
                        WeekDraft.changed(week, draft -> draft.loads.add(to - 1, draft.loads.remove(number - 1))));
    }

    /** For which loads one may wait: not for itself, and for none that waits for it. */
    static List<String> mayWaitFor(Week week, int number) {
        List<String> names = new ArrayList<>();
        String its = week.loads().get(number - 1).name();
        for (Load other : week.loads()) {
            Optional<Load> at = Optional.of(other);
            boolean leadsBack = false;
            while (at.isPresent() && !leadsBack) {
                leadsBack = at.get().name().equals(its);
                at = at.get().after().flatMap(after -> named(week, after.load()));
            }
            if (!leadsBack) {
                names.add(other.name());
            }
        }
        return names;
    }

    private static Optional<Load> named(Week week, String name) {
        return week.loads().stream().filter(each -> each.name().equals(name)).findFirst();
    }
}
