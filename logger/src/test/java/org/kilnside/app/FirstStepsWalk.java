package org.kilnside.app;

import java.awt.Component;
import java.awt.Container;
import java.awt.Frame;
import java.awt.KeyboardFocusManager;
import java.awt.Robot;
import java.awt.event.KeyEvent;
import java.util.List;
import java.util.Locale;
import java.util.function.BooleanSupplier;
import javax.accessibility.Accessible;
import javax.swing.AbstractButton;
import javax.swing.JFrame;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import org.kilnside.command.KilnsideCommand;

/**
 * Walks the first steps in the real program, by keyboard alone, in a JVM of its own on a virtual screen: {@code WALK BOOK
 * [PORT]}. Says each step that held; one that does not hold in time ends the walk with status 1.
 */
final class FirstStepsWalk {
    private static final long PATIENCE_NS = 60_000_000_000L;

    private final Robot robot;
    private final long began = System.nanoTime();
    private JFrame frame;

    private FirstStepsWalk() throws Exception {
        robot = new Robot();
        robot.setAutoDelay(15);
    }

    public static void main(String[] arguments) throws Exception {
        Thread program = new Thread(() ->
                KilnsideCommand.line(Kilnside.commands()).execute("desk", "--language", "en", "--book", arguments[1]));
        program.setDaemon(true);
        program.start();
        try {
            new FirstStepsWalk().walk(arguments);
        } catch (RuntimeException e) {
            // An open window would keep this program, and the test that waits for it.
            e.printStackTrace();
            System.exit(1);
        }
        System.exit(0);
    }

    private void walk(String[] arguments) {
        switch (arguments[0]) {
            case "controller" -> controller(arguments[2]);
            case "again" -> again();
            case "virtual" -> virtualKiln();
            case "foreign" -> foreign(arguments[2]);
            default -> throw new IllegalArgumentException(arguments[0]);
        }
    }

    /** A controller that speaks the protocol, on a port that is typed. */
    private void controller(String port) {
        opens();
        typePort(port);
        press(KeyEvent.VK_ENTER);
        step("it asks whether the kiln is cold", () -> shows("Is the kiln cold, and not firing?"));
        press(KeyEvent.VK_ENTER);
        step("readings come, and it says from whom", () -> shows("Readings come") && shows("type K, MAX31855"));
        press(KeyEvent.VK_ENTER);
        step("it asks which number the controller shows", () -> shows("How does your controller get its °C?"));
        press(KeyEvent.VK_ENTER);
        step(
                "it tries whether opening restarts the controller",
                () -> shows("Does connecting restart the controller?"));
        step("and the board went on running", () -> shows("Connecting leaves the controller running"));
        press(KeyEvent.VK_ENTER);
        step("it asks for the kiln's name", () -> shows("What is your kiln called?"));
        type("tall drum");
        press(KeyEvent.VK_DOWN);
        chooses("Record, following bisque");
        nowShowsAReading();
        chooseScreen("Kiln");
        step("and its lines stand on the Kiln screen", () -> shows("Lines come from") && shows("one each second"));
    }

    /** The next day: one key. */
    private void again() {
        opensFront();
        step("the last recording is offered first", () -> shows("Record from") && isFirst("Record from"));
        press(KeyEvent.VK_ENTER);
        nowShowsAReading();
    }

    private void virtualKiln() {
        opens();
        chooses("Try the virtual kiln first");
        nowShowsAReading();
        step("and it says that no real kiln is shown", () -> spoken("irtual"));
    }

    /** A controller with lines of its own. */
    private void foreign(String port) {
        opens();
        typePort(port);
        press(KeyEvent.VK_ENTER);
        step("it asks whether the kiln is cold", () -> shows("Is the kiln cold, and not firing?"));
        press(KeyEvent.VK_ENTER);
        step("it proposes how to read the lines", () -> shows("Your controller has lines of its own"));
        step("with the number and what it is taken for", () -> shows("temperature in the kiln, °C; just now 21 °C"));
        press(KeyEvent.VK_ENTER);
        step("it asks about the amplifier", () -> shows("How does your controller get its °C?"));
        press(KeyEvent.VK_ENTER);
        step("readings come by the pattern", () -> shows("Readings come"));
        press(KeyEvent.VK_ENTER);
        step(
                "the trial's answer is said, whatever it is",
                () -> shows("Connecting leaves the controller running") || shows("Did the controller start anew?"));
        press(KeyEvent.VK_ENTER);
        step("it asks for the kiln's name", () -> shows("What is your kiln called?"));
        press(KeyEvent.VK_ENTER);
        nowShowsAReading();
    }

    private void opens() {
        opensFront();
        step("the window opens on the first steps", () -> shows("Which kiln shall be watched?"));
    }

