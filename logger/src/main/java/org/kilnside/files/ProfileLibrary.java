package org.kilnside.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kilnside.files.FileRefusedException.Problem;
import org.kilnside.firing.Kiln;
import org.kilnside.schedule.Schedule;
import org.kilnside.week.Week;

/**
 * Plans, kilns and line patterns by the name a person types: a path; else a file in the person's own folder; else one
 * of the starter files that come with the program. In the own folder plans lie in {@code schedules/}, kilns in {@code
 * kilns/}, line patterns in {@code line-patterns/}, weeks in {@code weeks/}; beside them lies what is remembered of the ports.
 */
public final class ProfileLibrary {
    private static final String ENDING = ".toml";
    private static final String LINE_PATTERNS = "line-patterns";
    private static final String WEEKS = "weeks";

    private final Optional<Path> ownFolder;

    private ProfileLibrary(Optional<Path> ownFolder) {
        this.ownFolder = ownFolder;
    }

    /** The starter files alone. */
    public static ProfileLibrary starters() {
        return new ProfileLibrary(Optional.empty());
    }

    /** A person's own folder, which need not exist, before the starter files. */
    public static ProfileLibrary of(Path ownFolder) {
        return new ProfileLibrary(Optional.of(ownFolder));
    }

    /**
     * A plan and where it came from.
     *
     * @param shortName the name a person types for it
     * @param file the file, as a message names it
     * @param path the file on disk; empty for a starter plan
     * @param text the file's text, to be kept with a firing
     * @param schedule the plan
     */
    public record Plan(String shortName, String file, Optional<Path> path, String text, Schedule schedule) {}

    /** The names of all plans, own and starter, in alphabetical order. */
    public List<String> planNames() {
        return names("schedules", StarterProfiles.PLANS);
    }

    /** The names of all kilns, own and starter, in alphabetical order. */
    public List<String> kilnNames() {
        return names("kilns", StarterProfiles.KILNS);
    }

    /**
     * A plan by name or path.
     *
     * @throws FileRefusedException when there is none, or its file is refused
     */
    public Plan plan(String nameOrPath) {
        Found found = find(nameOrPath, "schedules", StarterProfiles.PLANS, PlanFiles.KIND, StarterProfiles::planText);
        return new Plan(found.shortName, found.file, found.path, found.text, PlanFiles.parse(found.text, found.file));
    }

    /**
     * A kiln by name or path; a name also matches the name inside the file.
     *
     * @throws FileRefusedException when there is none, or its file is refused
     */
    public Kiln kiln(String nameOrPath) {
        String asFile = asFile(nameOrPath);
        String wanted = kilnNames().contains(asFile) ? asFile : nameOrPath;
        Found found = find(wanted, "kilns", StarterProfiles.KILNS, KilnFiles.KIND, StarterProfiles::kilnText);
        return KilnFiles.parse(found.text, found.file);
    }

    /** The kiln that is called so in its file. A file that is refused is passed over: whoever opens it is told. */
    public Optional<Kiln> kilnCalled(String name) {
        for (String file : kilnNames()) {
            try {
                Kiln kiln = kiln(file);
                if (kiln.name().equals(name)) {
                    return Optional.of(kiln);
                }
            } catch (FileRefusedException e) {
                continue;
            }
        }
        return Optional.empty();
    }

    /**
     * A kiln's file to be changed: the person's own, or a copy of a starter file that will become their own when it is
     * written. A name nobody has used begins a new one.
     *
     * @throws FileRefusedException when there is no own folder to write to, or the file is no kiln
     */
    public KilnFile kilnFile(String nameOrPath) {
        Path folder = ownFolder.orElseThrow(() -> new FileRefusedException(
                Problem.of(nameOrPath, "there is no folder of your own to keep a kiln's file in")));
        String asFile = asFile(nameOrPath);
        if (!looksLikePath(nameOrPath) && !kilnNames().contains(asFile)) {
            if (!asFile.matches("[\\p{L}\\p{N} ._-]{1,60}") || asFile.startsWith(".")) {
                throw new FileRefusedException(Problem.of(
                        UnitText.quoted(nameOrPath),
                        "this cannot be a file's name; call the kiln by letters, digits and spaces"));
            }
            return KilnFile.fresh(folder.resolve("kilns").resolve(asFile + ENDING), nameOrPath.strip());
        }
        String wanted = kilnNames().contains(asFile) ? asFile : nameOrPath;
        Found found = find(wanted, "kilns", StarterProfiles.KILNS, KilnFiles.KIND, StarterProfiles::kilnText);
        Path path = found.path.orElseGet(() -> folder.resolve("kilns").resolve(found.shortName + ENDING));
        return KilnFile.of(found.file, path, found.text);
    }

    /** The names of all line patterns, own and starter, in alphabetical order. */
    public List<String> linePatternNames() {
        return names(LINE_PATTERNS, StarterProfiles.LINE_PATTERNS);
    }

    /**
     * The pattern of a controller's own lines by name or path.
     *
     * @throws FileRefusedException when there is none, or its file is refused
     */
    public LinePattern linePattern(String nameOrPath) {
        Found found = find(
                nameOrPath,
                LINE_PATTERNS,
                StarterProfiles.LINE_PATTERNS,
                LinePatternFiles.KIND,
                StarterProfiles::linePatternText);
        return LinePatternFiles.parse(found.text, found.file);
    }

