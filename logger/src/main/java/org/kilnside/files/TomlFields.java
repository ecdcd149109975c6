package org.kilnside.files;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.kilnside.files.FileRefusedException.Problem;
import org.kilnside.files.UnitText.NotAQuantityException;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;

/**
 * The keys of one table of a TOML file, each problem noted with its line and column. A reader asks for all it knows,
 * then {@link Source#refuseProblems()} throws them all at once.
 */
final class TomlFields {
    private static final int DEEPEST = 32;

    private final Source source;
    private final TomlTable table;
    private final TomlPosition position;

    private TomlFields(Source source, TomlTable table, TomlPosition position) {
        this.source = source;
        this.table = table;
        this.position = position;
    }

    /**
     * Parses a file's text.
     *
     * @param kind what the file should be, with its article
     * @throws FileRefusedException when it is not TOML
     */
    static TomlFields parse(String text, String file, String kind) {
        Source source = new Source(file, text.lines().toList());
        source.refuseDeepNesting(text, kind);
        TomlParseResult result = Toml.parse(text);
        if (result.hasErrors()) {
            source.refuseSyntax(result.errors().get(0), kind);
        }
        return new TomlFields(source, result, TomlPosition.positionAt(1, 1));
    }

    Source source() {
        return source;
    }

    /** What one file holds besides its keys: its lines, and the problems found so far. */
    static final class Source {
        private final String file;
        private final List<String> lines;
        private final List<Problem> problems = new ArrayList<>();

        private Source(String file, List<String> lines) {
            this.file = file;
            this.lines = lines;
        }

        void refuseProblems() {
            if (!problems.isEmpty()) {
                problems.sort(Comparator.comparingInt(Problem::line).thenComparingInt(Problem::column));
                throw new FileRefusedException(problems);
            }
        }

        private void note(TomlPosition at, String sentence) {
            problems.add(new Problem(file, at.line(), at.column(), sentence));
        }

        /** Where the value of the key at a position stands: behind the equals sign, where there is one on the line. */
        private TomlPosition valueOf(TomlPosition key) {
            String line = lines.get(key.line() - 1);
            int equals = line.indexOf('=', key.column() - 1);
            if (equals < 0) {
                return key;
            }
            int value = equals + 1;
            while (value < line.length() && Character.isWhitespace(line.charAt(value))) {
                value++;
            }
            return TomlPosition.positionAt(key.line(), value + 1);
        }

        private void refuseDeepNesting(String text, String kind) {
            int depth = 0;
            int line = 1;
            for (int i = 0; i < text.length(); i++) {
                char c = text.charAt(i);
                line += c == '\n' ? 1 : 0;
                depth += c == '[' || c == '{' ? 1 : c == ']' || c == '}' ? -1 : 0;
                if (depth > DEEPEST) {
                    throw new FileRefusedException(new Problem(
                            file,
                            line,
                            0,
                            "brackets within brackets, " + DEEPEST + " deep: this is not " + kind
                                    + "; check that it is the right file"));
                }
            }
        }

        private void refuseSyntax(TomlParseError error, String kind) {
            TomlPosition at = error.position();
            String line = at.line() <= lines.size() ? lines.get(at.line() - 1) : "";
            String what = Optional.ofNullable(error.getMessage()).orElse("unreadable");
            what = Character.toLowerCase(what.charAt(0)) + what.substring(1);
            String sentence;
            if (line.matches("\\s*[A-Za-z_]{1,40}\\s*=\\s*[^\"'\\s].*")) {
                String key = line.substring(0, line.indexOf('=')).strip();
                String value = line.substring(line.indexOf('=') + 1)
                        .replaceAll("#.*", "")
                        .strip();
                sentence = "the value of \"" + key + "\" is not in quotes; write " + key + " = "
                        + UnitText.quoted(value.replace("\"", ""));
            } else if (what.contains("end of line, expected \"")) {
                sentence = "a closing quote is missing at the end of this line; add it";
            } else if (what.contains("previously defined") || what.contains("is not an array")) {
                sentence = what + "; remove one of the two";
            } else {
                sentence = "this cannot be read as " + kind + ": " + what
                        + "; a line is a key, \"=\" and a value in quotes";
            }
            throw new FileRefusedException(new Problem(file, at.line(), at.column(), sentence));
        }
    }

    /** Notes a problem with this table as a whole. */
    void problem(String sentence) {
        source.note(position, sentence);
    }

    /** Notes a problem with a key's value. */
    void problem(String key, String sentence) {
        source.note(source.valueOf(table.inputPositionOf(List.of(key))), sentence);
    }

    boolean has(String key) {
        return table.get(List.of(key)) != null;
    }

