package org.kilnside.files;

import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.kilnside.quantity.Temperature;
import org.kilnside.week.Attendance;
import org.kilnside.week.Load;
import org.kilnside.week.Span;
import org.kilnside.week.Week;

/** What a potter wants of the days ahead, as a TOML file a person edits by hand; described in docs/week.md. */
public final class WeekFiles {
    static final String KIND = "a week";
    private static final List<String> KEYS =
            List.of("name", "kiln", "room", "due", "kiln_free", "top_alone", "packing", "there", "away", "load");
    private static final Map<String, String> WORDS = Map.of(
            "date",
            "due",
            "deadline",
            "due",
            "ambient",
            "room",
            "free",
            "kiln_free",
            "hours",
            "there",
            "loads",
            "load",
            "firing",
            "load",
            "firings",
            "load");
    private static final List<String> THERE_KEYS = List.of("days", "from", "to");
    private static final List<String> AWAY_KEYS = List.of("from", "to");
    private static final Map<String, String> SPAN_WORDS =
            Map.of("begin", "from", "end", "to", "until", "to", "day", "days");
    private static final Duration LONGEST_PACKING = Duration.ofDays(2);

    private WeekFiles() {}

    /** Against what a week's words are read. */
    public record Setting(ProfileLibrary library, Instant now, ZoneId zone) {}

    /**
     * Reads a week.
     *
     * @throws FileRefusedException when the file is missing, unreadable or no week
     */
    public static Week read(Path path, Setting setting) {
        return parse(TextFile.read(path, KIND), path.toString(), setting);
    }

    /**
     * Reads a week from its text.
     *
     * @param file how the person knows the file; begins every message
     * @throws FileRefusedException when it is no week; every problem is named with its line
     */
    public static Week parse(String text, String file, Setting setting) {
        TomlFields fields = TomlFields.parse(text, file, KIND);
        fields.refuseUnknown(KEYS, WORDS, KIND);
        Optional<String> name = fields.text("name", 80);
        if (name.isEmpty() && !fields.has("name")) {
            fields.problem("the week has no name; add a line such as name = \"For the café\" at the top");
        }
        Optional<String> kiln = fields.text("kiln", 200);
        if (kiln.isEmpty() && !fields.has("kiln")) {
            fields.problem("the week has no kiln; add a line such as kiln = \"tall-drum\" at the top");
        }
        Optional<Temperature> room =
                fields.quantity("room", UnitText::temperature, "2 °C").filter(value -> checkRoom(fields, value));
        Optional<Instant> due = moment(fields, "due", setting);
        Optional<Instant> free = moment(fields, "kiln_free", setting);
        Optional<Boolean> alone = fields.yesOrNo("top_alone");
        Optional<Duration> packing = fields.quantity("packing", UnitText::duration, "1 h 30 min")
                .filter(value -> checkDuration(fields, "packing", value, LONGEST_PACKING));
        List<Attendance.Hours> hours = new ArrayList<>();
        fields.tables("there").forEach(table -> hours(table).ifPresent(hours::add));
        List<Span> away = new ArrayList<>();
        fields.tables("away").forEach(table -> away(table, setting).ifPresent(away::add));
        List<Load> loads = WeekLoads.read(fields, setting);
        fields.source().refuseProblems();
        return new Week(
                name.orElseThrow().strip(),
                kiln.orElseThrow().strip(),
                room,
                due,
                free,
                new Attendance(hours, away),
                alone.orElse(false),
                packing.orElse(Week.USUAL_PACKING),
                setting.zone(),
                loads);
    }

    static Optional<Instant> moment(TomlFields fields, String key, Setting setting) {
        return fields.quantity(key, text -> MomentText.moment(text, setting.now(), setting.zone()), "2026-12-04 09:00");
    }

    static boolean checkDuration(TomlFields fields, String key, Duration value, Duration longest) {
        if (!value.isNegative() && value.compareTo(longest) <= 0) {
            return true;
        }
        fields.problem(
                key,
                "\"" + key + "\" is " + PlanText.duration(value) + ", expected 0 to " + longest.toHours()
                        + " h; check it");
        return false;
    }

