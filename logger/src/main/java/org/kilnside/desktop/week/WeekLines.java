package org.kilnside.desktop.week;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.week.Load;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Week;
import org.kilnside.wording.WeekWords;
import org.kilnside.wording.Words;

/**
 * What the screen says, in sentences: the plan's own are those of the command.
 *
 * @param sentence the first and largest
 * @param next which load is lit next, and when; empty where that cannot be said
 * @param more what else there is to say of all of it
 * @param isTrouble whether the sentence is of something to mend
 * @param rows the week, then its loads
 * @param detail what is chosen in the list, whole
 * @param foot what it takes, what is not known, and the cautions in short
 */
record WeekLines(
        String sentence,
        String next,
        List<String> more,
        boolean isTrouble,
        List<Row> rows,
        Detail detail,
        List<String> foot) {
    /**
     * A row of the list.
     *
     * @param number in the order of lighting; empty for what is not planned, and for the week
     */
    record Row(String number, String name, String line) {}

    /**
     * What is chosen.
     *
     * @param plan what the load's plan is called, and what it comes to
     * @param light when to light it; the most important line
     * @param lines the rest
     * @param warnings what in its plan is rash
     */
    record Detail(String name, String plan, String light, List<String> lines, List<String> warnings) {}

    static WeekLines of(WeekModel model, Words words) {
        Optional<Week> week = model.week();
        Optional<LiveWeek.Answer> answer = model.live().answer();
        Optional<WeekWords> say =
                answer.map(its -> new WeekWords(words, ConeTable.of(its.kiln().series()), its.kiln()));
        boolean isNew = week.filter(model.live()::isOf).isPresent();
        List<String> more = new ArrayList<>();
        String sentence;
        boolean trouble = false;
        Optional<PlannedFiring> gone = answer.flatMap(its -> its.goneBy(model.now()));
        if (model.live().trouble().isPresent()) {
            sentence = words.text("week.trouble", model.live().trouble().get());
            trouble = true;
        } else if (answer.isEmpty()) {
            sentence = week.isPresent() ? words.text("week.working") : "";
        } else if (gone.isPresent()) {
            sentence = words.text(
                    "week.gone_by",
                    answer.get().planned().loads().get(gone.get().load()).name(),
                    say.orElseThrow().moment(gone.get().light()));
        } else {
            List<String> head =
                    say.orElseThrow().head(answer.get().planned(), answer.get().plan());
            sentence = head.isEmpty() ? words.text("week.working") : head.get(0);
            more.addAll(head.subList(Math.min(1, head.size()), head.size()));
            trouble = !answer.get().plan().isInTime();
        }
        if (!isNew && answer.isPresent() && model.live().trouble().isEmpty() && gone.isEmpty()) {
            more.add(0, words.text("week.of_before"));
        }
        taken(model, say, words).ifPresent(line -> more.add(0, line));
        return new WeekLines(
                sentence,
                isNew && gone.isEmpty() ? next(answer.orElseThrow(), say.orElseThrow(), words) : "",
                more,
                trouble,
                week.map(its -> rows(its, model, say, isNew && gone.isEmpty(), words))
                        .orElse(List.of()),
                detail(model, answer, say, isNew && gone.isEmpty(), words),
                foot(answer, say));
    }

    private static String next(LiveWeek.Answer answer, WeekWords say, Words words) {
        return answer.plan().firings().stream()
                .findFirst()
                .map(first -> say.firing(answer.plan(), first))
                .map(first -> words.text("week.next", first.name(), first.light()))
                .orElse("");
    }

    private static Optional<String> taken(WeekModel model, Optional<WeekWords> say, Words words) {
        if (!model.taken().isFired()) {
            return Optional.empty();
        }
        String kiln =
                model.live().answer().map(its -> its.kiln().name()).orElseGet(() -> words.text("week.field.KILN"));
        return Optional.of(model.taken()
                .until()
                .flatMap(until -> say.map(its -> words.text("week.kiln_taken", kiln, its.moment(until))))
                .orElseGet(() -> words.text("week.kiln_taken_unknown", kiln)));
    }

    private static List<Row> rows(Week week, WeekModel model, Optional<WeekWords> say, boolean isNew, Words words) {
        List<Row> rows = new ArrayList<>();
        String kiln = model.live().isOf(week)
                ? model.live().answer().orElseThrow().kiln().name()
                : week.kiln();
        rows.add(new Row(
                "", week.name(), words.text("week.row", kiln, week.loads().size())));
        for (Load load : week.loads()) {
            Optional<LiveWeek.Answer> answer = model.live().answer().filter(its -> isNew);
            Optional<PlannedFiring> firing = answer.flatMap(its -> its.firing(load.name()));
            String number = firing.map(
                            its -> answer.orElseThrow().plan().firings().indexOf(its) + 1)
                    .map(String::valueOf)
                    .orElse("");
            String line = answer.isEmpty()
                    ? "…"
                    : firing.map(its -> words.text(
                                    "week.row_light", say.orElseThrow().moment(its.light())))
                            .orElseGet(() -> words.text("week.row_none"));
            rows.add(new Row(number, load.name(), line));
        }
        return rows;
    }

    private static Detail detail(
            WeekModel model, Optional<LiveWeek.Answer> answer, Optional<WeekWords> say, boolean isNew, Words words) {
        Optional<Load> load = model.load();
        if (load.isEmpty()) {
            return new Detail(
                    words.text("week.whole"),
                    "",
                    "",
                    answer.map(its -> say.orElseThrow().foot(its.plan())).orElse(List.of()),
                    List.of());
        }
        if (answer.isEmpty() || !isNew) {
            return new Detail(
                    load.get().name(), load.get().plan().name(), words.text("week.working"), List.of(), List.of());
        }
        Optional<PlannedFiring> firing = answer.get().firing(load.get().name());
        if (firing.isEmpty()) {
            return new Detail(
                    load.get().name(),
                    load.get().plan().name(),
                    unplanned(answer.get(), say.orElseThrow(), model.selected() - 1, words),
                    List.of(),
                    List.of());
        }
        WeekWords.Firing its = say.orElseThrow().firing(answer.get().plan(), firing.get());
        return new Detail(
                its.name(),
                its.plan(),
                its.light(),
                its.lines().subList(1, its.lines().size()),
                its.warnings());
    }

    private static String unplanned(LiveWeek.Answer answer, WeekWords say, int place, Words words) {
        int at = answer.plan().noRoom().indexOf(place);
        return at < 0
                ? words.text(
                        "week.cannot_know", answer.planned().loads().get(place).name())
                : say.noRoom(answer.planned(), place, answer.plan().ifLit().get(at));
    }

    /** The cautions stand in full with the week itself. */
    private static List<String> foot(Optional<LiveWeek.Answer> answer, Optional<WeekWords> say) {
        return answer.map(its -> {
                    List<String> all = say.orElseThrow().foot(its.plan());
                    return all.subList(
                            0, Math.max(0, all.size() - say.get().cautions().size()));
                })
                .orElse(List.of());
    }
}
