package org.kilnside.app;

import java.awt.Component;
import java.awt.Container;
import java.awt.Frame;
import java.awt.Robot;
import java.awt.event.KeyEvent;
import java.util.function.BooleanSupplier;
import javax.swing.JFrame;
import javax.swing.JTable;
import javax.swing.SwingUtilities;
import javax.swing.text.JTextComponent;
import org.kilnside.command.KilnsideCommand;
import org.kilnside.desktop.Showcase;
import org.kilnside.desktop.now.NowView;

/**
 * Follows a whole firing of the virtual kiln in the real program, three thousand times as fast, to its end: {@code BOOK}.
 * Acknowledges an alarm, then opens the firing in the Book and reads its review, by keyboard alone. Says each step that
 * held; one that does not hold ends the walk with status 1.
 */
final class DemoWalk {
    private static final long PATIENCE_NS = 80_000_000_000L;

    private final Robot robot;
    private JFrame frame;

    private DemoWalk() throws Exception {
        robot = new Robot();
        robot.setAutoDelay(15);
    }

    public static void main(String[] arguments) throws Exception {
        Thread program = new Thread(() -> KilnsideCommand.line(Kilnside.commands())
                .execute("demo", "--language", "en", "--speed", "3000", "--book", arguments[0]));
        program.setDaemon(true);
        program.start();
        try {
            new DemoWalk().walk();
        } catch (RuntimeException e) {
            // An open window would keep this program, and the test that waits for it.
            e.printStackTrace();
            System.exit(1);
        }
        System.exit(0);
    }

    private void walk() {
        step("the window is there, and says that no real kiln is hot", () -> {
            for (Frame candidate : Frame.getFrames()) {
                if (candidate instanceof JFrame window && window.isShowing()) {
                    frame = window;
                }
            }
            return frame != null && shows("No real kiln is hot");
        });
        // Heating takes a quarter of a minute here: a starved computer may show the window only after it.
        step("it heats, or has heated", () -> spoken().matches("(?s).*(Heating|Holding|Cooling|has ended).*"));
        step("it cools, or has cooled", () -> spoken().matches("(?s).*(Cooling|has ended).*"));
        step("it comes to its end, and tells the firing", () -> shows("Below 50 °C") && shows("Peak"));
        step("its end waits for somebody to say that they know", () -> shows("I know, Ctrl+Enter"));
        step("the keyboard is the window's", () -> frame.isFocused());
        // A busy computer may have hiccuped meanwhile: then there is more than one to know of.
        for (int others = 0; others < 6 && asked("I know, Ctrl+Enter"); others++) {
            press(KeyEvent.VK_CONTROL, KeyEvent.VK_ENTER);
            robot.delay(700);
        }
        step("one key says that one knows", () -> !shows("I know, Ctrl+Enter"));
        press(KeyEvent.VK_F4);
        step("the firing is in the book", () -> table().isShowing() && table().getRowCount() == 1);
        press(KeyEvent.VK_ENTER);
        step("Enter opens it", () -> shows("Beside the chart"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_6);
        step("with its review", () -> shows("What made it so"));
    }

    private boolean asked(String words) {
        boolean[] there = new boolean[1];
        try {
            SwingUtilities.invokeAndWait(() -> there[0] = shows(words));
        } catch (InterruptedException | java.lang.reflect.InvocationTargetException e) {
            throw new IllegalStateException(words, e);
        }
        return there[0];
    }

    private JTable table() {
        return Showcase.find(frame, JTable.class);
    }

    private String spoken() {
        String name = Showcase.find(frame, NowView.class).getAccessibleContext().getAccessibleName();
        return name == null ? "" : name;
    }

    private boolean shows(String words) {
        return shows(frame.getContentPane(), words);
    }

    private static boolean shows(Component component, String words) {
        if (!component.isShowing()) {
            return false;
        }
        String text = component instanceof JTextComponent written
                ? written.getText()
                : component instanceof javax.swing.JLabel label
                        ? label.getText()
                        : component.getAccessibleContext() == null
                                ? null
                                : component.getAccessibleContext().getAccessibleName();
        if (text != null && text.contains(words)) {
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

    private void press(int... keys) {
        robot.waitForIdle();
        for (int key : keys) {
            robot.keyPress(key);
        }
        for (int i = keys.length - 1; i >= 0; i--) {
            robot.keyRelease(keys[i]);
        }
        robot.waitForIdle();
    }

    private void describe(Component component, int depth) {
        if (!component.isShowing()) {
            return;
        }
        String text = component instanceof JTextComponent written
                ? written.getText()
                : component instanceof javax.swing.JLabel label ? label.getText() : "";
        if (text != null && !text.isBlank()) {
            System.out.println(" ".repeat(depth) + text);
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                describe(child, depth + 1);
            }
        }
    }

    /** The condition is asked on the Swing thread, as it looks at the window. */
    private void step(String what, BooleanSupplier condition) {
        long deadline = System.nanoTime() + PATIENCE_NS;
        boolean[] held = new boolean[1];
        try {
            while (!held[0] && System.nanoTime() < deadline) {
                SwingUtilities.invokeAndWait(() -> held[0] = condition.getAsBoolean());
                Thread.sleep(20);
            }
            System.out.println((held[0] ? "held: " : "NOT HELD: ") + what);
            if (!held[0]) {
                if (frame != null) {
                    System.out.println(spoken());
                    SwingUtilities.invokeAndWait(() -> describe(frame.getContentPane(), 1));
                }
                System.exit(1);
            }
        } catch (InterruptedException | java.lang.reflect.InvocationTargetException e) {
            throw new IllegalStateException(what, e);
        }
    }
}
