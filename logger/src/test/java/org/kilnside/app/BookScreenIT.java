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
import org.kilnside.book.RookLaneBook;
import org.kilnside.desktop.VirtualScreen;

/** Takes the pictures of the Book screen, light and dark, small and large, and in German; written where ScreensIT's are. */
class BookScreenIT {
    @TempDir
    Path folder;

    @Test
    void everySceneOfTheBookIsShownWhole() throws Exception {
        Path book = folder.resolve("rook-lane.book");
        RookLaneBook.write(book, 24, 60_000);
        RookLaneBook.describeLoads(book);
        RookLaneBook.sketchAll(book);
        List<String> arguments = new ArrayList<>(List.of(book.toString()));
        for (String scene : scenes()) {
            arguments.add(wish(scene, "LIGHT", "ENGLISH", "1600x900"));
            arguments.add(wish(scene, "DARK", "GERMAN", "1024x700"));
        }
        arguments.add(wish("LIST", "DARK", "ENGLISH", "1600x900"));
        arguments.add(wish("LIST", "LIGHT", "DUTCH", "1024x700"));
        arguments.add(wish("OVERLAY", "DARK", "ENGLISH", "1600x900"));
        arguments.add(wish("OVERLAY_TEN", "LIGHT", "DUTCH", "1024x700"));
        try (VirtualScreen screen = VirtualScreen.start(1600, 900)) {
            Process showcase = screen.java(List.of("-Duser.timezone=Europe/Amsterdam"), BookShowcase.class, arguments);
            List<String> said = new String(showcase.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
            assertThat(showcase.waitFor(120, TimeUnit.SECONDS)).isTrue();
            assertThat(showcase.exitValue()).as(String.join("\n", said)).isZero();
            assertThat(said).hasSize(arguments.size() - 1).allMatch(line -> line.endsWith("clipped: []"));
        }
    }

    private static String[] scenes() {
        return new String[] {"LIST", "FIGURES", "HAPPENED", "OVERLAY", "OVERLAY_COMMON"};
    }

    private static String wish(String scene, String theme, String language, String size) {
        String name = String.join("-", "book", scene, theme, language, size)
                .toLowerCase(Locale.ROOT)
                .replace('_', '-');
        return String.join(
                ",",
                scene,
                theme,
                language,
                size,
                System.getProperty("kilnside.screens", "target/screens") + "/" + name + ".png");
    }
}
