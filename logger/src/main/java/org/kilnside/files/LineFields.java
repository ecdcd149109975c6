package org.kilnside.files;

import com.google.re2j.Matcher;
import com.google.re2j.Pattern;
import java.util.LinkedHashMap;
import java.util.Map;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Takes a line apart by its form: each place with the text that stands there, in the line's order. */
public final class LineFields {
    /** A check sum behind a star, as instruments' sentences end; it is no part of the last value. */
    private static final java.util.regex.Pattern CHECK_SUM = java.util.regex.Pattern.compile("\\*[0-9A-Fa-f]{2}\\s*$");

    private static final JsonMapper JSON = JsonMapper.shared();
    private static final int DEEPEST = 4;

    private LineFields() {}

    /** Columns; the places are 1, 2, 3 … */
    public static Map<String, String> columns(String line, String separator) {
        String values = CHECK_SUM.matcher(line).replaceFirst("");
        String[] parts = switch (separator) {
            case "space" -> values.strip().split("\\s+", -1);
            case "tab" -> values.split("\t", -1);
            default -> values.split(java.util.regex.Pattern.quote(separator), -1);
        };
        Map<String, String> fields = new LinkedHashMap<>();
        for (int i = 0; i < parts.length; i++) {
            fields.put(String.valueOf(i + 1), parts[i].strip());
        }
        return fields;
    }

    /** Words with their numbers behind them. */
    public static Map<String, String> keys(String line) {
        return new KeyScanner(line).fields();
    }

    /** A JSON object; empty when the line is none. */
    public static Map<String, String> json(String line) {
        Map<String, String> fields = new LinkedHashMap<>();
        if (!line.strip().startsWith("{")) {
            return fields;
        }
        try {
            flatten("", JSON.readTree(line), fields, 0);
        } catch (JacksonException e) {
            // A line that is no JSON has no fields; the caller counts it.
            fields.clear();
        }
        return fields;
    }

    /** The groups of an expression, by number and where they have one by name; empty where it does not match. */
    public static Map<String, String> expression(String line, Pattern expression) {
        Map<String, String> fields = new LinkedHashMap<>();
        Matcher matcher = expression.matcher(line);
        if (!matcher.find()) {
            return fields;
        }
        for (int group = 1; group <= matcher.groupCount(); group++) {
            if (matcher.group(group) != null) {
                fields.put(String.valueOf(group), matcher.group(group));
            }
        }
        for (Map.Entry<String, Integer> named : expression.namedGroups().entrySet()) {
            if (matcher.group(named.getValue()) != null) {
                fields.put(named.getKey(), matcher.group(named.getValue()));
            }
        }
        return fields;
    }

    private static void flatten(String path, JsonNode node, Map<String, String> fields, int depth) {
        if (node.isObject() && depth < DEEPEST) {
            for (Map.Entry<String, JsonNode> entry : node.properties()) {
                flatten(
                        path.isEmpty() ? entry.getKey() : path + "." + entry.getKey(),
                        entry.getValue(),
                        fields,
                        depth + 1);
            }
        } else if (node.isArray() && depth < DEEPEST) {
            for (int i = 0; i < node.size(); i++) {
                flatten(path + "." + (i + 1), node.get(i), fields, depth + 1);
            }
        } else if (node.isNumber() || node.isString() || node.isBoolean()) {
            fields.put(path, node.asString());
        }
    }
}
