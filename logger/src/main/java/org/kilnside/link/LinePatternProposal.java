package org.kilnside.link;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.kilnside.files.LineFields;
import org.kilnside.files.LinePattern;
import org.kilnside.files.LinePattern.Form;
import org.kilnside.files.LinePattern.Place;
import org.kilnside.files.LinePattern.Quantity;

/**
 * Looks at the first lines of an unknown stream and proposes how to read them. A guess for a person to confirm: the
 * person sees the numbers it found beside what they are taken for.
 *
 * @param sentence what is seen, in plain words
 * @param pattern the proposed pattern; empty when the lines show no temperature
 */
public record LinePatternProposal(String sentence, Optional<LinePattern> pattern) {
    /** Fewer lines than this say too little. */
    public static final int FEWEST_LINES = 4;

    /** A date with or without a time behind it, in the orders in use. */
    private static final Pattern DATE = Pattern.compile(
            "\\[?(\\d{4}[-/.]?\\d\\d[-/.]?\\d\\d|\\d\\d?[-/.]\\d\\d?[-/.]\\d{2,4})([T ]?\\d[\\d:.,]*Z?)?]?");

    private static final double MOSTLY = 0.7;
    private static final List<String> SEPARATORS = List.of(",", ";", "tab", "|", "space");
    private static final String NAME = "proposed";

    /** A way to take the lines apart. */
    private record Shape(Form form, String detail, Function<String, Map<String, String>> taking) {}

    /**
     * Looks at lines.
     *
     * @param lines the lines in order, without line ends; the first may be half a line
     * @param betweenLinesMs host time from line to line, ms; empty when not known
     */
    public static LinePatternProposal of(List<String> lines, OptionalDouble betweenLinesMs) {
        List<String> filled = lines.stream().filter(line -> !line.isBlank()).toList();
        if (filled.size() < FEWEST_LINES) {
            return new LinePatternProposal(
                    filled.size() + " lines came; at least " + FEWEST_LINES + " are needed to propose a pattern.",
                    Optional.empty());
        }
        for (Shape shape : shapes()) {
            List<Series> series = series(filled, shape);
            if (series.isEmpty()) {
                continue;
            }
            boolean fahrenheit = saysFahrenheit(filled, shape);
            Map<Quantity, Place> places = new NumberRoles(series, betweenLinesMs, fahrenheit).places();
            if (places.containsKey(Quantity.TEMPERATURE)) {
                LinePattern pattern = new LinePattern(NAME, shape.form, shape.detail, places);
                String sentence = sentence(series, shape, places, betweenLinesMs);
                return new LinePatternProposal(sentence, Optional.of(pattern));
            }
        }
        return new LinePatternProposal(
                filled.size() + " lines of text came, but no number in them looks like a kiln's temperature;"
                        + " write a line pattern by hand (form = \"expression\").",
                Optional.empty());
    }

    private static List<Shape> shapes() {
        List<Shape> shapes = new ArrayList<>();
        shapes.add(new Shape(Form.JSON, "", LineFields::json));
        for (String separator : SEPARATORS) {
            shapes.add(new Shape(Form.COLUMNS, separator, line -> LineFields.columns(line, separator)));
        }
        shapes.add(new Shape(Form.KEYS, "", LineFields::keys));
        return shapes;
    }

    /** The series of the places that most lines have; none when the lines are not of this shape. */
    private static List<Series> series(List<String> lines, Shape shape) {
        List<Map<String, String>> all = lines.stream().map(shape.taking).toList();
        Map<String, Integer> counts = new LinkedHashMap<>();
        for (Map<String, String> fields : all) {
            fields.keySet().forEach(place -> counts.merge(place, 1, Integer::sum));
        }
        List<String> places = counts.keySet().stream()
                .filter(place -> counts.get(place) >= lines.size() * MOSTLY)
                .toList();
        List<Map<String, String>> whole = all.stream()
                .filter(fields -> fields.keySet().containsAll(places) && !heading(fields))
                .toList();
        if (places.isEmpty() || whole.size() < FEWEST_LINES - 1) {
            return List.of();
        }
        List<Series> series = new ArrayList<>();
        for (String place : places) {
            String hint = shape.form == Form.COLUMNS ? headings(all).getOrDefault(place, "") : place;
            Series found = new Series(
                    place, hint, whole.stream().map(fields -> fields.get(place)).toList());
            boolean plain = found.isNumeric() || found.isClock() || found.isOnOff();
            if (plain) {
                series.add(found);
            } else if (shape.form == Form.COLUMNS && mixed(found)) {
                // Words and numbers, or several numbers, between two separators: not these columns.
                return List.of();
            }
        }
        if (shape.form == Form.COLUMNS && tooManyWords(shape, places, series)) {
            return List.of();
        }
        return series;
    }

