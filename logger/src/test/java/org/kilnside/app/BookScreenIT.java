package org.kilnside.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.GradientPaint;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import javax.imageio.ImageIO;
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
        for (int i = 0; i < 3; i++) {
            new DeskBook(book, kiln -> Optional.empty())
                    .addPhoto(24, drawn("bowl " + i, i).toString());
        }
        List<String> arguments = new ArrayList<>(List.of(book.toString()));
        String all = "LIST+FIGURES+HAPPENED+OVERLAY_COMMON+LOAD+FORM+NOTES+WITNESS+REVIEW";
        arguments.add(wish(all, "LIGHT", "ENGLISH", "1600x900"));
        arguments.add(wish(all, "DARK", "GERMAN", "1024x700"));
        arguments.add(wish("LIST+OVERLAY+LOAD", "DARK", "ENGLISH", "1600x900"));
        arguments.add(wish("LIST+OVERLAY_TEN+FORM", "LIGHT", "DUTCH", "1024x700"));
        // The program's own text at its largest.
        arguments.add(wish(all, "DARK", "GERMAN", "1600x900@200"));
        // Large text in the smallest window.
        arguments.add(wish("LIST+LOAD+FORM+WITNESS+REVIEW", "LIGHT", "GERMAN", "1024x700@150"));
        arguments.add(wish("LIST+FIGURES+NOTES", "LIGHT", "ENGLISH", "1024x700@200"));
        try (VirtualScreen screen = VirtualScreen.start(1600, 900)) {
            Process showcase = screen.java(List.of("-Duser.timezone=Europe/Amsterdam"), BookShowcase.class, arguments);
            List<String> said = new String(showcase.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
            assertThat(showcase.waitFor(120, TimeUnit.SECONDS)).isTrue();
            assertThat(showcase.exitValue()).as(String.join("\n", said)).isZero();
            assertThat(said).hasSize(41).allMatch(line -> line.endsWith("clipped: []"));
        }
    }

    @Test
    void aFiringIsFoundComparedDescribedAndUndoneByKeyboardAlone() throws Exception {
        Path book = folder.resolve("rook-lane.book");
        RookLaneBook.write(book, 24, 60_000);
        RookLaneBook.describeLoads(book);
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

    /** A bowl, drawn: the repository has no photographs. */
    private Path drawn(String name, int glaze) throws Exception {
        BufferedImage image = new BufferedImage(900, 700, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.setPaint(new GradientPaint(0, 0, new Color(0x4a4038), 0, 700, new Color(0x8c7a66)));
        g.fillRect(0, 0, 900, 700);
        g.setColor(new Color[] {new Color(0xd9c7a3), new Color(0x7fa7a0), new Color(0x6b3a24)}[glaze]);
        g.fillArc(180, 90, 540, 480, 180, 180);
        g.setColor(new Color(0x2f2620));
        g.fillOval(180, 270, 540, 120);
        g.dispose();
        Path file = folder.resolve(name + ".png");
        ImageIO.write(image, "png", file.toFile());
        return file;
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
