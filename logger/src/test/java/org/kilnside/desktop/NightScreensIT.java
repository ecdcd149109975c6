package org.kilnside.desktop;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** Takes the pictures of the Night screen; see {@link ScreensIT}. */
class NightScreensIT {
    @Test
    void theNightIsShownWholeInBothLooksAndThreeLanguages() throws Exception {
        String folder = System.getProperty("kilnside.screens", "target/screens");
        List<String> wishes = new ArrayList<>();
        for (NightShowcase.State state : NightShowcase.State.values()) {
            wishes.add(wish(folder, state, "DARK", "ENGLISH", "1600x900"));
            wishes.add(wish(folder, state, "LIGHT", "ENGLISH", "1280x900"));
            wishes.add(wish(folder, state, "DARK", "GERMAN", "1024x700"));
            wishes.add(wish(folder, state, "LIGHT", "DUTCH", "1024x700"));
            wishes.add(wish(folder, state, "DARK", "GERMAN", "1024x700@150"));
        }
        List<String> said = new ArrayList<>();
        try (VirtualScreen screen = VirtualScreen.start(1600, 900)) {
            Process showcase = screen.java(List.of("-Duser.timezone=Europe/Amsterdam"), NightShowcase.class, wishes);
            said.addAll(new String(showcase.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList());
            assertThat(showcase.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(showcase.exitValue()).as(String.join("\n", said)).isZero();
        }
        assertThat(said).hasSameSizeAs(wishes).allMatch(line -> line.endsWith("clipped: []"));
    }

    private static String wish(String folder, NightShowcase.State state, String theme, String language, String size) {
        String name =
                String.join("-", "night", state.name(), theme, language, size).toLowerCase(Locale.ROOT);
        return String.join(",", state.name(), theme, language, size, folder + "/" + name + ".png");
    }
}
