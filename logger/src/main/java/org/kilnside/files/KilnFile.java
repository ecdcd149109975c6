package org.kilnside.files;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kilnside.firing.Kiln;

/**
 * A kiln's file as text, changed line by line, so that a person's own comments and order stay. Immutable: a change gives
 * another text, and the one before is what an undo writes.
 *
 * @param file how the person knows the file; begins every message
 * @param path where it lies, or will lie when it is written
 * @param text its text
 * @param kiln what that says
 */
public record KilnFile(String file, Path path, String text, Kiln kiln) {
    private static final Pattern HEADER = Pattern.compile("\\s*\\[+([^\\]]*)\\]+.*");
    private static final Pattern COMMENT = Pattern.compile("=\\s*(?:\"(?:[^\"\\\\]|\\\\.)*\"|[^#\"]*?)(\\s*#.*)");

    /** @throws FileRefusedException when the text is no kiln */
    static KilnFile of(String file, Path path, String text) {
        return new KilnFile(file, path, text, KilnFiles.parse(text, file));
    }

    /** A kiln of which only the name is known, not written yet. */
    static KilnFile fresh(Path path, String name) {
        return of(path.toString(), path, KilnText.of(Kiln.named(name)));
    }

    /**
     * The file with a setting said otherwise.
     *
     * @param value as a person types it; empty takes the setting out
     * @throws FileRefusedException when the file would be no kiln with it
     */
    public KilnFile with(KilnSetting setting, Optional<String> value) {
        List<String> lines = new ArrayList<>(text.lines().toList());
        int from = setting.table().isEmpty() ? 0 : headerOf(lines, setting.table());
        if (from < 0) {
            if (value.isEmpty()) {
                return this;
            }
            from = insertTable(lines, setting.table());
        }
        int to = nextHeader(lines, setting.table().isEmpty() ? 0 : from + 1);
        int at = lineOf(lines, setting.key(), setting.table().isEmpty() ? 0 : from + 1, to);
        if (value.isPresent()) {
            String line = line(setting, value.get());
            if (at >= 0) {
                Matcher comment = COMMENT.matcher(lines.get(at));
                lines.set(at, comment.find() ? line + comment.group(1) : line);
            } else {
                lines.add(lastFilled(lines, to), line);
            }
        } else if (at >= 0) {
            lines.remove(at);
        }
        return of(file, path, String.join("\n", lines) + "\n");
    }

    private static String line(KilnSetting setting, String value) {
        if (setting == KilnSetting.FROM_MAKER) {
            String word = value.strip().toLowerCase(Locale.ROOT);
            return setting.key() + " = " + (word.equals("yes") ? "true" : word.equals("no") ? "false" : word);
        }
        StringBuilder line = new StringBuilder();
        PlanText.line(line, setting.key(), value.strip());
        return line.toString().stripTrailing();
    }

    private static int headerOf(List<String> lines, String table) {
        for (int i = 0; i < lines.size(); i++) {
            Matcher header = HEADER.matcher(lines.get(i));
            if (header.matches() && header.group(1).strip().equals(table)) {
                return i;
            }
        }
        return -1;
    }

    /** A new table stands before the sensors, which stand last. */
    private static int insertTable(List<String> lines, String table) {
        int sensors = headerOf(lines, "sensor");
        int at = lastFilled(lines, sensors < 0 ? lines.size() : sensors);
        while (sensors >= 0 && at > 0 && lines.get(at - 1).strip().startsWith("#")) {
            at--;
        }
        lines.add(at, "");
        lines.add(at + 1, "[" + table + "]");
        if (sensors >= 0) {
            lines.add(at + 2, "");
        }
        return at + 1;
    }

    private static int nextHeader(List<String> lines, int from) {
        for (int i = from; i < lines.size(); i++) {
            if (HEADER.matcher(lines.get(i)).matches()) {
                return i;
            }
        }
        return lines.size();
    }

    private static int lineOf(List<String> lines, String key, int from, int to) {
        for (int i = from; i < to; i++) {
            if (lines.get(i).matches("\\s*" + key + "\\s*=.*")) {
                return i;
            }
        }
        return -1;
    }

    /** Behind the last line with a setting before a place: comments over the next table stay with it. */
    private static int lastFilled(List<String> lines, int to) {
        int at = to;
        while (at > 0
                && (lines.get(at - 1).isBlank() || lines.get(at - 1).strip().startsWith("#"))) {
            at--;
        }
        return at;
    }

    /**
     * Writes it into its place; a reader finds the old text or the new one.
     *
     * @throws FileRefusedException when it cannot be written
     */
    public void write() {
        TextFile.writeInto(path, text);
    }
}
