package org.kilnside.files;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.kilnside.outlook.Ware;
import org.kilnside.schedule.Schedule;
import org.kilnside.week.Load;
import org.kilnside.week.Week;

/** The loads in a week's file. */
final class WeekLoads {
    private static final List<String> KEYS = List.of(
            "name", "plan", "weight", "ware", "thickness", "limit", "ready", "after", "drying", "due", "packed");
    private static final Map<String, String> WORDS = Map.of(
            "kg",
            "weight",
            "load_kg",
            "weight",
            "schedule",
            "plan",
            "date",
            "due",
            "dry",
            "ready",
            "glazing",
            "drying",
            "deadline",
            "due");
    private static final double HEAVIEST_KG = 5000;
    private static final double THICKEST_MM = 500;
    private static final Duration LONGEST_DRYING = Duration.ofDays(21);

    private WeekLoads() {}

    static List<Load> read(TomlFields week, WeekFiles.Setting setting) {
        if (!week.has("load")) {
            week.problem("the week has no loads; add a line [[load]] and its name and plan below it");
            return List.of();
        }
        List<TomlFields> tables = week.tables("load");
        if (tables.size() > Week.MOST_LOADS) {
            week.problem(
                    "load",
                    "the week has " + tables.size() + " loads, expected at most " + Week.MOST_LOADS
                            + "; leave out the last ones until the first are fired");
            return List.of();
        }
        List<Load> loads = new ArrayList<>();
        for (TomlFields table : tables) {
            load(table, setting).ifPresent(loads::add);
        }
        if (loads.size() == tables.size()) {
            check(tables, loads);
        }
        return loads;
    }

    private static Optional<Load> load(TomlFields table, WeekFiles.Setting setting) {
        table.refuseUnknown(KEYS, WORDS, "a load");
        for (String key : List.of("name", "plan")) {
            if (!table.has(key)) {
                table.problem("this load has no \"" + key + "\"; add it");
            }
        }
        Optional<String> name = table.text("name", 80).map(String::strip);
        Optional<String> planName = table.text("plan", 200).map(String::strip);
        Optional<Schedule> plan = planName.flatMap(typed -> plan(table, typed, setting.library()));
        OptionalDouble kg = optional(table.quantity("weight", UnitText::kilograms, "38 kg")
                .filter(value -> checkUpTo(table, "weight", value, HEAVIEST_KG, "kg")));
        OptionalDouble thicknessMm = optional(table.quantity("thickness", UnitText::millimetres, "8 mm")
                .filter(value -> checkUpTo(table, "thickness", value, THICKEST_MM, "mm")));
        Optional<Ware.State> state = table.word("ware", List.of("raw", "glazed"))
                .map(word -> word.equals("raw") ? Ware.State.RAW : Ware.State.GLAZED);
        var limit = table.quantity("limit", UnitText::temperature, "1240 °C");
        Optional<Instant> ready = WeekFiles.moment(table, "ready", setting);
        Optional<String> after = table.text("after", 80).map(String::strip);
        Optional<Duration> drying = table.quantity("drying", UnitText::duration, "24 h")
                .filter(value -> WeekFiles.checkDuration(table, "drying", value, LONGEST_DRYING));
        Optional<Instant> due = WeekFiles.moment(table, "due", setting);
        boolean packed = table.yesOrNo("packed").orElse(false);
        if (after.isPresent() && !table.has("drying")) {
            table.problem(
                    "after",
                    "this load waits for another and has no \"drying\"; add how long it takes from the"
                            + " unloading until it is glazed and dry, such as drying = \"24 h\"");
        }
        if (table.has("drying") && !table.has("after")) {
            table.problem(
                    "drying",
                    "\"drying\" counts from the unloading of another load and there is no \"after\";"
                            + " name that load, or write \"ready\" instead");
        }
        return name.isEmpty() || plan.isEmpty()
                ? Optional.empty()
                : Optional.of(new Load(
                        name.get(),
                        planName.get(),
                        plan.get(),
                        kg,
                        new Ware(state, thicknessMm, limit),
                        ready,
                        after.flatMap(other -> drying.map(time -> new Load.After(other, time))),
                        due,
                        packed));
    }

