package org.kilnside.files;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Finds words and the numbers that belong to them: {@code T=1043.2}, {@code Temp: 1043.2 C}, {@code kiln 1043.2},
 * {@code T1043.2}. A number without a word is kept under its place, {@code #1}, {@code #2} …
 */
final class KeyScanner {
    private static final String UNITS = "(?i)°?[CF]|%|ms|s|sec|min|deg|degC|degF|pct|°";

    /** Words that are a value themselves, as of a relay. */
    private static final String STATES = "(?i)on|off|ein|aus|an|aan|uit|idle|heat|heating|nan|open";

    private final String line;
    private final Map<String, String> fields = new LinkedHashMap<>();
    private final StringBuilder label = new StringBuilder();
    private int at;
    private int nameless;

    KeyScanner(String line) {
        this.line = line;
    }

    Map<String, String> fields() {
        while (at < line.length()) {
            char c = line.charAt(at);
            if (startsNumber()) {
                value();
            } else if (Character.isLetter(c) || c == '_') {
                word();
            } else {
                if (c == ',' || c == ';' || c == '|' || c == '>' || c == ']') {
                    label.setLength(0);
                }
                at++;
            }
        }
        return fields;
    }

    private void word() {
        int from = at;
        while (at < line.length() && (Character.isLetterOrDigit(line.charAt(at)) || line.charAt(at) == '_')) {
            at++;
        }
        String word = line.substring(from, at);
        int next = blanks(at);
        boolean assigned = next < line.length() && (line.charAt(next) == '=' || line.charAt(next) == ':');
        if (!assigned && word.matches("[A-Za-z]{1,3}\\d+")) {
            // A letter with its number right behind it, T1043.2; the number may go on behind a point.
            int digits = from;
            while (Character.isLetter(line.charAt(digits))) {
                digits++;
            }
            add(line.substring(from, digits));
            at = digits;
            value();
            return;
        }
        if (!assigned && label.length() > 0 && word.matches(STATES)) {
            put(word);
            return;
        }
        add(word);
        if (assigned) {
            at = blanks(next + 1);
            if (startsNumber()) {
                value();
            } else if (at < line.length() && Character.isLetter(line.charAt(at))) {
                wordValue();
            }
        }
    }

    /** A word as the value: on, off, idle. A word that is itself followed by = is the next key. */
    private void wordValue() {
        int from = at;
        int to = at;
        while (to < line.length() && Character.isLetterOrDigit(line.charAt(to))) {
            to++;
        }
        int next = blanks(to);
        if (next < line.length() && (line.charAt(next) == '=' || line.charAt(next) == ':')) {
            label.setLength(0);
            return;
        }
        put(line.substring(from, to));
        at = to;
    }

    private void value() {
        int from = at;
        at++;
        while (at < line.length() && (Character.isDigit(line.charAt(at)) || pointInside() || colonInside())) {
            at++;
        }
        int unitAt = blanks(at);
        int unitEnd = unitAt;
        while (unitEnd < line.length()
                && (Character.isLetter(line.charAt(unitEnd)) || "°%".indexOf(line.charAt(unitEnd)) >= 0)) {
            unitEnd++;
        }
        String unit = line.substring(unitAt, unitEnd);
        int next = blanks(unitEnd);
        boolean nextKey = next < line.length() && (line.charAt(next) == '=' || line.charAt(next) == ':')
                || unitEnd < line.length() && Character.isDigit(line.charAt(unitEnd));
        String number = line.substring(from, at);
        if (!unit.isEmpty() && unit.matches(UNITS) && !nextKey) {
            put(number + " " + unit);
            at = unitEnd;
        } else {
            put(number);
        }
    }

    private boolean startsNumber() {
        if (at >= line.length()) {
            return false;
        }
        char c = line.charAt(at);
        if (Character.isDigit(c)) {
            return true;
        }
        boolean sign = c == '-' || c == '+';
        return (sign || c == '.') && at + 1 < line.length() && Character.isDigit(line.charAt(at + 1));
    }

    private boolean pointInside() {
        char c = line.charAt(at);
        return (c == '.' || c == ',')
                && at + 1 < line.length()
                && Character.isDigit(line.charAt(at + 1))
                && Character.isDigit(line.charAt(at - 1));
    }

    private boolean colonInside() {
        return line.charAt(at) == ':'
                && at + 1 < line.length()
                && Character.isDigit(line.charAt(at + 1))
                && Character.isDigit(line.charAt(at - 1));
    }

    private int blanks(int from) {
        int to = from;
        while (to < line.length() && Character.isWhitespace(line.charAt(to))) {
            to++;
        }
        return to;
    }

    private void add(String word) {
        if (label.length() > 0) {
            label.append(' ');
        }
        label.append(word);
    }

    private void put(String value) {
        nameless++;
        String key = label.length() == 0 ? "#" + nameless : label.toString();
        label.setLength(0);
        String unique = key;
        for (int again = 2; fields.containsKey(unique); again++) {
            unique = key + "#" + again;
        }
        fields.put(unique, value);
    }
}
