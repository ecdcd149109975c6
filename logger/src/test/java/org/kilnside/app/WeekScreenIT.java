package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.desktop.VirtualScreen;

/** Takes the pictures of the Week screen, and finds what is clipped in them; then works with it by keyboard alone. */
class WeekScreenIT {
    @TempDir
    private Path folder;

    @Test
    void everySceneIsShownWholeInBothLooksAndThreeLanguages() throws Exception {
        String pictures = System.getProperty("kilnside.screens", "target/screens");
        List<String> wishes = new ArrayList<>();
        for (String theme : new String[] {"LIGHT", "DARK"}) {
            for (String size : new String[] {"1024x700", "1600x900"}) {
                wishes.add(wish(pictures, "LOAD", theme, "ENGLISH", size));
            }
        }
        wishes.add(wish(pictures, "WHOLE", "LIGHT", "DUTCH", "1024x700"));
        wishes.add(wish(pictures, "LATE", "LIGHT", "GERMAN", "1024x700"));
        wishes.add(wish(pictures, "LATE", "DARK", "ENGLISH", "1600x900"));
        wishes.add(wish(pictures, "WRONG", "DARK", "GERMAN", "1024x700"));
        wishes.add(wish(pictures, "TAKEN", "DARK", "DUTCH", "1024x700"));
        wishes.add(wish(pictures, "EMPTY", "LIGHT", "ENGLISH", "1024x700"));
        wishes.add(wish(pictures, "BROKEN", "DARK", "GERMAN", "1024x700"));
        for (String scene : new String[] {"LOAD", "LATE", "WRONG", "EMPTY"}) {
            wishes.add(wish(pictures, scene, "LIGHT", "GERMAN", "1600x900@200"));
            wishes.add(wish(pictures, scene, "DARK", "GERMAN", "1024x700@150"));
        }
        List<String> arguments = new ArrayList<>();
        arguments.add(folder.toString());
        arguments.addAll(wishes);
        List<String> said = new ArrayList<>();
        try (VirtualScreen screen = VirtualScreen.start(1600, 900)) {
            Process showcase = screen.java(List.of("-Duser.timezone=Europe/Amsterdam"), WeekShowcase.class, arguments);
            said.addAll(new String(showcase.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> line.contains("clipped: ") || line.contains("xception") || line.startsWith("\tat "))
                    .toList());
            assertThat(showcase.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(showcase.exitValue()).as(String.join("\n", said)).isZero();
        }
        assertThat(said).hasSameSizeAs(wishes).allMatch(line -> line.endsWith("clipped: []"));
    }

    @Test
    void aWeekIsPlannedInTheRealWindowByKeyboardAlone() throws Exception {
        try (VirtualScreen screen = VirtualScreen.start(1400, 900)) {
            Process walk = screen.java(
                    List.of("-Duser.timezone=Europe/Amsterdam"), WeekWalk.class, List.of(folder.toString()));
            String said = new String(walk.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(walk.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(walk.exitValue()).as(said).isZero();
            assertThat(said.lines().filter(line -> line.startsWith("held: "))).hasSizeGreaterThan(18);
        }
    }

    private static String wish(String folder, String scene, String theme, String language, String size) {
        String name = String.join("-", "week", scene, theme, language, size).toLowerCase(Locale.ROOT);
        return String.join(",", scene, theme, language, size, folder + "/" + name + ".png");
    }
}