    private static boolean checkRoom(TomlFields fields, Temperature value) {
        if (value.celsius() >= -40 && value.celsius() <= 60) {
            return true;
        }
        fields.problem(
                "room", "\"room\" is " + PlanText.number(value.celsius()) + " °C, expected −40 to 60 °C; check it");
        return false;
    }

    private static Optional<Attendance.Hours> hours(TomlFields table) {
        table.refuseUnknown(THERE_KEYS, SPAN_WORDS, "[[there]]");
        Set<DayOfWeek> days = table.has("days")
                ? table.quantity("days", MomentText::days, "Mon-Fri").orElse(Set.of())
                : EnumSet.allOf(DayOfWeek.class);
        Optional<LocalTime> from = time(table, "from");
        Optional<LocalTime> to = time(table, "to");
        return from.isEmpty() || to.isEmpty() || days.isEmpty()
                ? Optional.empty()
                : Optional.of(new Attendance.Hours(days, from.get(), to.get()));
    }

    private static Optional<LocalTime> time(TomlFields table, String key) {
        if (!table.has(key)) {
            table.problem("[[there]] has no \"" + key + "\"; add a line such as " + key + " = \"07:00\"");
            return Optional.empty();
        }
        return table.text(key, 10).flatMap(text -> {
            // A day ends at 24:00 to whoever writes it down, and at 00:00 to a clock.
            Optional<LocalTime> time = text.equals("24:00") ? Optional.of(LocalTime.MIDNIGHT) : NightFiles.time(text);
            if (time.isEmpty()) {
                table.problem(
                        key,
                        "\"" + key + "\": found " + UnitText.quoted(text)
                                + ", expected a time of day such as \"07:00\"");
            }
            return time;
        });
    }

    private static Optional<Span> away(TomlFields table, Setting setting) {
        table.refuseUnknown(AWAY_KEYS, SPAN_WORDS, "[[away]]");
        for (String key : AWAY_KEYS) {
            if (!table.has(key)) {
                table.problem("[[away]] has no \"" + key + "\"; add a line such as " + key + " = \"2026-12-01 08:00\"");
            }
        }
        Optional<Instant> from = moment(table, "from", setting);
        Optional<Instant> to = moment(table, "to", setting);
        if (from.isEmpty() || to.isEmpty()) {
            return Optional.empty();
        }
        // Whoever is away now wrote down a day that has begun: the one before the end, not the one after it.
        Instant begin = from.get().isAfter(to.get()) && !isDated(table, "from")
                ? from.get().atZone(setting.zone()).minusWeeks(1).toInstant()
                : from.get();
        if (!to.get().isAfter(begin)) {
            table.problem("to", "\"to\" is not after \"from\"; write when the absence is over");
            return Optional.empty();
        }
        return Optional.of(new Span(begin, to.get()));
    }

    private static boolean isDated(TomlFields table, String key) {
        return table.text(key, 40).filter(text -> text.matches(".*\\d{4}-.*")).isPresent();
    }

    /** A week as the text of its file: the same week when read back, moments to the minute. */
    public static String text(Week week) {
        StringBuilder text = new StringBuilder();
        ZoneId zone = week.zone();
        PlanText.line(text, "name", week.name());
        PlanText.line(text, "kiln", week.kiln());
        week.room().ifPresent(room -> PlanText.line(text, "room", PlanText.temperature(room)));
        week.due().ifPresent(due -> PlanText.line(text, "due", MomentText.of(due, zone)));
        week.kilnFree().ifPresent(free -> PlanText.line(text, "kiln_free", MomentText.of(free, zone)));
        if (week.topAlone()) {
            text.append("top_alone = true\n");
        }
        PlanText.line(text, "packing", PlanText.duration(week.packing()));
        for (Attendance.Hours each : week.there().hours()) {
            text.append("\n[[there]]\n");
            PlanText.line(text, "days", MomentText.of(each.days()));
            PlanText.line(text, "from", each.from().toString());
            PlanText.line(text, "to", each.to().toString());
        }
        for (Span each : week.there().away()) {
            text.append("\n[[away]]\n");
            PlanText.line(text, "from", MomentText.of(each.from(), zone));
            PlanText.line(text, "to", MomentText.of(each.to(), zone));
        }
        week.loads().forEach(load -> WeekLoads.write(text, load, zone));
        return text.toString();
    }
}
