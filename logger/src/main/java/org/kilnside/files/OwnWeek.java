package org.kilnside.files;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.kilnside.week.Week;

/**
 * The week that the window plans, in a person's own folder, where a command finds it by the same name. What somebody wrote
 * there by hand is never lost: it is put aside before the first change is written over it.
 */
public final class OwnWeek {
    /** By which name a command finds it. */
    public static final String NAME = "my-week";

    private static final String ENDING = ".toml";

    private final Path folder;

    private OwnWeek(Path folder) {
        this.folder = folder;
    }

    /** The week below a person's own folder, which need not exist. */
    public static OwnWeek in(Path ownFolder) {
        return new OwnWeek(ownFolder.resolve("weeks"));
    }

    /** Where it lies, or would lie. */
    public Path path() {
        return folder.resolve(NAME + ENDING);
    }

    /**
     * Its text as it is on disk now; empty when there is no such file.
     *
     * @throws FileRefusedException when it cannot be read as text
     */
    public Optional<String> text() {
        return Files.exists(path()) ? Optional.of(TextFile.read(path(), WeekFiles.KIND)) : Optional.empty();
    }

    /**
     * The week in its text.
     *
     * @throws FileRefusedException when it is no week; every problem is named with its line
     */
    public Week parse(String text, WeekFiles.Setting setting) {
        return WeekFiles.parse(text, path().toString(), setting);
    }

    /**
     * What a save did.
     *
     * @param text what the file holds now
     * @param aside the name under which what was there is kept; empty when nothing would have been lost
     */
    public record Saved(String text, Optional<String> aside) {}

    /**
     * Saves a week. What is there now is put aside first where it is not what was last read or written here, or where a
     * person wrote it: comments, and days without a date, are not written again.
     *
     * @param lastRead the text when it was last read or written here; empty for none
     * @throws FileRefusedException when it cannot be written, or what is there is no week and somebody has to see to it
     */
    public synchronized Saved save(Week week, String lastRead, WeekFiles.Setting setting) {
        Optional<String> now = text();
        Optional<String> aside = Optional.empty();
        String text = WeekFiles.text(week);
        if (now.isPresent()) {
            boolean plain = WeekFiles.text(parse(now.get(), setting)).equals(now.get());
            if (!now.get().equals(text) && (!plain || !now.get().equals(lastRead))) {
                String other = freeName();
                TextFile.write(folder.resolve(other + ENDING), now.get());
                aside = Optional.of(other);
            }
        }
        TextFile.writeInto(path(), text);
        return new Saved(text, aside);
    }

    private String freeName() {
        int number = 2;
        while (Files.exists(folder.resolve(NAME + "-" + number + ENDING))) {
            number++;
        }
        return NAME + "-" + number;
    }
}
