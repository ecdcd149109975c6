package org.kilnside.files;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.heatwork.Cone;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlanLimits;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/**
 * Plans as TOML files a potter edits by hand; the format is described in docs/plans.md. Everything wrong with a file is
 * found in one pass and refused with its line and column.
 */
public final class PlanFiles {
    static final String KIND = "a plan";
    private static final List<String> PLAN_KEYS = List.of("name", "aims_for", "clay", "notes", "segment");
    private static final List<String> SEGMENT_KEYS = List.of("rate", "to", "hold", "cool");
    private static final Map<String, String> PLAN_WORDS = Map.of(
            "title",
            "name",
            "cone",
            "aims_for",
            "aim",
            "aims_for",
            "goal",
            "aims_for",
            "body",
            "clay",
            "note",
            "notes",
            "comment",
            "notes",
            "description",
            "notes",
            "step",
            "segment",
            "ramp",
            "segment");
    private static final Map<String, String> SEGMENT_WORDS = Map.ofEntries(
            Map.entry("ramp", "rate"),
            Map.entry("speed", "rate"),
            Map.entry("target", "to"),
            Map.entry("temperature", "to"),
            Map.entry("temp", "to"),
            Map.entry("until", "to"),
            Map.entry("soak", "hold"),
            Map.entry("dwell", "hold"),
            Map.entry("wait", "hold"),
            Map.entry("time", "hold"),
            Map.entry("cooling", "cool"));

    private PlanFiles() {}

    /**
     * Reads a plan.
     *
     * @throws FileRefusedException when the file is missing, unreadable or no plan
     */
    public static Schedule read(Path path) {
        return parse(readText(path), path.toString());
    }

    /**
     * A plan file's text, to be kept beside what was made of it.
     *
     * @throws FileRefusedException when the file is missing, unreadable, or no text
     */
    public static String readText(Path path) {
        return TextFile.read(path, KIND);
    }

    /**
     * Reads a plan from its text.
     *
     * @param text the file's text
     * @param file how the person knows the file; begins every message
     * @throws FileRefusedException when it is no plan
     */
    public static Schedule parse(String text, String file) {
        TomlFields plan = TomlFields.parse(text, file, KIND);
        plan.refuseUnknown(PLAN_KEYS, PLAN_WORDS, KIND);
        Optional<String> name = plan.text("name", PlanLimits.LONGEST_NAME);
        if (name.isEmpty() && !plan.has("name")) {
            plan.problem("the plan has no name; add a line such as name = \"Bisque\" at the top");
        }
        Optional<String> aimsFor = plan.text("aims_for", 20).filter(cone -> checkCone(plan, cone));
        Optional<String> clay = plan.text("clay", PlanLimits.LONGEST_CLAY);
        Optional<String> notes = plan.text("notes", PlanLimits.LONGEST_NOTES);
        List<Segment> segments = segments(plan);
        plan.source().refuseProblems();
        return new Schedule(name.orElseThrow().strip(), aimsFor, clay, notes, segments);
    }

    /**
     * Writes a plan, so that reading it back gives the same plan. The old file stays whole until the new one is.
     *
     * @throws FileRefusedException when it cannot be written
     */
    public static void write(Path path, Schedule schedule) {
        TextFile.write(path, PlanText.of(schedule));
    }

    /**
     * A plan as the text of its file, in place of an earlier text: the person's own comments and layout stay where what
     * they belong to stays.
     *
     * @param earlier the text of the file as it was
     */
    public static String text(Schedule schedule, String earlier) {
        return PlanRewrite.of(schedule, earlier);
    }

    /** A plan as the text of its file. */
    public static String text(Schedule schedule) {
        return PlanText.of(schedule);
    }

    private static boolean checkCone(TomlFields plan, String cone) {
        if (cone.startsWith("cone ") && Cone.find(cone).isPresent()) {
            return true;
        }
        plan.problem(
                "aims_for",
                "\"aims_for\": found " + UnitText.quoted(cone)
                        + ", expected a cone from 022 to 14, zero and all, such as \"cone 06\" or \"cone 6\"");
        return false;
    }

