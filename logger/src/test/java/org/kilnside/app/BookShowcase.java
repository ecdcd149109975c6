package org.kilnside.app;

import java.awt.Component;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import javax.swing.JFrame;
import javax.swing.JTable;
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
import org.kilnside.desktop.book.BookScreen;
import org.kilnside.desktop.book.OverlayPane;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.session.HandFeed;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;

/**
 * Opens the window on the Book screen and writes pictures of it. The first argument is the book; each further one a
 * picture: {@code SCENE,THEME,LANGUAGE,WIDTHxHEIGHT,FILE}. For each it says what is clipped, if anything.
 */
final class BookShowcase {
    private BookShowcase() {}

    public static void main(String[] arguments) throws Exception {
        // A window keeps its program alive: whatever goes wrong ends it.
        Thread.setDefaultUncaughtExceptionHandler((thread, failure) -> {
            failure.printStackTrace();
            System.exit(1);
        });
        for (int i = 1; i < arguments.length; i++) {
            take(Path.of(arguments[0]), arguments[i].split(",", -1));
        }
        System.exit(0);
    }

    private static void take(Path book, String[] wish) throws Exception {
        Showcase.Shape shape = Showcase.Shape.of(wish[3]);
        Settings settings = new Settings(
                Theme.valueOf(wish[1]),
                Language.valueOf(wish[2]),
                TemperatureUnit.CELSIUS,
                ClockStyle.TWENTY_FOUR_HOURS,
                Opening.LID,
                false,
                shape.text());
        HandClock clock = new HandClock();
        clock.set(SampleSnapshots.HOST_MS + 3_000);
        Window.open(
                new HandFeed(SampleSnapshots.coolingForecast()),
                clock,
                SettingsStore.forgetful(settings),
                HandClosing.unheard(),
                WholeBar.with(
                        "F4", (words, errands) -> new BookScreen(words, new DeskBook(book, kiln -> Optional.empty()))));
        JFrame frame = Showcase.shown();
        SwingUtilities.invokeAndWait(() -> frame.setSize(shape.width(), shape.height()));
        press(frame, "F4");
        settle(() -> Showcase.find(frame, JTable.class) != null);
        JTable table = Showcase.find(frame, JTable.class);
        settle(() -> table.getRowCount() > 0);
        for (String scene : wish[0].split("[+]", -1)) {
            scene(frame, table, scene);
            Stillness.await();
            Showcase.shoot(
                    frame.getContentPane(),
                    wish[4].replace("SCENE", scene.toLowerCase(Locale.ROOT).replace('_', '-')));
            for (int i = 0; i < 3; i++) {
                press(Showcase.find(frame, OverlayPane.class), "ESCAPE", frame);
            }
        }
        SwingUtilities.invokeAndWait(() -> Showcase.putAway(frame));
    }

    private static void scene(JFrame frame, JTable table, String scene) throws Exception {
        if (scene.equals("LIST")) {
            stand(table, 2);
            press(table, "SPACE");
            return;
        }
        if (scene.startsWith("OVERLAY")) {
            for (int row :
                    scene.equals("OVERLAY_TEN") ? new int[] {3, 5, 7, 9, 11, 13, 15, 17, 19} : new int[] {2, 4}) {
                stand(table, row);
                press(table, "SPACE");
            }
        }
        stand(table, 0);
        press(table, "ENTER");
        OverlayPane chart = Showcase.find(frame, OverlayPane.class);
        settle(chart::isShowing);
        if (scene.equals("OVERLAY_COMMON")) {
            press(chart, "ctrl T", frame);
        }
        String key = switch (scene) {
            case "HAPPENED" -> "ctrl 2";
            case "LOAD", "FORM" -> "ctrl 3";
            case "NOTES" -> "ctrl 4";
            case "WITNESS" -> "ctrl 5";
            case "REVIEW" -> "ctrl 6";
            default -> "ctrl 1";
        };
        press(chart, key, frame);
        if (scene.equals("FORM")) {
            press(chart, "ctrl E", frame);
        }
        // Plan, cone and review come by and by.
        Stillness.await();
    }

    private static void stand(JTable table, int row) throws Exception {
        SwingUtilities.invokeAndWait(() -> table.setRowSelectionInterval(row, row));
    }

    private static void press(Component component, String key, JFrame frame) throws Exception {
        SwingUtilities.invokeAndWait(() -> {
            Component at = component;
            while (at != null) {
                if (at instanceof javax.swing.JComponent its) {
                    Object name = its.getInputMap(javax.swing.JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT)
                            .get(KeyStroke.getKeyStroke(key));
                    if (name != null && its.getActionMap().get(name) != null) {
                        its.getActionMap().get(name).actionPerformed(new java.awt.event.ActionEvent(frame, 0, key));
                        return;
                    }
                }
                at = at.getParent();
            }
            throw new IllegalStateException("nobody knows the key " + key);
        });
    }

    private static void press(JFrame frame, String key) throws Exception {
        press(frame.getContentPane().getComponent(0), key, frame);
    }

    private static void press(javax.swing.JComponent component, String key) throws Exception {
        SwingUtilities.invokeAndWait(() -> {
            Object name =
                    component.getInputMap(javax.swing.JComponent.WHEN_FOCUSED).get(KeyStroke.getKeyStroke(key));
            component.getActionMap().get(name).actionPerformed(new java.awt.event.ActionEvent(component, 0, key));
        });
    }

    private static void settle(BooleanSupplier condition) throws Exception {
        boolean[] held = new boolean[1];
        for (int i = 0; i < 400 && !held[0]; i++) {
            SwingUtilities.invokeAndWait(() -> held[0] = condition.getAsBoolean());
            Thread.sleep(25);
        }
        if (!held[0]) {
            throw new IllegalStateException("the window did not come to what was waited for");
        }
    }
}
