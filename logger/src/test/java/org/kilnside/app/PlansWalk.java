package org.kilnside.app;

import java.awt.AWTException;
import java.awt.Component;
import java.awt.Container;
import java.awt.Frame;
import java.awt.KeyboardFocusManager;
import java.awt.Point;
import java.awt.event.InputEvent;
import java.awt.event.KeyEvent;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import javax.swing.JFrame;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import org.kilnside.desktop.HandClock;
import org.kilnside.desktop.Settings;
import org.kilnside.desktop.SettingsStore;
import org.kilnside.desktop.Walk;
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
 * Edits, undoes and saves a plan in the real window by keyboard alone, then pulls a corner with the mouse. Says each
 * step that held; one that does not hold within ten seconds ends the walk with status 1.
 */
final class PlansWalk extends Walk {
    private final Path folder;
    private final HandClock clock = new HandClock();

    private PlansWalk(Path folder) throws AWTException {
        super(Duration.ofSeconds(10));
        this.folder = folder;
    }

    public static void main(String[] arguments) throws Exception {
        new PlansWalk(Path.of(arguments[0])).walk();
        System.exit(0);
    }

    private void walk() throws Exception {
        clock.set(SampleSnapshots.HOST_MS + 1_000);
        Settings settings = new Settings(
                Theme.DARK,
                Language.ENGLISH,
                TemperatureUnit.CELSIUS,
                ClockStyle.TWENTY_FOUR_HOURS,
                Opening.LID,
                false,
                100);
        Window.open(
                new HandFeed(SampleSnapshots.heating()),
                clock,
                SettingsStore.forgetful(settings),
                quietly(),
                WholeBar.with(
                        "F3",
                        (words, errands) -> new PlansScreen(
                                words,
                                errands,
                                new DeskPlans(folder, folder.resolve("firings.book"), Optional::empty))));
        step("the window opens", () -> {
            for (Frame candidate : Frame.getFrames()) {
                if (candidate instanceof JFrame window && window.isShowing()) {
                    frame = window;
                }
            }
            return frame != null && frame.isFocused();
        });
        press(KeyEvent.VK_F3);
        step("F3 brings the plans, the person's own first", () -> text("Name").equals("Bisque for bowls"));
        step("what it comes to is said", () -> says("Comes to") && says("cone 06"));
        press(KeyEvent.VK_F11);
        press(KeyEvent.VK_TAB);
        step("from the chart Tab goes to the first rate", () -> focused("segment 1, °C/h"));
        type("55");
        step(
                "typing changes the plan",
                () -> says("changed, not saved") && text("segment 1, °C/h").equals("55"));
        press(KeyEvent.VK_DOWN);
        step("down goes to the next segment", () -> focused("segment 2, °C/h"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step("Ctrl+Z undoes", () -> text("segment 1, °C/h").equals("60") && !says("changed, not saved"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Y);
        step("Ctrl+Y does it again", () -> text("segment 1, °C/h").equals("55"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_S);
        step(
                "Ctrl+S saves, comments and all",
                () -> file("bisque-for-bowls").contains("rate = \"55 °C/h\"")
                        && file("bisque-for-bowls").contains("# Rook Lane Pottery")
                        && says("Saved as bisque-for-bowls"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_I);
        step("Ctrl+I adds a segment and goes there", () -> focused("segment 3, °C/h"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_D);
        step("Ctrl+D takes it out", () -> says("changed, not saved") || !says("segment 6"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step("both are undone", () -> !says("changed, not saved"));
        press(KeyEvent.VK_F11);
        press(KeyEvent.VK_TAB);
        type("warm");
        step("a text that is no rate is said in place", () -> says("\"warm\" is no rate"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_S);
        step("and is not saved", () -> says("Not saved") || says("is no rate"));
        press(KeyEvent.VK_F2);
        step("leaving asks", () -> dialog().isPresent());
        press(KeyEvent.VK_RIGHT);
        press(KeyEvent.VK_RIGHT);
        press(KeyEvent.VK_SPACE);
        step("and stays when told to", () -> dialog().isEmpty() && says("Bisque for bowls"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step("undo puts the number back", () -> text("segment 1, °C/h").equals("55"));
        press(KeyEvent.VK_F11);
        press(KeyEvent.VK_UP);
        step(
                "on the chart up moves the first corner",
                () -> text("segment 1, to, °C").equals("85"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step("which is undone", () -> text("segment 1, to, °C").equals("80"));
        Files.writeString(
                folder.resolve("schedules/bisque-for-bowls.toml"),
                file("bisque-for-bowls").replace("992", "985"));
        clock.set(SampleSnapshots.HOST_MS + 9_000);
        step("a file changed on disk is asked about", () -> says("Somebody changed this plan's file"));
        pull();
        step("a corner follows the mouse", () -> !text("segment 2, to, °C").equals("600"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step("one pull is one step back", () -> text("segment 2, to, °C").equals("600"));
        press(KeyEvent.VK_F2);
        step("with nothing unsaved the screen is left", () -> !says("Library"));
    }

    /** Takes the corner at the end of the second ramp and lifts it. */
    private void pull() throws Exception {
        Component[] chart = new Component[1];
        Point[] at = new Point[1];
        SwingUtilities.invokeAndWait(() -> {
            chart[0] = KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
            at[0] = chart[0].getLocationOnScreen();
        });
        press(KeyEvent.VK_F11);
        SwingUtilities.invokeAndWait(() -> {
            chart[0] = KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
            at[0] = chart[0].getLocationOnScreen();
        });
        // The corner is looked for where the hand turns into a move cursor.
        for (int x = chart[0].getWidth() / 4; x < chart[0].getWidth() * 3 / 4; x += 4) {
            for (int y = chart[0].getHeight() / 4; y < chart[0].getHeight() * 3 / 4; y += 8) {
                int[] cursor = new int[1];
                int px = x;
                int py = y;
                SwingUtilities.invokeAndWait(() -> {
                    chart[0].dispatchEvent(new java.awt.event.MouseEvent(
                            chart[0], java.awt.event.MouseEvent.MOUSE_MOVED, 0, 0, px, py, 0, false));
                    cursor[0] = chart[0].getCursor().getType();
                });
                if (cursor[0] == java.awt.Cursor.MOVE_CURSOR) {
                    robot.mouseMove(at[0].x + x, at[0].y + y);
                    robot.mousePress(InputEvent.BUTTON1_DOWN_MASK);
                    robot.mouseMove(at[0].x + x, at[0].y + y - 10);
                    robot.mouseMove(at[0].x + x, at[0].y + y - 25);
                    robot.mouseRelease(InputEvent.BUTTON1_DOWN_MASK);
                    robot.waitForIdle();
                    return;
                }
            }
        }
    }

    private String file(String name) {
        try {
            return Files.readString(folder.resolve("schedules/" + name + ".toml"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static boolean focused(String name) {
        Component owner = KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
        return owner != null && name.equals(owner.getAccessibleContext().getAccessibleName());
    }

    private String text(String name) {
        return field(frame.getContentPane(), name).map(JTextField::getText).orElse("");
    }

    private static Optional<JTextField> field(Container within, String name) {
        for (Component child : within.getComponents()) {
            if (child instanceof JTextField field
                    && field.isShowing()
                    && name.equals(field.getAccessibleContext().getAccessibleName())) {
                return Optional.of(field);
            }
            if (child instanceof Container container) {
                Optional<JTextField> found = field(container, name);
                if (found.isPresent()) {
                    return found;
                }
            }
        }
        return Optional.empty();
    }
}
