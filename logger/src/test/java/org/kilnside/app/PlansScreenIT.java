package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.desktop.VirtualScreen;

/** Takes the pictures of the Plans screen, and finds what is clipped in them. */
class PlansScreenIT {
    private static final String BOWLS = """
            # Rook Lane Pottery's bowls and planters.
            name     = "Bisque for bowls"
            aims_for = "cone 06"
            clay     = "Saltmarsh"
            notes    = "Bung out until 900 °C, then in."

            [[segment]]            # until the last damp is out
            rate = "60 °C/h"
            to   = "80 °C"
            hold = "2 h"

            [[segment]]
            rate = "80 °C/h"
            to   = "600 °C"
            hold = "15 min"

            [[segment]]
            rate = "120 °C/h"
            to   = "890 °C"

            [[segment]]
            rate = "60 °C/h"
            to   = "992 °C"
            hold = "10 min"

            [[segment]]
            cool = "free"
            """;

    @TempDir
    private Path folder;

    @Test
    void everySceneIsShownWholeInBothLooks() throws Exception {
        Files.createDirectories(folder.resolve("schedules"));
        Files.writeString(folder.resolve("schedules/bisque-for-bowls.toml"), BOWLS);
        String pictures = System.getProperty("kilnside.screens", "target/screens");
        List<String> wishes = new ArrayList<>();
        for (String theme : new String[] {"LIGHT", "DARK"}) {
            for (String size : new String[] {"1024x700", "1600x900"}) {
                wishes.add(wish(pictures, "EDIT", theme, "ENGLISH", "CELSIUS", size));
            }
        }
        wishes.add(wish(pictures, "RASH", "LIGHT", "ENGLISH", "CELSIUS", "1600x900"));
        wishes.add(wish(pictures, "RASH", "DARK", "ENGLISH", "CELSIUS", "1024x700"));
        wishes.add(wish(pictures, "RASH", "LIGHT", "GERMAN", "CELSIUS", "1024x700"));
        wishes.add(wish(pictures, "EDIT", "DARK", "DUTCH", "FAHRENHEIT", "1024x700"));
        wishes.add(wish(pictures, "CHART", "DARK", "ENGLISH", "CELSIUS", "1024x700"));
        wishes.add(wish(pictures, "DISK", "LIGHT", "GERMAN", "CELSIUS", "1024x700"));
        for (String scene : new String[] {"EDIT", "RASH", "CHART"}) {
            wishes.add(wish(pictures, scene, "LIGHT", "GERMAN", "CELSIUS", "1600x900@200"));
            wishes.add(wish(pictures, scene, "LIGHT", "GERMAN", "CELSIUS", "1024x700@150"));
        }
        List<String> arguments = new ArrayList<>();
        arguments.add(folder.toString());
        arguments.addAll(wishes);
        List<String> said = new ArrayList<>();
        try (VirtualScreen screen = VirtualScreen.start(1600, 900)) {
            Process showcase = screen.java(List.of("-Duser.timezone=Europe/Amsterdam"), PlansShowcase.class, arguments);
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
    void aPlanIsEditedUndoneSavedAndPulledInTheRealWindow() throws Exception {
        Files.createDirectories(folder.resolve("schedules"));
        Files.writeString(folder.resolve("schedules/bisque-for-bowls.toml"), BOWLS);
        try (VirtualScreen screen = VirtualScreen.start(1400, 900)) {
            Process walk = screen.java(List.of(), PlansWalk.class, List.of(folder.toString()));
            String said = new String(walk.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(walk.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(walk.exitValue()).as(said).isZero();
            assertThat(said.lines().filter(line -> line.startsWith("held: "))).hasSizeGreaterThan(20);
        }
    }

    private static String wish(String folder, String scene, String theme, String language, String unit, String size) {
        String name = String.join("-", "plans", scene, theme, language, size).toLowerCase(Locale.ROOT);
        return String.join(",", scene, theme, language, unit, size, folder + "/" + name + ".png");
    }
}
