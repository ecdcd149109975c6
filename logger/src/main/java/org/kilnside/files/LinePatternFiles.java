package org.kilnside.files;

import com.google.re2j.Pattern;
import com.google.re2j.PatternSyntaxException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.kilnside.files.LinePattern.Form;
import org.kilnside.files.LinePattern.Place;
import org.kilnside.files.LinePattern.Quantity;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;

/** Reads and writes line patterns as TOML; the files of profiles/line-patterns show every form. */
public final class LinePatternFiles {
    static final String KIND = "a line pattern";

    private static final List<String> FORMS = List.of("columns", "keys", "json", "expression");
    private static final int LONGEST_EXPRESSION = 1_000;

    private LinePatternFiles() {}

    /**
     * Reads a pattern's file.
     *
     * @throws FileRefusedException with line and column when it is no line pattern
     */
    public static LinePattern read(Path path) {
        return parse(TextFile.read(path, KIND), path.toString());
    }

    /** Reads a pattern's text; see {@link #read}. */
    public static LinePattern parse(String text, String file) {
        TomlFields fields = TomlFields.parse(text, file, KIND);
        List<String> known =
                new ArrayList<>(List.of("name", "form", "separator", "expression", "thermocouple", "amplifier"));
        for (Quantity quantity : Quantity.values()) {
            known.add(quantity.title());
        }
        fields.refuseUnknown(
                known, Map.of("temp", "temperature", "setpoint_temperature", "setpoint", "regex", "expression"), KIND);
        Optional<String> name = fields.text("name", 80);
        Optional<Form> form = fields.word("form", FORMS).map(word -> Form.valueOf(word.toUpperCase(Locale.ROOT)));
        if (!fields.has("name")) {
            fields.problem("\"name\" is missing, expected what you call this pattern; add a line name = \"…\"");
        }
        if (!fields.has("form")) {
            fields.problem("\"form\" is missing, expected one of " + String.join(", ", FORMS));
        }
        String detail = form.map(found -> detail(fields, found)).orElse("");
        EnumMap<Quantity, Place> places = new EnumMap<>(Quantity.class);
        for (Quantity quantity : Quantity.values()) {
            fields.table(quantity.title())
                    .flatMap(table -> place(table, quantity, form))
                    .ifPresent(place -> places.put(quantity, place));
        }
        if (!fields.has(Quantity.TEMPERATURE.title())) {
            fields.problem("\"temperature\" is missing: write [temperature] and below it at = \"…\" and unit = \"°C\"");
        }
        Probe probe = probe(fields);
        fields.source().refuseProblems();
        return new LinePattern(name.orElseThrow(), form.orElseThrow(), detail, places, probe);
    }

    /** A pattern as the text of its file. */
    public static String text(LinePattern pattern) {
        StringBuilder text = new StringBuilder();
        PlanText.line(text, "name", pattern.name());
        PlanText.line(text, "form", pattern.form().name().toLowerCase(Locale.ROOT));
        if (pattern.form() == Form.COLUMNS) {
            PlanText.line(text, "separator", pattern.detail());
        } else if (pattern.form() == Form.EXPRESSION) {
            text.append("expression = '").append(pattern.detail()).append("'\n");
        }
        if (!pattern.probe().equals(Probe.UNKNOWN)) {
            PlanText.line(text, "thermocouple", pattern.probe().type().name());
            PlanText.line(text, "amplifier", pattern.probe().amplifier().name());
        }
        for (Map.Entry<Quantity, Place> entry : pattern.places().entrySet()) {
            text.append("\n[").append(entry.getKey().title()).append("]\n");
            PlanText.line(text, "at", entry.getValue().at());
            PlanText.line(text, "unit", entry.getValue().unit());
            if (entry.getValue().scale() != 1) {
                PlanText.line(text, "scale", PlanText.number(entry.getValue().scale()));
            }
        }
        return text.toString();
    }

    /** The probe whose number a controller passes on as its amplifier gives it. */
    private static Probe probe(TomlFields fields) {
        Optional<ThermocoupleType> type = fields.word(
                        "thermocouple",
                        Arrays.stream(ThermocoupleType.values()).map(Enum::name).toList())
                .map(ThermocoupleType::valueOf);
        Optional<Amplifier> amplifier = fields.word(
                        "amplifier",
                        Arrays.stream(Amplifier.values()).map(Enum::name).toList())
                .map(Amplifier::valueOf);
        if (fields.has("amplifier") && !fields.has("thermocouple")) {
            fields.problem(
                    "amplifier",
                    "\"amplifier\" stands without \"thermocouple\", expected both; add the thermocouple's letter, such as"
                            + " thermocouple = \"K\"");
        }
        return new Probe(type.orElse(Probe.UNKNOWN.type()), amplifier.orElse(Probe.UNKNOWN.amplifier()));
    }

    private static String detail(TomlFields fields, Form form) {
        switch (form) {
            case COLUMNS -> {
                Optional<String> separator = fields.text("separator", 5);
                if (separator.isEmpty() && !fields.has("separator")) {
                    fields.problem("\"separator\" is missing: write separator = \",\" or \"space\" or \"tab\"");
                }
                return separator.orElse(",");
            }
            case EXPRESSION -> {
                Optional<String> expression = fields.text("expression", LONGEST_EXPRESSION);
                if (expression.isEmpty() && !fields.has("expression")) {
                    fields.problem("\"expression\" is missing: write expression = 'T=([0-9.]+)'");
                }
                expression.ifPresent(found -> check(fields, found));
                return expression.orElse("");
            }
            default -> {
                return "";
            }
        }
    }

    private static void check(TomlFields fields, String expression) {
        try {
            if (Pattern.compile(expression).groupCount() == 0) {
                fields.problem(
                        "expression", "\"expression\" has no group in brackets, expected one around each number");
            }
        } catch (PatternSyntaxException e) {
            fields.problem("expression", "\"expression\" is no regular expression: " + e.getMessage());
        }
    }

    private static Optional<Place> place(TomlFields table, Quantity quantity, Optional<Form> form) {
        table.refuseUnknown(
                List.of("at", "unit", "scale"),
                Map.of("column", "at", "key", "at", "group", "at", "factor", "scale"),
                "a place");
        Optional<String> at = table.text("at", 60);
        if (!table.has("at")) {
            table.problem("\"at\" is missing, expected the column, word, path or group of the " + quantity.title());
        }
        at.filter(found -> form.equals(Optional.of(Form.COLUMNS)) && !found.matches("[1-9]\\d{0,2}"))
                .ifPresent(found -> table.problem(
                        "at", "\"at\": found \"" + found + "\", expected a column counted from 1, such as \"2\""));
        Optional<String> unit = table.word("unit", quantity.units());
        if (!table.has("unit") && quantity != Quantity.SEGMENT) {
            table.problem("\"unit\" is missing, expected " + String.join(" or ", quantity.units()));
        }
        double scale = 1;
        Optional<String> written = table.text("scale", 20);
        if (written.isPresent()) {
            scale = LineNumber.of(written.get()).orElse(0);
            if (scale == 0) {
                table.problem("scale", "\"scale\": found \"" + written.get() + "\", expected a number such as \"0.1\"");
            }
        }
        double factor = scale;
        return at.flatMap(place -> unit.or(() -> quantity == Quantity.SEGMENT ? Optional.of("count") : Optional.empty())
                .map(known -> new Place(place, known, factor)));
    }
}
