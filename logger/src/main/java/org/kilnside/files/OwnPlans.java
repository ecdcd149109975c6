package org.kilnside.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.Normalizer;
import java.util.Locale;
import java.util.Optional;
import org.kilnside.files.FileRefusedException.Problem;
import org.kilnside.schedule.Schedule;

/**
 * Plans in a person's own folder, for a program that writes them. Starter plans lie elsewhere and are never written; a
 * file that somebody else changed is never lost.
 */
public final class OwnPlans {
    private static final String ENDING = ".toml";

    /** Names that some systems keep for themselves. */
    private static final String KEPT_BY_SYSTEMS = "con|prn|aux|nul|com[0-9]|lpt[0-9]";

    private final Path folder;

    private OwnPlans(Path folder) {
        this.folder = folder;
    }

    /** The plans below a person's own folder, which need not exist. */
    public static OwnPlans in(Path ownFolder) {
        return new OwnPlans(ownFolder.resolve("schedules"));
    }

    /** Where a plan of this short name lies, or would lie. */
    public Path path(String shortName) {
        return folder.resolve(shortName + ENDING);
    }

    /** The text of a plan as it is on disk now; empty when there is no such file, or it cannot be read as text. */
    public Optional<String> text(String shortName) {
        Path path = path(shortName);
        if (!Files.exists(path)) {
            return Optional.empty();
        }
        try {
            return Optional.of(TextFile.read(path, PlanFiles.KIND));
        } catch (FileRefusedException e) {
            // Somebody emptied it, or is in the middle of writing it: as good as other content.
            return Optional.of("");
        }
    }

    /**
     * Saves a plan under a name of its own, made of what the plan is called; nothing is overwritten.
     *
     * @return the short name it got
     * @throws FileRefusedException when it cannot be written
     */
    public synchronized String saveNew(Schedule plan) {
        makeFolder();
        String shortName = freeName(plan.name());
        TextFile.write(path(shortName), PlanFiles.text(plan));
        return shortName;
    }

    /**
     * Saves a plan over its own file, keeping the comments in it. Where the file is not as it was last read, what is
     * there now is first put aside under another name.
     *
     * @param lastRead the file's text when it was last read or written here
     * @return what was written, and where the other content is now
     * @throws FileRefusedException when it cannot be written
     */
    public synchronized Saved save(String shortName, Schedule plan, String lastRead) {
        makeFolder();
        Optional<String> now = text(shortName);
        Optional<String> aside = Optional.empty();
        if (now.isPresent() && !now.get().equals(lastRead) && !now.get().isEmpty()) {
            String other = freeName(shortName);
            TextFile.write(path(other), now.get());
            aside = Optional.of(other);
        }
        String text = PlanFiles.text(plan, lastRead);
        TextFile.write(path(shortName), text);
        return new Saved(text, aside);
    }

    /**
     * What a save did.
     *
     * @param text what the file holds now
     * @param aside the short name under which the other content was kept; empty when there was none
     */
    public record Saved(String text, Optional<String> aside) {}

    private void makeFolder() {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new FileRefusedException(Problem.of(
                    folder.toString(), "this folder cannot be made (" + e.getMessage() + "); check its permissions"));
        }
    }

    /** A short name nothing has yet, in the manner of the starter plans: {@code bisque-for-bowls}. */
    private String freeName(String title) {
        String plain = Normalizer.normalize(title.replace("ß", "ss"), Normalizer.Form.NFD)
                .replaceAll("\\p{M}+", "")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-|-$", "");
        String base =
                plain.isEmpty() || plain.matches(KEPT_BY_SYSTEMS) ? ("plan-" + plain).replaceAll("-$", "") : plain;
        base = base.length() > 60 ? base.substring(0, 60).replaceAll("-$", "") : base;
        String name = base;
        for (int i = 2; Files.exists(path(name)) || StarterProfiles.PLANS.contains(name); i++) {
            name = base + "-" + i;
        }
        return name;
    }
}
