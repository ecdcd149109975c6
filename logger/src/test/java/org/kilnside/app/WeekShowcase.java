package org.kilnside.app;

import java.awt.Component;
import java.awt.Container;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import javax.swing.JComponent;
import javax.swing.JFrame;
import javax.swing.JList;
import javax.swing.JTextField;
import javax.swing.KeyStroke;
import javax.swing.SwingUtilities;
import org.kilnside.desktop.HandClock;
import org.kilnside.desktop.HandClosing;
import org.kilnside.desktop.Settings;
import org.kilnside.desktop.SettingsStore;
import org.kilnside.desktop.Showcase;
import org.kilnside.desktop.Stillness;
import org.kilnside.desktop.WholeBar;
import org.kilnside.desktop.Window;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.desktop.week.WeekScreen;
import org.kilnside.session.Connection;
import org.kilnside.session.HandFeed;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;

/**
 * Opens the window on the Week screen and writes pictures of it. The first argument is a folder to work in; each further one
 * a picture: {@code SCENE,THEME,LANGUAGE,WIDTHxHEIGHT,FILE}. For each it says what is clipped, if anything.
 */
final class WeekShowcase {
    /** Rook Lane Pottery's days before the café opens. */
    static final String CAFE = """
            name    = "For the café"
            kiln    = "tall-drum"
            room    = "2 °C"
            packing = "1 h 30 min"

            [[there]]
            days = "every day"
            from = "06:30"
            to   = "23:00"

            [[load]]
            name      = "Soup bowls, raw"
            plan      = "bisque"
            weight    = "36 kg"
            ware      = "raw"
            thickness = "6 mm"

            [[load]]
            name   = "Soup bowls, glazed"
            plan   = "mid-range-glaze"
            weight = "38 kg"
            ware   = "glazed"
            after  = "Soup bowls, raw"
            drying = "24 h"
            due    = "2026-12-04 09:00"

            [[load]]
            name   = "Planters, raw"
            plan   = "slow-bisque"
            weight = "44 kg"
            ware   = "raw"
            thickness = "14 mm"
            ready  = "2026-11-29 12:00"
            """;

    private WeekShowcase() {}

    public static void main(String[] arguments) {
        int exit = 0;
        try {
            for (int i = 1; i < arguments.length; i++) {
                take(Path.of(arguments[0]), arguments[i].split(",", -1));
            }
        } catch (Exception | Error e) {
            // An open window would keep this program, and the test that waits for it.
            e.printStackTrace();
            exit = 1;
        }
        System.exit(exit);
    }

    private static void take(Path folder, String[] wish) throws Exception {
        String scene = wish[0];
        Showcase.Shape shape = Showcase.Shape.of(wish[3]);
        Settings settings = new Settings(
                Theme.valueOf(wish[1]),
                Language.valueOf(wish[2]),
                TemperatureUnit.CELSIUS,
                ClockStyle.TWENTY_FOUR_HOURS,
                Opening.LID,
                false,
                shape.text());
        Path own = folder.resolve(scene.toLowerCase(Locale.ROOT));
        write(scene, own);
        HandClock clock = new HandClock();
        clock.set(SampleSnapshots.HOST_MS + 3_000);
        Snapshot snapshot = scene.equals("TAKEN")
                ? SampleSnapshots.coolingForecast()
                : SampleSnapshots.nothingYet(Connection.State.CONNECTING);
        Window.open(
                new HandFeed(snapshot),
                clock,
                SettingsStore.forgetful(settings),
                HandClosing.unheard(),
                WholeBar.with(
                        "F7",
                        (words, errands) -> new WeekScreen(
                                words,
                                errands,
                                new DeskWeek(own, own.resolve("firings.book"), clock, Optional::empty))));
        JFrame frame = Showcase.shown();
        SwingUtilities.invokeAndWait(() -> frame.setSize(shape.width(), shape.height()));
        SwingUtilities.invokeAndWait(() -> press(frame, "F7"));
        Stillness.await();
        SwingUtilities.invokeAndWait(() -> scene(frame, scene));
        Stillness.await();
        Showcase.shoot(frame.getContentPane(), wish[4]);
        SwingUtilities.invokeAndWait(() -> Showcase.putAway(frame));
    }

    private static void write(String scene, Path own) throws Exception {
        Path file = own.resolve("weeks/my-week.toml");
        Files.createDirectories(file.getParent());
        switch (scene) {
            case "EMPTY" -> Files.deleteIfExists(file);
            case "BROKEN" -> Files.writeString(file, CAFE.replace("plan      = \"bisque\"", "plan      = \"bisk\""));
            case "LATE" -> Files.writeString(file, CAFE.replace("2026-12-04", "2026-12-01"));
            default -> Files.writeString(file, CAFE);
        }
    }

    private static void scene(JFrame frame, String scene) {
        switch (scene) {
            case "LOAD", "TAKEN" -> list(frame.getContentPane()).setSelectedIndex(2);
            case "LATE" -> list(frame.getContentPane()).setSelectedIndex(1);
            case "WRONG" -> {
                list(frame.getContentPane()).setSelectedIndex(3);
                JTextField ready = field(frame.getContentPane(), "2026-11-29 12:00");
                ready.requestFocusInWindow();
                ready.setText("on Sunday");
                ready.getActionMap().get("ENTER").actionPerformed(null);
            }
            default -> {
                // As it opens.
            }
        }
    }

    private static JList<?> list(Container within) {
        for (Component child : within.getComponents()) {
            if (child instanceof JList<?> its && its.isShowing()) {
                return its;
            }
            JList<?> found = child instanceof Container container ? list(container) : null;
            if (found != null) {
                return found;
            }
        }
        return null;
    }

    private static JTextField field(Container within, String text) {
        for (Component child : within.getComponents()) {
            if (child instanceof JTextField field
                    && field.isShowing()
                    && field.getText().equals(text)) {
                return field;
            }
            if (child instanceof Container container) {
                JTextField found = field(container, text);
                if (found != null) {
                    return found;
                }
            }
        }
        return null;
    }

    /** Presses a key of the window by its action, as the keyboard would. */
    private static void press(Container within, String key) {
        KeyStroke stroke = KeyStroke.getKeyStroke(key);
        for (Component child : within.getComponents()) {
            if (child instanceof JComponent its && its.isShowing()) {
                Object name = its.getInputMap(JComponent.WHEN_IN_FOCUSED_WINDOW).get(stroke);
                if (name != null && its.getActionMap().get(name) != null) {
                    its.getActionMap().get(name).actionPerformed(null);
                    return;
                }
            }
            if (child instanceof Container container) {
                press(container, key);
            }
        }
    }
}
