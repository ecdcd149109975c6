package org.kilnside.app;

import java.awt.AWTException;
import java.awt.Component;
import java.awt.Container;
import java.awt.event.ActionEvent;
import java.awt.event.KeyEvent;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.swing.Action;
import javax.swing.JComponent;
import javax.swing.JTable;
import javax.swing.KeyStroke;
import javax.swing.text.JTextComponent;
import org.kilnside.desktop.HandClock;
import org.kilnside.desktop.Settings;
import org.kilnside.desktop.SettingsStore;
import org.kilnside.desktop.Showcase;
import org.kilnside.desktop.Stillness;
import org.kilnside.desktop.Walk;
import org.kilnside.desktop.Window;
import org.kilnside.desktop.book.BookScreen;
import org.kilnside.desktop.kiln.HandShelf;
import org.kilnside.desktop.kiln.HandWorld;
import org.kilnside.desktop.kiln.KilnScreen;
import org.kilnside.desktop.kiln.SampleLines;
import org.kilnside.desktop.night.NightScreen;
import org.kilnside.desktop.plan.PlansScreen;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.desktop.week.WeekScreen;
import org.kilnside.files.UnitText;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.HandFeed;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;

/**
 * Puts any text into every field of every screen, one after the other, as if pasted, with Enter behind it, and has the
 * window drawn each time. What is refused is said beside its field; nothing may go wrong behind the window.
 */
final class AnyTextWalk extends Walk {
    /** What nobody means to write, and somebody pastes. */
    private static final List<String> ANY = List.of(
            "\uD83C\uDFFA\uD83D\uDD25 \uD83D\uDC69\u200D\uD83C\uDFA8",
            "Saltmarsh ".repeat(1000),
            "9".repeat(10_000),
            "a\u0000b",
            "\u202E\u05E9\u05DC\u05D5\u05DD \u0643\u0648\u0631",
            "\u0007\u001B[2J\u000B\u007F\u0085",
            "<html><h1>hot</h1><img src='file:///nowhere.png'>",
            "\uD83D alone",
            "one\r\ntwo\ttabbed\u2028three",
            "'; DROP TABLE firing; --",
            "NaN",
            "-1e999",
            "\u0663\u0664",
            "e\u0301".repeat(200),
            " ");

    /** Those with letters of many parts, which Swing lays out in another way: the window comes to rest with each. */
    private static final List<String> STILL_WITH = List.of(ANY.get(0), ANY.get(4), ANY.get(13));

    private final Path book;
    private final HandClock clock = new HandClock();
    private final Set<String> been = new HashSet<>();

    private AnyTextWalk(Path book) throws AWTException {
        super(Duration.ofSeconds(60));
        this.book = book;
    }

    public static void main(String[] arguments) throws Exception {
        new AnyTextWalk(Path.of(arguments[0])).walk();
        System.exit(0);
    }

    private void walk() throws Exception {
        clock.set(SampleSnapshots.HOST_MS + 1_000);
        HandFeed feed = new HandFeed(SampleSnapshots.heating());
        HandWorld world = HandWorld.plugged();
        Window.open(
                feed,
                clock,
                SettingsStore.forgetful(new Settings(
                        Theme.LIGHT,
                        Language.ENGLISH,
                        TemperatureUnit.CELSIUS,
                        ClockStyle.TWENTY_FOUR_HOURS,
                        Opening.LID,
                        false,
                        100)),
                quietly(),
                List.of(
                        (words, errands) -> new PlansScreen(
                                words, errands, new DeskPlans(book.resolveSibling("settings"), book, Optional::empty)),
                        (words, errands) -> new BookScreen(words, new DeskBook(book, kiln -> Optional.empty())),
                        (words, errands) -> new KilnScreen(
                                SampleLines::good,
                                world,
                                world,
                                new HandShelf(),
                                new WindowSensors(book, clock),
                                errands),
                        (words, errands) -> new NightScreen(
                                new WindowNight(feed, book, clock), words, errands, AnyTextWalk::temperature),
                        (words, errands) -> new WeekScreen(
                                words,
                                errands,
                                new DeskWeek(book.resolveSibling("settings"), book, clock, Optional::empty))));
        windowOpens();
        book();
        kiln();
        on("Night", KeyEvent.VK_F6);
        week();
        // Last: one does not leave an unsaved plan without being asked.
        on("Plans", KeyEvent.VK_F3);
        step("fields written into: " + been.size(), () -> been.size() > 30);
    }

