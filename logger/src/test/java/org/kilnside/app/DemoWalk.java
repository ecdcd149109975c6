package org.kilnside.app;

import java.awt.AWTException;
import java.awt.Frame;
import java.awt.event.KeyEvent;
import java.time.Duration;
import javax.swing.JFrame;
import javax.swing.JTable;
import javax.swing.SwingUtilities;
import org.kilnside.command.KilnsideCommand;
import org.kilnside.desktop.Showcase;
import org.kilnside.desktop.Walk;
import org.kilnside.desktop.now.NowView;

/**
 * Follows a whole firing of the virtual kiln in the real program, three thousand times as fast, to its end: {@code BOOK}.
 * Acknowledges an alarm, then opens the firing in the Book and reads its review, by keyboard alone. Says each step that
 * held; one that does not hold ends the walk with status 1.
 */
final class DemoWalk extends Walk {
    private DemoWalk() throws AWTException {
        super(Duration.ofSeconds(80));
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
            return frame != null && says("No real kiln is hot");
        });
        // Heating takes a quarter of a minute here: a starved computer may show the window only after it.
        step("it heats, or has heated", () -> spoken().matches("(?s).*(Heating|Holding|Cooling|has ended).*"));
        step("it cools, or has cooled", () -> spoken().matches("(?s).*(Cooling|has ended).*"));
        step("it comes to its end, and tells the firing", () -> says("Below 50 °C") && says("Peak"));
        step("its end waits for somebody to say that they know", () -> says("I know, Ctrl+Enter"));
        step("the keyboard is the window's", () -> frame.isFocused());
        // A busy computer may have hiccuped meanwhile: then there is more than one to know of.
        for (int others = 0; others < 6 && asked("I know, Ctrl+Enter"); others++) {
            press(KeyEvent.VK_CONTROL, KeyEvent.VK_ENTER);
            robot.delay(700);
        }
        step("one key says that one knows", () -> !says("I know, Ctrl+Enter"));
        press(KeyEvent.VK_F4);
        step("the firing is in the book", () -> table().isShowing() && table().getRowCount() == 1);
        press(KeyEvent.VK_ENTER);
        step("Enter opens it", () -> says("Beside the chart"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_6);
        step("with its review", () -> says("What made it so"));
    }

    private boolean asked(String words) {
        boolean[] there = new boolean[1];
        try {
            SwingUtilities.invokeAndWait(() -> there[0] = says(words));
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
}
