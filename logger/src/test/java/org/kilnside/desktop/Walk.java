package org.kilnside.desktop;

import java.awt.AWTException;
import java.awt.Component;
import java.awt.Container;
import java.awt.Frame;
import java.awt.KeyboardFocusManager;
import java.awt.Robot;
import java.awt.event.KeyEvent;
import java.lang.reflect.InvocationTargetException;
import java.time.Duration;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import javax.swing.JDialog;
import javax.swing.JFrame;
import javax.swing.JLabel;
import javax.swing.SwingUtilities;
import javax.swing.text.JTextComponent;

/**
 * Hands and eyes of a walk through the real window, in a JVM of its own on a virtual screen. It says each step that held;
 * one that does not hold in time ends the walk with status 1, and so does whatever goes wrong behind the window.
 */
public abstract class Walk {
    protected final Robot robot;
    protected JFrame frame;
    private final Duration patience;

    /** @param patience how long a step may take; a starved computer takes its time */
    protected Walk(Duration patience) throws AWTException {
        // A window keeps its program alive: whatever goes wrong ends it.
        Thread.setDefaultUncaughtExceptionHandler((thread, failure) -> {
            failure.printStackTrace();
            System.exit(1);
        });
        this.patience = patience;
        robot = new Robot();
        robot.setAutoDelay(15);
    }

    /** Waits for the condition, which is asked on the Swing thread, as it looks at the window. */
    protected final void step(String what, BooleanSupplier condition) {
        long deadline = System.nanoTime() + patience.toNanos();
        boolean[] held = new boolean[1];
        while (!held[0] && System.nanoTime() < deadline) {
            onSwing(() -> held[0] = condition.getAsBoolean());
            pause(20);
        }
        System.out.println((held[0] ? "held: " : "NOT HELD: ") + what);
        if (!held[0]) {
            if (frame != null) {
                onSwing(() -> tell(frame, 1));
            }
            System.exit(1);
        }
    }

    /** The window is there and has the keyboard. */
    protected final void windowOpens() {
        step("the window is there and has the keyboard", () -> {
            for (Frame candidate : Frame.getFrames()) {
                if (candidate instanceof JFrame window && window.isFocused()) {
                    frame = window;
                }
            }
            return frame != null;
        });
    }

    /** Presses keys together. */
    protected final void press(int... keys) {
        robot.waitForIdle();
        for (int key : keys) {
            robot.keyPress(key);
        }
        for (int i = keys.length - 1; i >= 0; i--) {
            robot.keyRelease(keys[i]);
        }
        robot.waitForIdle();
    }

    /** Types letters and figures. */
    protected final void type(String text) {
        for (char letter : text.toCharArray()) {
            press(KeyEvent.getExtendedKeyCodeForChar(letter));
        }
    }

    protected static void onSwing(Runnable deed) {
        try {
            SwingUtilities.invokeAndWait(deed);
        } catch (InterruptedException | InvocationTargetException e) {
            throw new IllegalStateException(e);
        }
    }

    private static void pause(long ms) {
        try {
            Thread.sleep(ms);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    /** What has the keyboard; null for nothing. */
    protected static Component owner() {
        return KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
    }

    /** The dialog that has the keyboard. */
    protected final Optional<JDialog> dialog() {
        for (java.awt.Window owned : frame.getOwnedWindows()) {
            if (owned instanceof JDialog dialog && dialog.isShowing() && dialog.isFocused()) {
                return Optional.of(dialog);
            }
        }
        return Optional.empty();
    }

    /** Whether some words stand in the window. */
    protected final boolean says(String words) {
        return says(frame.getContentPane(), words);
    }

    /** Whether some words stand there, in sight. */
    protected static boolean says(Component component, String words) {
        if (!component.isShowing()) {
            return false;
        }
        if (text(component).replace('\u00a0', ' ').replace("\ufeff", "").contains(words)) {
            return true;
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                if (says(child, words)) {
                    return true;
                }
            }
        }
        return false;
    }

    private static String text(Component component) {
        String text = component instanceof JTextComponent written
                ? written.getText()
                : component instanceof JLabel label
                        ? label.getText()
                        : component.getAccessibleContext() == null
                                ? ""
                                : component.getAccessibleContext().getAccessibleName();
        return text == null ? "" : text;
    }

    private static void tell(Component component, int depth) {
        if (!component.isShowing()) {
            return;
        }
        if (!text(component).isBlank()) {
            System.out.println(" ".repeat(depth) + text(component));
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                tell(child, depth + 1);
            }
        }
    }

    /** For a window that records nothing: it closes without a question. */
    protected static Closing quietly() {
        return HandClosing.unheard();
    }
}