    private static List<Segment> segments(TomlFields plan) {
        if (!plan.has("segment")) {
            plan.problem("the plan has no segments; add a line [[segment]] and below it rate, to and hold");
            return List.of();
        }
        List<TomlFields> tables = plan.tables("segment");
        if (tables.size() > PlanLimits.MOST_SEGMENTS) {
            plan.problem("the plan has " + tables.size() + " segments, expected at most " + PlanLimits.MOST_SEGMENTS
                    + "; check that it is the right file");
            return List.of();
        }
        List<Segment> segments = new ArrayList<>();
        for (int i = 0; i < tables.size(); i++) {
            TomlFields table = tables.get(i);
            table.refuseUnknown(SEGMENT_KEYS, SEGMENT_WORDS, "a segment");
            if (table.has("cool")) {
                freeCooling(table, i, tables.size()).ifPresent(segments::add);
            } else {
                ramp(table, i + 1).ifPresent(segments::add);
            }
        }
        return segments;
    }

    private static Optional<Segment> freeCooling(TomlFields table, int index, int count) {
        Optional<String> cool = table.word("cool", List.of("free"));
        for (String other : List.of("rate", "to", "hold")) {
            if (table.has(other)) {
                table.problem(
                        other,
                        "\"" + other
                                + "\" and cool = \"free\" in one segment; give the free cooling a segment of its own,"
                                + " or take \"cool\" out for controlled cooling");
            }
        }
        if (index != count - 1) {
            table.problem(
                    "cool",
                    "free cooling is segment " + (index + 1) + " of " + count
                            + ", expected it as the last one; nothing can follow it, so move or remove it");
        } else if (index == 0) {
            table.problem("cool", "the plan has free cooling alone, expected a segment that heats before it; add one");
        }
        return cool.map(free -> new Segment.FreeCooling());
    }

    private static Optional<Segment> ramp(TomlFields table, int number) {
        Optional<HeatingRate> rate =
                table.quantity("rate", UnitText::rate, "80 °C/h").filter(value -> checkRate(table, value));
        Optional<Temperature> to =
                table.quantity("to", UnitText::temperature, "600 °C").filter(value -> checkTarget(table, value));
        Optional<Duration> hold = table.has("hold")
                ? table.quantity("hold", UnitText::duration, "15 min").filter(value -> checkHold(table, value))
                : Optional.of(Duration.ZERO);
        if (!table.has("to")) {
            table.problem(
                    "segment " + number + " has no \"to\"; add the temperature it goes to, such as to = \"600 °C\"");
        }
        if (!table.has("rate")) {
            table.problem("segment " + number + " has no \"rate\"; add how fast it goes, such as rate = \"80 °C/h\"");
        }
        if (rate.isEmpty() || to.isEmpty() || hold.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Segment.Ramp(rate.get(), to.get(), hold.get()));
    }

    private static boolean checkRate(TomlFields table, HeatingRate rate) {
        double kelvinPerHour = rate.kelvinPerHour();
        if (kelvinPerHour < 0) {
            table.problem(
                    "rate",
                    "\"rate\" is below 0, expected it above 0; for controlled cooling write it positive and let \"to\""
                            + " be lower than before");
        } else if (kelvinPerHour == 0) {
            table.problem(
                    "rate",
                    "\"rate\" is 0, so the segment would never end; write a rate above 0, and \"hold\" to stay at a"
                            + " temperature");
        } else if (PlanLimits.rate(rate).isEmpty()) {
            table.problem(
                    "rate",
                    "\"rate\" is " + PlanText.number(kelvinPerHour) + " °C/h, expected 0.1 to 5000 °C/h; check it");
        } else {
            return true;
        }
        return false;
    }

    private static boolean checkTarget(TomlFields table, Temperature to) {
        if (PlanLimits.target(to).isPresent()) {
            return true;
        }
        String hint =
                to.isAbove(PlanLimits.HOTTEST_TARGET) ? "check the number, and whether it is meant in °F" : "check it";
        table.problem("to", "\"to\" is " + PlanText.number(to.celsius()) + " °C, expected 0 to 1500 °C; " + hint);
        return false;
    }

    private static boolean checkHold(TomlFields table, Duration hold) {
        if (hold.isNegative()) {
            table.problem("hold", "\"hold\" is below 0, expected 0 or longer; write how long to stay, or remove it");
        } else if (PlanLimits.hold(hold).isEmpty()) {
            table.problem("hold", "\"hold\" is " + hold.toHours() + " h, expected at most 168 h (a week); check it");
        } else {
            return true;
        }
        return false;
    }
}
