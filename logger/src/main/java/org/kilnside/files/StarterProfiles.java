package org.kilnside.files;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;

/** The files of profiles/ that come with the program, as they lie in its jar. A test holds the lists to the folders. */
public final class StarterProfiles {
    /** The starter plans, by the names a person types. */
    public static final List<String> PLANS =
            List.of("candling", "slow-bisque", "bisque", "low-fire-glaze", "mid-range-glaze", "slow-cool-glaze");

    /** The starter kilns, by the names a person types. */
    public static final List<String> KILNS = List.of("tall-drum");

    /** The starter line patterns, by the names a person types. */
    public static final List<String> LINE_PATTERNS = List.of("columns", "keys", "json", "expression");

    /** The starter weeks, by the names a person types. */
    public static final List<String> WEEKS = List.of("cafe-friday");

    private StarterProfiles() {}

    /** The text of a starter plan. */
    static String planText(String name) {
        return text("schedules/" + name + ".toml", PlanFiles.KIND);
    }

    /** The text of a starter kiln. */
    static String kilnText(String name) {
        return text("kilns/" + name + ".toml", KilnFiles.KIND);
    }

    /** The text of a starter line pattern. */
    static String linePatternText(String name) {
        return text("line-patterns/" + name + ".toml", LinePatternFiles.KIND);
    }

    /** The text of a starter week. */
    static String weekText(String name) {
        return text("weeks/" + name + ".toml", WeekFiles.KIND);
    }

    private static String text(String file, String kind) {
        try (InputStream stream = StarterProfiles.class.getResourceAsStream("/org/kilnside/profiles/" + file)) {
            if (stream == null) {
                throw new IllegalStateException("profiles/" + file + " is not in the program");
            }
            return TextFile.decode(stream.readAllBytes(), "profiles/" + file, kind);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
