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
import org.kilnside.book.BookCheck;
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
        String all = "LIST+FIGURES+HAPPENED+OVERLAY_COMMON+LOAD+FORM+NOTES+WITNESS+REVIEW";
        arguments.add(wish(all, "LIGHT", "ENGLISH", "1600x900"));
        arguments.add(wish(all, "DARK", "GERMAN", "1024x700"));
        arguments.add(wish("LIST+OVERLAY+LOAD", "DARK", "ENGLISH", "1600x900"));
        arguments.add(wish("LIST+OVERLAY_TEN+FORM", "LIGHT", "DUTCH", "1024x700"));
        try (VirtualScreen screen = VirtualScreen.start(1600, 900)) {
            Process showcase = screen.java(List.of("-Duser.timezone=Europe/Amsterdam"), BookShowcase.class, arguments);
            List<String> said = new String(showcase.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
            assertThat(showcase.waitFor(120, TimeUnit.SECONDS)).isTrue();
            assertThat(showcase.exitValue()).as(String.join("\n", said)).isZero();
            assertThat(said).hasSize(24).allMatch(line -> line.endsWith("clipped: []"));
        }
    }

    @Test
    void aFiringIsFoundComparedDescribedAndUndoneByKeyboardAlone() throws Exception {
        Path book = folder.resolve("rook-lane.book");
        RookLaneBook.write(book, 24, 60_000);
        RookLaneBook.describeLoads(book);
        RookLaneBook.sketchAll(book);
        try (VirtualScreen screen = VirtualScreen.start(1280, 800)) {
            Process walk =
                    screen.java(List.of("-Duser.timezone=Europe/Amsterdam"), BookWalk.class, List.of(book.toString()));
            String said = new String(walk.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(walk.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(walk.exitValue()).as(said).isZero();
            assertThat(said.lines().filter(line -> line.startsWith("held: "))).hasSizeGreaterThan(18);
        }
        assertThat(BookCheck.of(book).findings()).isEmpty();
    }

    private static String wish(String scene, String theme, String language, String size) {
        String name = String.join("-", theme, language, size).toLowerCase(Locale.ROOT);
        return String.join(
                ",",
                scene,
                theme,
                language,
                size,
                System.getProperty("kilnside.screens", "target/screens") + "/book-SCENE-" + name + ".png");
    }
}