    private static Optional<Schedule> plan(TomlFields table, String typed, ProfileLibrary library) {
        try {
            return Optional.of(library.plan(typed).schedule());
        } catch (FileRefusedException e) {
            table.problem("plan", "\"plan\": " + e.getMessage());
            return Optional.empty();
        }
    }

    private static boolean checkUpTo(TomlFields table, String key, double value, double most, String unit) {
        if (value <= most) {
            return true;
        }
        table.problem(
                key,
                "\"" + key + "\" is " + PlanText.number(value) + " " + unit + ", expected up to "
                        + PlanText.number(most) + " " + unit + "; check it");
        return false;
    }

    private static OptionalDouble optional(Optional<Double> value) {
        return value.map(OptionalDouble::of).orElse(OptionalDouble.empty());
    }

    /** Names that differ, loads to wait for that are there, no ring of them, one in the kiln. */
    private static void check(List<TomlFields> tables, List<Load> loads) {
        Set<String> names = new HashSet<>();
        boolean somethingStandsIn = false;
        for (int i = 0; i < loads.size(); i++) {
            Load load = loads.get(i);
            TomlFields table = tables.get(i);
            if (!names.add(load.name())) {
                table.problem(
                        "name",
                        "two loads are called " + UnitText.quoted(load.name()) + "; give one of them another name");
            }
            load.after().ifPresent(after -> checkWaiting(table, load, after.load(), loads));
            if (load.packed() && somethingStandsIn) {
                table.problem("packed", "two loads are packed, and there is one kiln; take the line from one of them");
            }
            if (load.packed() && load.after().isPresent()) {
                table.problem("packed", "this load is packed and waits for another one; take out one of the two lines");
            }
            somethingStandsIn |= load.packed();
        }
    }

    private static void checkWaiting(TomlFields table, Load load, String waitsFor, List<Load> loads) {
        List<String> names = loads.stream()
                .map(Load::name)
                .filter(name -> !name.equals(load.name()))
                .toList();
        Optional<String> at = Optional.of(waitsFor);
        for (int steps = 0; at.isPresent(); steps++) {
            String name = at.get();
            Optional<Load> there =
                    loads.stream().filter(each -> each.name().equals(name)).findFirst();
            if (there.isEmpty()) {
                if (steps == 0) {
                    table.problem(
                            "after",
                            "\"after\": no load is called " + UnitText.quoted(name)
                                    + NearMatch.of(name, names)
                                            .map(near -> "; did you mean \"" + near + "\"?")
                                            .orElse(
                                                    names.isEmpty()
                                                            ? "; there is no other"
                                                            : "; there are " + String.join(", ", names)));
                }
                return;
            }
            if (name.equals(load.name())) {
                table.problem(
                        "after", "this load waits for itself, by way of what it waits for; take out one \"after\"");
                return;
            }
            if (steps > loads.size()) {
                // A ring further on, told where it is.
                return;
            }
            at = there.get().after().map(Load.After::load);
        }
    }

    static void write(StringBuilder text, Load load, ZoneId zone) {
        text.append("\n[[load]]\n");
        PlanText.line(text, "name", load.name());
        PlanText.line(text, "plan", load.planName());
        load.kg().ifPresent(kg -> PlanText.line(text, "weight", PlanText.number(kg) + " kg"));
        load.ware().state().ifPresent(state -> PlanText.line(text, "ware", state == Ware.State.RAW ? "raw" : "glazed"));
        load.ware().thicknessMm().ifPresent(mm -> PlanText.line(text, "thickness", PlanText.number(mm) + " mm"));
        load.ware().limit().ifPresent(limit -> PlanText.line(text, "limit", PlanText.temperature(limit)));
        load.ready().ifPresent(ready -> PlanText.line(text, "ready", MomentText.of(ready, zone)));
        load.after().ifPresent(after -> {
            PlanText.line(text, "after", after.load());
            PlanText.line(text, "drying", PlanText.duration(after.drying()));
        });
        load.due().ifPresent(due -> PlanText.line(text, "due", MomentText.of(due, zone)));
        if (load.packed()) {
            text.append("packed = true\n");
        }
    }
}