    /**
     * Notes every key that is not known, with the known one it resembles.
     *
     * @param known the keys there are
     * @param synonyms words people use instead, each with the key that is meant
     * @param of what the keys belong to: "a segment"
     */
    void refuseUnknown(List<String> known, Map<String, String> synonyms, String of) {
        for (String key : table.keySet()) {
            if (!known.contains(key)) {
                String near = NearMatch.of(key, known)
                        .or(() -> Optional.ofNullable(synonyms.get(key)))
                        .map(match -> "; did you mean \"" + match + "\"?")
                        .orElse("");
                source.note(
                        table.inputPositionOf(List.of(key)),
                        "unknown key " + UnitText.quoted(key) + ", " + of + " has " + String.join(", ", known)
                                + (near.isEmpty() ? "; remove it" : near));
            }
        }
    }

    /** A text; empty when the key is absent, or noted as a problem. */
    Optional<String> text(String key, int longest) {
        return string(key, "text in quotes").filter(value -> {
            if (value.isBlank()) {
                problem(key, "\"" + key + "\" is empty, expected text; fill it in or remove the line");
                return false;
            }
            if (value.length() > longest) {
                problem(
                        key,
                        "\"" + key + "\" has " + value.length() + " characters, expected at most " + longest
                                + "; shorten it");
                return false;
            }
            if (value.chars().anyMatch(c -> Character.isISOControl(c) && c != '\n' && c != '\t' && c != '\r')) {
                problem(key, "\"" + key + "\" holds a control character, expected plain text; type it anew");
                return false;
            }
            return true;
        });
    }

    /** A quantity with its unit; empty when the key is absent, or noted as a problem. */
    <T> Optional<T> quantity(String key, Function<String, T> reading, String example) {
        return string(key, "it in quotes with its unit such as \"" + example + "\"")
                .flatMap(value -> {
                    try {
                        return Optional.of(reading.apply(value));
                    } catch (NotAQuantityException e) {
                        problem(key, "\"" + key + "\": " + e.getMessage());
                        return Optional.empty();
                    }
                });
    }

    /** One of several words; empty when the key is absent, or noted as a problem. */
    Optional<String> word(String key, List<String> words) {
        return string(key, "one of " + String.join(", ", words)).flatMap(value -> {
            if (words.contains(value)) {
                return Optional.of(value);
            }
            String near = NearMatch.of(value, words)
                    .map(match -> "; did you mean \"" + match + "\"?")
                    .orElse("; choose one");
            problem(
                    key,
                    "\"" + key + "\": found " + UnitText.quoted(value) + ", expected " + String.join(" or ", words)
                            + near);
            return Optional.empty();
        });
    }

    /** True or false; empty when the key is absent, or noted as a problem. */
    Optional<Boolean> yesOrNo(String key) {
        Object value = table.get(List.of(key));
        if (value == null) {
            return Optional.empty();
        }
        if (value instanceof Boolean yes) {
            return Optional.of(yes);
        }
        problem(key, "\"" + key + "\": found " + UnitText.quoted(value.toString()) + ", expected true or false");
        return Optional.empty();
    }

    private Optional<String> string(String key, String expected) {
        Object value = table.get(List.of(key));
        if (value == null) {
            return Optional.empty();
        }
        if (value instanceof String string) {
            return Optional.of(string);
        }
        String found =
                value instanceof TomlTable ? "a table" : value instanceof TomlArray ? "a list" : value.toString();
        problem(key, "\"" + key + "\": found " + found + ", expected " + expected);
        return Optional.empty();
    }

    /** The table of a name; empty when absent, or noted as a problem. */
    Optional<TomlFields> table(String key) {
        Object value = table.get(List.of(key));
        if (value == null) {
            return Optional.empty();
        }
        TomlPosition at = table.inputPositionOf(List.of(key));
        if (value instanceof TomlTable inner) {
            return Optional.of(new TomlFields(source, inner, at));
        }
        source.note(at, "\"" + key + "\" is not a table; write a line [" + key + "] and its keys below it");
        return Optional.empty();
    }

    /** The tables of a name, in the file's order; empty when absent, or noted as a problem. */
    List<TomlFields> tables(String key) {
        Object value = table.get(List.of(key));
        if (value == null) {
            return List.of();
        }
        TomlPosition at = table.inputPositionOf(List.of(key));
        List<TomlFields> tables = new ArrayList<>();
        if (value instanceof TomlArray array) {
            for (int i = 0; i < array.size(); i++) {
                if (array.get(i) instanceof TomlTable inner) {
                    tables.add(new TomlFields(source, inner, array.inputPositionOf(i)));
                }
            }
            if (tables.size() == array.size() && !tables.isEmpty()) {
                return tables;
            }
        }
        source.note(
                at,
                "\"" + key + "\" is not a list of tables; write a line [[" + key + "]], with two brackets, for each");
        return List.of();
    }
}
