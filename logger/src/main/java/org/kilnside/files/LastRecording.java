package org.kilnside.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.tomlj.Toml;
import org.tomlj.TomlParseResult;

/**
 * Where the last recording came from, so that the next one can be begun with one key. A small file, {@code
 * last-recording.toml} in the person's own folder, which may be read and changed by hand:
 *
 * <pre>
 * from = "serial:/dev/ttyUSB0?baud=115200"
 * kiln = "Tall Drum"
 * plan = "bisque"
 * </pre>
 */
public final class LastRecording {
    private static final String KIND = "what is remembered of the last recording";
    private static final int LONGEST = 500;

    private final Path file;

    private LastRecording(Path file) {
        this.file = file;
    }

    /** Remembered in a folder, which is made when there is something to remember. */
    public static LastRecording in(Path folder) {
        return new LastRecording(folder.resolve("last-recording.toml"));
    }

    /**
     * A recording.
     *
     * @param from the link as a person types it
     * @param kiln the kiln's name
     * @param plan the plan that was followed, by name or path
     */
    public record Remembered(String from, Optional<String> kiln, Optional<String> plan) {}

    /**
     * The last recording; empty before the first.
     *
     * @throws FileRefusedException when the file cannot be read or is none of this kind
     */
    public Optional<Remembered> read() {
        if (!Files.exists(file)) {
            return Optional.empty();
        }
        TomlParseResult parsed = Toml.parse(TextFile.read(file, KIND));
        Optional<String> from = text(parsed, "from");
        if (parsed.hasErrors() || from.isEmpty()) {
            throw new FileRefusedException(FileRefusedException.Problem.of(
                    file.toString(),
                    "this is not " + KIND + ", expected from = \"/dev/ttyUSB0\" and, where they are known, kiln = and"
                            + " plan =; mend it, or delete it and choose the port anew"));
        }
        return Optional.of(new Remembered(from.get(), text(parsed, "kiln"), text(parsed, "plan")));
    }

    /**
     * Remembers a recording in place of the one before.
     *
     * @throws FileRefusedException when the file cannot be written
     */
    public void remember(Remembered recording) {
        StringBuilder text = new StringBuilder("# Where the last recording came from.\n");
        PlanText.line(text, "from", recording.from());
        recording.kiln().ifPresent(kiln -> PlanText.line(text, "kiln", kiln));
        recording.plan().ifPresent(plan -> PlanText.line(text, "plan", plan));
        try {
            Files.createDirectories(file.toAbsolutePath().getParent());
        } catch (IOException e) {
            throw new FileRefusedException(FileRefusedException.Problem.of(
                    file.toString(), "this folder cannot be made (" + e.getMessage() + "); check its permissions"));
        }
        TextFile.write(file, text.toString());
    }

    private static Optional<String> text(TomlParseResult parsed, String key) {
        return parsed.get(key) instanceof String text && !text.isBlank() && text.length() <= LONGEST
                ? Optional.of(text)
                : Optional.empty();
    }
}