    private static Temperature temperature(String typed) {
        try {
            return UnitText.temperature(typed);
        } catch (UnitText.NotAQuantityException e) {
            throw new IllegalArgumentException(e.getMessage(), e);
        }
    }

    private void on(String name, int... keys) throws Exception {
        press(keys);
        Stillness.await();
        writeIntoAll();
        step(name + " takes any text and is still drawn", () -> frame.isShowing());
    }

    private void book() throws Exception {
        on("the Book's list", KeyEvent.VK_F4);
        press(KeyEvent.VK_ESCAPE);
        step("the list is whole again", () -> Showcase.find(frame, JTable.class).getRowCount() > 2);
        press(KeyEvent.VK_HOME);
        press(KeyEvent.VK_ENTER);
        step("a firing is open", () -> says("Beside the chart"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_3);
        on("a batch", KeyEvent.VK_CONTROL, KeyEvent.VK_N);
        press(KeyEvent.VK_ESCAPE);
        on("the load", KeyEvent.VK_CONTROL, KeyEvent.VK_3);
        on("the notes", KeyEvent.VK_CONTROL, KeyEvent.VK_4);
        on("the witness cones", KeyEvent.VK_CONTROL, KeyEvent.VK_5);
        press(KeyEvent.VK_ESCAPE);
        step(
                "Esc leads back to the list",
                () -> Showcase.find(frame, JTable.class).isShowing());
    }

    private void kiln() throws Exception {
        press(KeyEvent.VK_F5);
        on("the kiln's settings", KeyEvent.VK_CONTROL, KeyEvent.VK_K);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_T);
        for (int form : new int[] {KeyEvent.VK_N, KeyEvent.VK_M, KeyEvent.VK_R, KeyEvent.VK_E}) {
            on("a form of the sensors", KeyEvent.VK_CONTROL, form);
            press(KeyEvent.VK_ESCAPE);
        }
        on("First steps", KeyEvent.VK_CONTROL, KeyEvent.VK_G);
    }

    private void week() throws Exception {
        press(KeyEvent.VK_F7);
        Stillness.await();
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_N);
        step("a week is begun", () -> says("Load 1"));
        on("the week", KeyEvent.VK_CONTROL, KeyEvent.VK_E);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_N);
        on("a load of the week", KeyEvent.VK_F12);
    }

    private void writeIntoAll() throws Exception {
        List<JTextComponent> found = new ArrayList<>();
        onSwing(() -> find(frame.getContentPane(), found));
        for (JTextComponent field : found) {
            // One row of a table stands for the others.
            String name = field.getAccessibleContext().getAccessibleName();
            if (!been.add(name.replaceAll("\\d+", "#"))) {
                continue;
            }
            for (String text : ANY) {
                onSwing(field::requestFocusInWindow);
                robot.waitForIdle();
                onSwing(() -> write(field, text));
                onSwing(() -> Showcase.picture(frame.getContentPane()));
                if (STILL_WITH.contains(text)) {
                    Stillness.await();
                }
            }
        }
    }

    private static void write(JTextComponent field, String text) {
        if (field.isShowing() && field.isEditable()) {
            field.selectAll();
            field.replaceSelection(text);
            KeyStroke enter = KeyStroke.getKeyStroke("ENTER");
            Object name = field.getInputMap(JComponent.WHEN_FOCUSED).get(enter);
            Action deed = name == null ? null : field.getActionMap().get(name);
            if (deed != null) {
                deed.actionPerformed(new ActionEvent(field, 0, "enter"));
            }
        }
    }

    private static void find(Component component, List<JTextComponent> found) {
        if (!component.isShowing()) {
            return;
        }
        if (component instanceof JTextComponent field && field.isEditable() && field.isEnabled()) {
            found.add(field);
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                find(child, found);
            }
        }
    }
}
