package org.kilnside.desktop;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.File;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;

/**
 * Takes the pictures of the Now screen: every scene, light and dark, small and large, three languages. They are written
 * to {@code target/screens}, or where {@code -Dkilnside.screens} says; {@code bin/screens} puts them into docs.
 */
class ScreensIT {
    @Test
    void everySceneIsShownWholeInBothLooksAndThreeLanguages() throws Exception {
        String folder = System.getProperty("kilnside.screens", "target/screens");
        List<String> wishes = new ArrayList<>();
        String[] sizes = {"1024x700", "1600x900"};
        for (String size : sizes) {
            for (String theme : new String[] {"LIGHT", "DARK"}) {
                for (Scene scene : new Scene[] {Scene.HEATING, Scene.NO_READING, Scene.FAULT, Scene.COOLING}) {
                    wishes.add(wish(folder, scene, theme, "ENGLISH", size, ""));
                }
            }
        }
        wishes.add(wish(folder, Scene.ALARM, "DARK", "ENGLISH", "1600x900", ""));
        wishes.add(wish(folder, Scene.ALARM, "LIGHT", "GERMAN", "1024x700", ""));
        wishes.add(wish(folder, Scene.ALARM_KNOWN, "LIGHT", "ENGLISH", "1024x700", ""));
        wishes.add(wish(folder, Scene.NEWS, "DARK", "DUTCH", "1600x900", ""));
        wishes.add(wish(folder, Scene.NEWS, "LIGHT", "GERMAN", "1024x700", ""));
        wishes.add(wish(folder, Scene.COOLING_ALARM_OVER, "LIGHT", "GERMAN", "1024x700", ""));
        wishes.add(wish(folder, Scene.COOLING_ALARM, "LIGHT", "GERMAN", "1024x700", ""));
        wishes.add(wish(folder, Scene.ENDED, "LIGHT", "ENGLISH", "1600x900", ""));
        wishes.add(wish(folder, Scene.ENDED, "DARK", "DUTCH", "1024x700", ""));
        wishes.add(wish(folder, Scene.VIRTUAL, "DARK", "ENGLISH", "1600x900", ""));
        wishes.add(wish(folder, Scene.HOLDING, "LIGHT", "GERMAN", "1024x700", ""));
        wishes.add(wish(folder, Scene.HOLDING, "DARK", "DUTCH", "1024x700", ""));
        wishes.add(wish(folder, Scene.HOLDING_LARGE_CONES, "DARK", "ENGLISH", "1024x700", ""));
        wishes.add(wish(folder, Scene.HOLDING_LARGE_CONES, "LIGHT", "GERMAN", "1024x700", ""));
        wishes.add(wish(folder, Scene.NO_READING, "LIGHT", "GERMAN", "1024x700", ""));
        wishes.add(wish(folder, Scene.DOUBT, "LIGHT", "ENGLISH", "1024x700", ""));
        wishes.add(wish(folder, Scene.COOLING, "LIGHT", "GERMAN", "1024x700", ""));
        wishes.add(wish(folder, Scene.WAITING, "DARK", "ENGLISH", "1024x700", ""));
        wishes.add(wish(folder, Scene.NOTHING_YET, "LIGHT", "ENGLISH", "1024x700", ""));
        wishes.add(wish(folder, Scene.HEATING, "DARK", "ENGLISH", "1024x700", "LARGE"));
        wishes.add(wish(folder, Scene.NO_READING, "DARK", "ENGLISH", "1024x700", "LARGE"));
        wishes.add(wish(folder, Scene.HEATING, "LIGHT", "ENGLISH", "1024x700", "CAUTIONS"));
        wishes.add(wish(folder, Scene.HEATING, "DARK", "GERMAN", "1024x700", "CAUTIONS"));

        List<String> said = new ArrayList<>();
        try (VirtualScreen screen = VirtualScreen.start(1600, 900)) {
            Process showcase = screen.java(List.of("-Duser.timezone=Europe/Amsterdam"), Showcase.class, wishes);
            said.addAll(new String(showcase.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList());
            assertThat(showcase.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(showcase.exitValue()).as(String.join("\n", said)).isZero();
        }
        assertThat(said).hasSameSizeAs(wishes).allMatch(line -> line.endsWith("clipped: []"));
        for (String wish : wishes) {
            BufferedImage picture = ImageIO.read(new File(wish.split(",", -1)[4]));
            assertThat(colours(picture)).as(wish).isGreaterThan(60);
        }
    }

    private static String wish(String folder, Scene scene, String theme, String language, String size, String mode) {
        String name = String.join("-", "now", scene.name(), mode, theme, language, size)
                .toLowerCase(java.util.Locale.ROOT)
                .replace('_', '-')
                .replace("--", "-");
        String wish = String.join(",", scene.name(), theme, language, size, folder + "/" + name + ".png");
        return mode.isEmpty() ? wish : wish + "," + mode;
    }

    /** How many colours a picture has: a blank or broken one has few. */
    private static int colours(BufferedImage picture) {
        Set<Integer> colours = new HashSet<>();
        for (int x = 0; x < picture.getWidth(); x += 2) {
            for (int y = 0; y < picture.getHeight(); y += 2) {
                colours.add(picture.getRGB(x, y));
            }
        }
        return colours.size();
    }
}
