package org.kilnside.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.tomlj.Toml;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlTable;

/**
 * What is remembered of each port: whether opening it restarts the controller behind it. A small file, {@code
 * ports.toml} in the person's own folder, which may be read and changed by hand:
 *
 * <pre>
 * ["/dev/ttyUSB0"]
 * opening = "restarts"
 * seen = "2026-11-25"
 * </pre>
 *
 * A port is known by its name: a controller moved to another port has to be tried there anew.
 */
public final class PortNotes {
    private static final String KIND = "a list of ports";
    private static final List<String> WORDS = List.of("restarts", "goes on");

    private final Optional<Path> file;

    private PortNotes(Optional<Path> file) {
        this.file = file;
    }

    /** Nothing is remembered. */
    public static PortNotes none() {
        return new PortNotes(Optional.empty());
    }

    /** Remembers in a folder, which is made when there is something to remember. */
    public static PortNotes in(Path folder) {
        return new PortNotes(Optional.of(folder.resolve("ports.toml")));
    }

    /** What opening the port does to the controller. */
    public enum Opening {
        RESTARTS,
        GOES_ON
    }

    /** What was seen, and on which day. */
    public record Note(Opening opening, LocalDate seen) {}

    /**
     * What is known of a port; empty when it was never tried.
     *
     * @throws FileRefusedException when the file is no list of ports
     */
    public Optional<Note> of(String port) {
        return Optional.ofNullable(all().get(port));
    }

    /**
     * Remembers a port.
     *
     * @throws FileRefusedException when the file cannot be read or written
     */
    public synchronized void remember(String port, Note note) {
        if (file.isEmpty() || of(port).equals(Optional.of(note))) {
            return;
        }
        Map<String, Note> notes = new TreeMap<>(all());
        notes.put(port, note);
        StringBuilder text = new StringBuilder("# Whether opening a port restarts the controller behind it.\n");
        notes.forEach((name, each) -> text.append("\n[")
                .append('"' + Toml.tomlEscape(name).toString() + '"')
                .append("]\nopening = \"")
                .append(WORDS.get(each.opening().ordinal()))
                .append("\"\nseen = \"")
                .append(each.seen())
                .append("\"\n"));
        try {
            Files.createDirectories(file.get().toAbsolutePath().getParent());
        } catch (IOException e) {
            throw new FileRefusedException(FileRefusedException.Problem.of(
                    file.get().toString(),
                    "this folder cannot be made (" + e.getMessage() + "); check its permissions"));
        }
        TextFile.write(file.get(), text.toString());
    }

    private Map<String, Note> all() {
        if (file.isEmpty() || !Files.exists(file.get())) {
            return Map.of();
        }
        String name = file.get().toString();
        TomlParseResult parsed = Toml.parse(TextFile.read(file.get(), KIND));
        if (parsed.hasErrors()) {
            throw refused(name);
        }
        Map<String, Note> notes = new TreeMap<>();
        for (String port : parsed.keySet()) {
            if (!(parsed.get(List.of(port)) instanceof TomlTable table)
                    || !(table.get("opening") instanceof String word)
                    || !(table.get("seen") instanceof String day)
                    || !WORDS.contains(word)) {
                throw refused(name);
            }
            try {
                notes.put(port, new Note(Opening.values()[WORDS.indexOf(word)], LocalDate.parse(day)));
            } catch (DateTimeParseException e) {
                throw refused(name);
            }
        }
        return notes;
    }

    private static FileRefusedException refused(String name) {
        return new FileRefusedException(FileRefusedException.Problem.of(
                name,
                "this is not " + KIND + ", expected for each port [\"/dev/ttyUSB0\"], opening = \"restarts\" or"
                        + " \"goes on\", and seen = \"2026-11-25\"; mend it, or delete it and try the ports anew"));
    }
}
