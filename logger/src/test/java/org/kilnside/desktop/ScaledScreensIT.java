package org.kilnside.desktop;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Dimension;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/**
 * The same window on a screen of many small pixels, under a system that scales, and with the largest text a person can
 * choose: nothing is cut off and nothing is lost. A few scenes only; all of them in the usual sizes are in {@code
 * ScreensIT} and its like.
 */
class ScaledScreensIT {
    private static final String FOLDER = System.getProperty("kilnside.screens", "target/screens");
    private static final Dimension UHD = new Dimension(3840, 2160);
    private static final Dimension USUAL = new Dimension(1600, 900);

    @Test
    void aScreenOfFourThousandPixelsIsFilledWithLargerText() throws Exception {
        shown(
                UHD,
                Showcase.class,
                "plain",
                List.of(),
                "HEATING,DARK,ENGLISH,3840x2160",
                "ALARM,LIGHT,GERMAN,3840x2160");
        shown(UHD, KilnShowcase.class, "plain-kiln", List.of(), "SENSORS,LIGHT,GERMAN,3840x2160");
        shown(UHD, NightShowcase.class, "plain-night", List.of(), "WELL,DARK,ENGLISH,3840x2160");
    }

    @Test
    void aSystemThatScalesTwoAndThreeTimesCutsNothing() throws Exception {
        shown(
                UHD,
                Showcase.class,
                "twice",
                List.of("-Dsun.java2d.uiScale=2"),
                "COOLING,LIGHT,ENGLISH,1900x1000",
                "HOLDING,DARK,GERMAN,1024x700");
        shown(
                UHD,
                Showcase.class,
                "thrice",
                List.of("-Dsun.java2d.uiScale=3"),
                "NO_READING,DARK,DUTCH,1270x700",
                "HEATING,LIGHT,GERMAN,1270x700");
        List<String> thrice = List.of("-Dsun.java2d.uiScale=3");
        shown(
                UHD,
                KilnShowcase.class,
                "thrice-kiln",
                thrice,
                "KILN,DARK,GERMAN,1270x700",
                "LINES,LIGHT,DUTCH,1270x700");
        shown(UHD, NightShowcase.class, "thrice-night", thrice, "TROUBLED,LIGHT,GERMAN,1270x700");
    }

    @Test
    void theLargestTextCutsNothing() throws Exception {
        List<String> twice = List.of("-Dshowcase.text=200");
        shown(
                USUAL,
                Showcase.class,
                "text",
                twice,
                "ALARM,DARK,GERMAN,1600x900",
                "COOLING,LIGHT,ENGLISH,1600x900",
                "ENDED,LIGHT,DUTCH,1600x900");
        shown(
                USUAL,
                Showcase.class,
                "text-small",
                List.of("-Dshowcase.text=150"),
                "ALARM,DARK,GERMAN,1024x700",
                "COOLING,LIGHT,GERMAN,1024x700",
                "NO_READING,LIGHT,GERMAN,1024x700");
    }

    private static void shown(Dimension pixels, Class<?> showcase, String how, List<String> options, String... scenes)
            throws Exception {
        List<String> wishes = new ArrayList<>();
        for (String scene : scenes) {
            String name =
                    String.join("-", "scaled", how, scene.replace(',', '-').replace('_', '-'));
            wishes.add(scene + "," + FOLDER + "/" + name.toLowerCase(Locale.ROOT) + ".png");
        }
        List<String> all = new ArrayList<>(List.of("-Duser.timezone=Europe/Amsterdam"));
        all.addAll(options);
        try (VirtualScreen screen = VirtualScreen.start(pixels.width, pixels.height)) {
            Process process = screen.java(all, showcase, wishes);
            List<String> said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
            assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(process.exitValue()).as(String.join("\n", said)).isZero();
            assertThat(said).hasSameSizeAs(wishes).allMatch(line -> line.endsWith("clipped: []"));
        }
    }
}