    private void opensFront() {
        step("the window is there and has the keyboard", () -> {
            for (Frame candidate : Frame.getFrames()) {
                if (candidate instanceof JFrame window && window.isShowing()) {
                    frame = window;
                }
            }
            return frame != null && frame.isFocused();
        });
    }

    private void typePort(String port) {
        chooses("Type where it is");
        step(
                "the field has the keyboard",
                () -> KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner()
                        instanceof javax.swing.JTextField);
        type(port);
    }

    private void nowShowsAReading() {
        step("the live firing shows a reading", () -> spoken(" s ago"));
        System.out.println("first reading after " + (System.nanoTime() - began) / 1_000_000_000 + " s");
    }

    /** Presses the key that stands beside a screen's name. */
    private void chooseScreen(String name) {
        String[] key = new String[1];
        onSwing(() -> key[0] = option(frame.getContentPane(), name));
        press(KeyEvent.VK_F1 + Integer.parseInt(key[0].substring(1)) - 1);
    }

    /** Whether a view in front says this to a screen reader. */
    private boolean spoken(String text) {
        return spoken(frame.getContentPane(), text);
    }

    private static boolean spoken(Component component, String text) {
        if (!component.isShowing()) {
            return false;
        }
        if (component instanceof Accessible accessible && accessible.getAccessibleContext() != null) {
            String name = accessible.getAccessibleContext().getAccessibleName();
            if (name != null && name.contains(text)) {
                return true;
            }
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                if (spoken(child, text)) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Whether these words stand on the screen. */
    private boolean shows(String words) {
        return frame != null && shows(frame.getContentPane(), words);
    }

    private static boolean shows(Component component, String words) {
        if (!component.isShowing()) {
            return false;
        }
        String text = component instanceof JTextArea area
                ? area.getText()
                : component instanceof AbstractButton button
                        ? button.getText()
                        : component instanceof javax.swing.JLabel label ? label.getText() : "";
        if (text != null && text.replace('\u00a0', ' ').replace("\ufeff", "").contains(words)) {
            return true;
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                if (shows(child, words)) {
                    return true;
                }
            }
        }
        return false;
    }

    private boolean isFirst(String words) {
        return option(frame.getContentPane(), words).equals("1");
    }

    /** Presses the digit that stands on an option. */
    private void chooses(String label) {
        step("there is \"" + label + "\"", () -> shows(label));
        String[] digit = new String[1];
        onSwing(() -> digit[0] = option(frame.getContentPane(), label));
        press(KeyEvent.getExtendedKeyCodeForChar(digit[0].charAt(0)));
    }

    /** The key of an option, as a screen reader hears it. */
    private static String option(Component component, String label) {
        if (component instanceof AbstractButton button
                && button.isShowing()
                && button.getText() != null
                && button.getText().startsWith(label)) {
            return button.getAccessibleContext().getAccessibleName().replaceAll(".*, ", "");
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                String found = option(child, label);
                if (!found.isEmpty()) {
                    return found;
                }
            }
        }
        return "";
    }

    private void type(String text) {
        for (char letter : text.toLowerCase(Locale.ROOT).toCharArray()) {
            press(KeyEvent.getExtendedKeyCodeForChar(letter));
        }
    }

    private void press(int key) {
        robot.waitForIdle();
        robot.keyPress(key);
        robot.keyRelease(key);
        robot.waitForIdle();
    }

    private static void onSwing(Runnable look) {
        try {
            SwingUtilities.invokeAndWait(look);
        } catch (InterruptedException | java.lang.reflect.InvocationTargetException e) {
            throw new IllegalStateException(e);
        }
    }

    private void step(String what, BooleanSupplier condition) {
        long deadline = System.nanoTime() + PATIENCE_NS;
        boolean[] held = new boolean[1];
        while (!held[0] && System.nanoTime() < deadline) {
            onSwing(() -> held[0] = condition.getAsBoolean());
            try {
                Thread.sleep(40);
            } catch (InterruptedException e) {
                throw new IllegalStateException(e);
            }
        }
        System.out.println((held[0] ? "held: " : "NOT HELD: ") + what);
        if (!held[0]) {
            onSwing(() -> System.out.println(List.of(texts(frame.getContentPane()))));
            System.exit(1);
        }
    }

    private static String texts(Component component) {
        StringBuilder all = new StringBuilder();
        if (component.isShowing()) {
            if (component instanceof JTextArea area) {
                all.append(area.getText()).append(" | ");
            } else if (component instanceof AbstractButton button) {
                all.append(button.getText()).append(" | ");
            } else if (component instanceof javax.swing.JLabel label) {
                all.append(label.getText()).append(" | ");
            }
            if (component instanceof Container container) {
                for (Component child : container.getComponents()) {
                    all.append(texts(child));
                }
            }
        }
        return all.toString();
    }
}
