package org.kilnside.desktop;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** Takes the pictures of the Kiln screen, into {@code target/screens} or where {@code -Dkilnside.screens} says. */
class KilnScreensIT {
    private static final Set<KilnShowcase.State> IN_THE_GUIDE = EnumSet.of(
            KilnShowcase.State.LINES,
            KilnShowcase.State.DISTURBED,
            KilnShowcase.State.KILN,
            KilnShowcase.State.SENSORS,
            KilnShowcase.State.COLD,
            KilnShowcase.State.PROPOSAL);

    @Test
    void everyStateIsShownWholeInBothLooksAndThreeLanguages() throws Exception {
        String folder = System.getProperty("kilnside.screens", "target/screens");
        List<String> wishes = new ArrayList<>();
        for (KilnShowcase.State state : KilnShowcase.State.values()) {
            // German has the longest words; English besides where the user guide shows it.
            wishes.add(wish(folder, state, "DARK", "GERMAN", "1024x700"));
            if (IN_THE_GUIDE.contains(state)) {
                wishes.add(wish(folder, state, "LIGHT", "ENGLISH", "1024x700"));
            }
        }
        wishes.add(wish(folder, KilnShowcase.State.DISTURBED, "DARK", "ENGLISH", "1600x900"));
        wishes.add(wish(folder, KilnShowcase.State.PROPOSAL, "DARK", "ENGLISH", "1600x900"));
        wishes.add(wish(folder, KilnShowcase.State.LINES, "LIGHT", "DUTCH", "1024x700"));
        wishes.add(wish(folder, KilnShowcase.State.COMPARING, "LIGHT", "DUTCH", "1024x700"));
        // The program's own text at its largest.
        for (KilnShowcase.State state : KilnShowcase.State.values()) {
            wishes.add(wish(folder, state, "DARK", "GERMAN", "1600x900@200"));
        }
        // Large text in the smallest window.
        for (KilnShowcase.State state :
                EnumSet.of(KilnShowcase.State.KILN, KilnShowcase.State.COMPARING, KilnShowcase.State.PROPOSAL)) {
            wishes.add(wish(folder, state, "LIGHT", "GERMAN", "1024x700@150"));
            wishes.add(wish(folder, state, "LIGHT", "ENGLISH", "1024x700@200"));
        }

        List<String> said = new ArrayList<>();
        try (VirtualScreen screen = VirtualScreen.start(1600, 900)) {
            Process showcase = screen.java(List.of("-Duser.timezone=Europe/Amsterdam"), KilnShowcase.class, wishes);
            said.addAll(new String(showcase.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList());
            assertThat(showcase.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(showcase.exitValue()).as(String.join("\n", said)).isZero();
        }
        assertThat(said).hasSameSizeAs(wishes).allMatch(line -> line.endsWith("clipped: []"));
    }

    private static String wish(String folder, KilnShowcase.State state, String theme, String language, String size) {
        String name = String.join("-", "kiln", state.name(), theme, language, size)
                .toLowerCase(Locale.ROOT)
                .replace('_', '-');
        return String.join(",", state.name(), theme, language, size, folder + "/" + name + ".png");
    }
}
