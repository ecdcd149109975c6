package org.kilnside.app;

import java.awt.Component;
import java.awt.Container;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JFrame;
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
import org.kilnside.desktop.plan.PlansScreen;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.session.HandFeed;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;

/**
 * Opens the window on the Plans screen and writes pictures of it. The first argument is a person's own folder; each
 * further one a picture: {@code SCENE,THEME,LANGUAGE,UNIT,WIDTHxHEIGHT,FILE}. For each it says what is clipped, if
 * anything.
 */
final class PlansShowcase {
    private PlansShowcase() {}

    public static void main(String[] arguments) throws Exception {
        for (int i = 1; i < arguments.length; i++) {
            take(Path.of(arguments[0]), arguments[i].split(",", -1));
        }
        System.exit(0);
    }

    private static void take(Path folder, String[] wish) throws Exception {
        Showcase.Shape shape = Showcase.Shape.of(wish[4]);
        Settings settings = new Settings(
                Theme.valueOf(wish[1]),
                Language.valueOf(wish[2]),
                TemperatureUnit.valueOf(wish[3]),
                ClockStyle.TWENTY_FOUR_HOURS,
                Opening.LID,
                true,
                shape.text());
        HandClock clock = new HandClock();
        clock.set(SampleSnapshots.HOST_MS + 3_000);
        Window.open(
                new HandFeed(SampleSnapshots.heatingForecast()),
                clock,
                SettingsStore.forgetful(settings),
                HandClosing.unheard(),
                WholeBar.with(
                        "F3",
                        (words, errands) -> new PlansScreen(
                                words,
                                errands,
                                new DeskPlans(folder, folder.resolve("firings.book"), java.util.Optional::empty))));
        JFrame frame = Showcase.shown();
        SwingUtilities.invokeAndWait(() -> frame.setSize(shape.width(), shape.height()));
        SwingUtilities.invokeAndWait(() -> press(frame, "F3"));
        Stillness.await();
        scene(frame, folder, wish[0], clock);
        Stillness.await();
        Showcase.shoot(frame.getContentPane(), wish[5]);
        SwingUtilities.invokeAndWait(() -> Showcase.putAway(frame));
    }

    private static void scene(JFrame frame, Path folder, String scene, HandClock clock) throws Exception {
        SwingUtilities.invokeAndWait(() -> {
            List<JTextField> fields = fields(frame.getContentPane());
            switch (scene) {
                case "EDIT" -> {
                    named(fields, "kg").setText("34");
                    fields.stream()
                            .filter(field ->
                                    name(field).startsWith("3") || name(field).contains(" 3,"))
                            .findFirst()
                            .ifPresent(JTextField::requestFocusInWindow);
                }
                case "RASH" -> {
                    List<JTextField> rows = fields.stream()
                            .filter(field -> name(field).matches(".* \\d+, .*"))
                            .toList();
                    rows.get(0).setText("300");
                    rows.get(6).setText("warm");
                    rows.get(7).setText("1275");
                }
                case "CHART" -> press(frame, "F11");
                default -> {
                    // As it opens.
                }
            }
        });
        if (scene.equals("DISK")) {
            Path file = folder.resolve("schedules/bisque-for-bowls.toml");
            String text = Files.readString(file);
            Files.writeString(file, text.replace("992", "1000"));
            clock.set(SampleSnapshots.HOST_MS + 6_000);
            // The window looks at its files once a second.
            Thread.sleep(1100);
            Stillness.await();
            Files.writeString(file, text);
        }
    }

    private static String name(JTextField field) {
        String name = field.getAccessibleContext().getAccessibleName();
        return name == null ? "" : name;
    }

    private static JTextField named(List<JTextField> fields, String part) {
        return fields.stream()
                .filter(field -> name(field).contains(part))
                .findFirst()
                .orElseThrow();
    }

    private static List<JTextField> fields(Container within) {
        List<JTextField> found = new ArrayList<>();
        for (Component child : within.getComponents()) {
            if (child instanceof JTextField field && field.isShowing()) {
                found.add(field);
            } else if (child instanceof Container container) {
                found.addAll(fields(container));
            }
        }
        return found;
    }

    /** Presses a key of the window by its action, as the keyboard would. */
    private static void press(Container within, String key) {
        KeyStroke stroke = KeyStroke.getKeyStroke(key);
        for (Component child : within.getComponents()) {
            if (child instanceof javax.swing.JComponent its && its.isShowing()) {
                Object name = its.getInputMap(javax.swing.JComponent.WHEN_IN_FOCUSED_WINDOW)
                        .get(stroke);
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