    /** Whether a word of its own on every line says °F for all of them. */
    private static boolean saysFahrenheit(List<String> lines, Shape shape) {
        List<Map<String, String>> all = lines.stream().map(shape.taking).toList();
        return all.get(all.size() - 1).keySet().stream()
                .anyMatch(place -> all.stream()
                                .map(fields -> fields.getOrDefault(place, ""))
                                .filter(text -> text.matches("(?i)°?F|degF|fahrenheit"))
                                .count()
                        >= lines.size() * MOSTLY);
    }

    /** A column that holds more than one value, such as T=20.5 or 5000;232; a date is let pass. */
    private static boolean mixed(Series column) {
        return column.texts().stream()
                .allMatch(text -> text.matches(".*\\d.*") && !DATE.matcher(text).matches());
    }

    /** Labels between blanks, as in "Temp 20.5 Set 600": keys read these better. */
    private static boolean tooManyWords(Shape shape, List<String> places, List<Series> series) {
        return series.isEmpty() || (shape.detail.equals("space") && places.size() - series.size() >= 2);
    }

    private static boolean heading(Map<String, String> fields) {
        return fields.values().stream().noneMatch(text -> text.matches(".*\\d.*"));
    }

    /** The words of a heading line, which stands right before the first line of numbers. */
    private static Map<String, String> headings(List<Map<String, String>> all) {
        for (int i = 1; i < all.size(); i++) {
            if (!heading(all.get(i))) {
                boolean named = heading(all.get(i - 1))
                        && all.get(i - 1).size() == all.get(i).size();
                if (named || !numbersAhead(all, i)) {
                    return named ? all.get(i - 1) : Map.of();
                }
            }
        }
        return Map.of();
    }

    private static boolean numbersAhead(List<Map<String, String>> all, int from) {
        return all.subList(from + 1, all.size()).stream()
                .anyMatch(fields -> fields.size() > all.get(from).size());
    }

    private static String sentence(
            List<Series> series, Shape shape, Map<Quantity, Place> places, OptionalDouble betweenLinesMs) {
        StringBuilder text = new StringBuilder();
        text.append(series.size()).append(series.size() == 1 ? " value a line" : " values a line");
        betweenLinesMs.ifPresent(ms -> text.append(", ").append(often(ms)));
        text.append(
                switch (shape.form) {
                    case JSON -> ", as JSON";
                    case KEYS -> ", each behind its word";
                    default -> "";
                });
        EnumMap<Quantity, Place> ordered = new EnumMap<>(places);
        for (Map.Entry<Quantity, Place> entry : ordered.entrySet()) {
            text.append("; ")
                    .append(where(shape.form, entry.getValue().at()))
                    .append(" looks like ")
                    .append(what(entry.getKey(), entry.getValue(), series));
        }
        text.append('.');
        if (unitIsAssumed(series, places.get(Quantity.TEMPERATURE))) {
            text.append(" The lines name no unit: change °C to °F if that is what your controller shows.");
        }
        return text.toString();
    }

    /** Near room temperature only °C makes sense; further up a number without a unit may be either. */
    private static boolean unitIsAssumed(List<Series> series, Place place) {
        Series temperature = series.stream()
                .filter(one -> one.at().equals(place.at()))
                .findFirst()
                .orElseThrow();
        boolean told = temperature.unit().isPresent() || temperature.called(NumberRoles.CELSIUS);
        return place.unit().equals("°C") && !told && temperature.highest() * place.scale() > 45;
    }

    private static String often(double ms) {
        double seconds = ms / 1000;
        if (Math.abs(seconds - 1) < 0.15) {
            return "once a second";
        }
        return seconds > 1 ? "every " + Math.round(seconds) + " s" : Math.round(1 / seconds) + " times a second";
    }

    private static String where(Form form, String at) {
        return form == Form.COLUMNS ? "number " + at : "\"" + at + "\"";
    }

    private static String what(Quantity quantity, Place place, List<Series> series) {
        String name = switch (quantity) {
            case TEMPERATURE -> "the kiln's temperature";
            case SETPOINT -> "the set-point";
            case COLD_JUNCTION -> "the temperature of the board";
            case OUTPUT -> "the element output";
            case SEGMENT -> "the segment";
            case UPTIME -> "the controller's clock";
        };
        String scale = place.scale() == 1 ? "" : ", times " + place.scale();
        String near = "";
        if (quantity == Quantity.TEMPERATURE) {
            double value = series.stream()
                            .filter(one -> one.at().equals(place.at()))
                            .findFirst()
                            .orElseThrow()
                            .highest()
                    * place.scale();
            double celsius = place.unit().equals("°F") ? (value - 32) / 1.8 : value;
            near = celsius < 40 ? ", near room temperature" : "";
        }
        return name + (quantity == Quantity.SEGMENT ? "" : " in " + place.unit()) + scale + near;
    }
}