    /**
     * Saves a line pattern in the person's own folder, under its name made fit for a file; one of that name that says
     * something else is left alone and a number is put behind.
     *
     * @return the name by which {@link #linePattern} finds it
     * @throws FileRefusedException when there is no own folder, or it cannot be written
     */
    public String saveLinePattern(LinePattern pattern) {
        Path folder = ownFolder
                .map(base -> base.resolve(LINE_PATTERNS))
                .orElseThrow(() -> new FileRefusedException(Problem.of(
                        UnitText.quoted(pattern.name()),
                        "there is no folder of your own to save a line pattern in; save it by hand")));
        String plain = asFile(pattern.name()).replaceAll("[^a-z0-9-]", "");
        String base = plain.isEmpty() ? "my-controller" : plain;
        String text = LinePatternFiles.text(pattern);
        try {
            Files.createDirectories(folder);
            for (int number = 1; ; number++) {
                String name = number == 1 ? base : base + "-" + number;
                Path file = folder.resolve(name + ENDING);
                boolean free = !Files.exists(file) && !StarterProfiles.LINE_PATTERNS.contains(name);
                if (free) {
                    TextFile.write(file, text);
                }
                if (free || Files.exists(file) && Files.readString(file).equals(text)) {
                    return name;
                }
            }
        } catch (IOException e) {
            throw new FileRefusedException(Problem.of(
                    folder.toString(),
                    "a line pattern cannot be saved there (" + e.getMessage() + "); check its permissions"));
        }
    }

    /** The names of all weeks, own and starter, in alphabetical order. */
    public List<String> weekNames() {
        return names(WEEKS, StarterProfiles.WEEKS);
    }

    /**
     * A week by name or path.
     *
     * @param now what its days without a date are counted from
     * @param zone the clock of the studio
     * @throws FileRefusedException when there is none, or its file is refused
     */
    public Week week(String nameOrPath, Instant now, ZoneId zone) {
        Found found = find(nameOrPath, WEEKS, StarterProfiles.WEEKS, WeekFiles.KIND, StarterProfiles::weekText);
        return WeekFiles.parse(found.text, found.file, new WeekFiles.Setting(this, now, zone));
    }

    /** What is remembered of the ports; nothing without a person's own folder. */
    public PortNotes portNotes() {
        return ownFolder.map(PortNotes::in).orElseGet(PortNotes::none);
    }

    /** Whether there is a kiln of this name. */
    public boolean knowsKiln(String name) {
        return kilnNames().contains(asFile(name));
    }

    private static String asFile(String name) {
        return name.strip().toLowerCase(Locale.ROOT).replace(' ', '-');
    }

    private record Found(String shortName, String file, Optional<Path> path, String text) {}

    private Found find(
            String typed, String folder, List<String> starters, String kind, Function<String, String> starterText) {
        if (looksLikePath(typed)) {
            Path path = path(typed, kind);
            return new Found(shortName(path), typed, Optional.of(path), TextFile.read(path, kind));
        }
        Optional<Path> own = ownFolder
                .map(base -> base.resolve(folder).resolve(typed + ENDING))
                .filter(Files::exists);
        if (own.isPresent()) {
            return new Found(typed, own.get().toString(), own, TextFile.read(own.get(), kind));
        }
        if (starters.contains(typed)) {
            return new Found(
                    typed, "profiles/" + folder + "/" + typed + ENDING, Optional.empty(), starterText.apply(typed));
        }
        Path inPlace = path(typed, kind);
        if (Files.isRegularFile(inPlace)) {
            return new Found(shortName(inPlace), typed, Optional.of(inPlace), TextFile.read(inPlace, kind));
        }
        List<String> known = names(folder, starters);
        if (Files.isDirectory(inPlace) && !typed.isEmpty()) {
            throw new FileRefusedException(Problem.of(
                    typed, "this is a folder, expected " + kind + "; there are " + String.join(", ", known)));
        }
        throw new FileRefusedException(Problem.of(
                typed,
                "there is neither a file nor " + kind + " of this name"
                        + NearMatch.of(typed, known)
                                .map(near -> "; did you mean \"" + near + "\"?")
                                .orElse("; there are " + String.join(", ", known))));
    }

    private static boolean looksLikePath(String typed) {
        return typed.contains("/") || typed.contains("\\") || typed.endsWith(ENDING);
    }

    private static Path path(String typed, String kind) {
        try {
            return Path.of(typed);
        } catch (InvalidPathException e) {
            throw new FileRefusedException(Problem.of(
                    UnitText.quoted(typed), "this cannot be a file's name, expected " + kind + "; check it"));
        }
    }

    private static String shortName(Path path) {
        String name = path.getFileName() == null
                ? path.toString()
                : path.getFileName().toString();
        return name.endsWith(ENDING) ? name.substring(0, name.length() - ENDING.length()) : name;
    }

    private List<String> names(String folder, List<String> starters) {
        Set<String> names = new TreeSet<>(starters);
        ownFolder.map(base -> base.resolve(folder)).filter(Files::isDirectory).ifPresent(own -> {
            try (Stream<Path> files = Files.list(own)) {
                files.filter(file -> file.toString().endsWith(ENDING))
                        .map(ProfileLibrary::shortName)
                        .forEach(names::add);
            } catch (IOException e) {
                throw new FileRefusedException(
                        Problem.of(own.toString(), "this folder cannot be read; check its permissions"));
            }
        });
        return List.copyOf(names);
    }
}
