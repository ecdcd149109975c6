package org.kilnside.app;

import java.awt.AWTException;
import java.awt.Component;
import java.awt.event.KeyEvent;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import javax.swing.JList;
import javax.swing.JTextField;
import org.kilnside.desktop.HandClock;
import org.kilnside.desktop.Settings;
import org.kilnside.desktop.SettingsStore;
import org.kilnside.desktop.Walk;
import org.kilnside.desktop.WholeBar;
import org.kilnside.desktop.Window;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.desktop.week.WeekScreen;
import org.kilnside.session.Connection;
import org.kilnside.session.HandFeed;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;

/**
 * Plans a week in the real window by keyboard alone: begins one, writes a second load into it, gives it a date, undoes, and
 * finds what was changed by hand. Says each step that held.
 */
final class WeekWalk extends Walk {
    private final Path folder;
    private final HandClock clock = new HandClock();

    private WeekWalk(Path folder) throws AWTException {
        super(Duration.ofSeconds(30));
        this.folder = folder;
    }

    public static void main(String[] arguments) throws Exception {
        new WeekWalk(Path.of(arguments[0])).walk();
        System.exit(0);
    }

    private void walk() throws Exception {
        Settings settings = new Settings(
                Theme.DARK,
                Language.ENGLISH,
                TemperatureUnit.CELSIUS,
                ClockStyle.TWENTY_FOUR_HOURS,
                Opening.LID,
                false,
                100);
        Window.open(
                new HandFeed(SampleSnapshots.nothingYet(Connection.State.CONNECTING)),
                clock,
                SettingsStore.forgetful(settings),
                quietly(),
                WholeBar.with(
                        "F7",
                        (words, errands) -> new WeekScreen(
                                words,
                                errands,
                                new DeskWeek(folder, folder.resolve("firings.book"), clock, Optional::empty))));
        windowOpens();
        press(KeyEvent.VK_F7);
        step("F7 brings the week, and there is none yet", () -> says("No week is planned yet"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_N);
        step("one key begins it with one load", () -> says("Load 1") && file().contains("[[load]]"));
        step("and it says when to light it", () -> says("All out") && says("Next, Load 1: Light it"));
        press(KeyEvent.VK_F12);
        step("F12 brings the list", () -> owner() instanceof JList);
        press(KeyEvent.VK_DOWN);
        press(KeyEvent.VK_ENTER);
        step("Enter goes into the fields of the load", () -> isAt("Load", "Load 1"));
        type("bowls");
        press(KeyEvent.VK_ENTER);
        step("its name is on disk at once", () -> file().contains("name = \"bowls\""));
        press(KeyEvent.VK_TAB);
        press(KeyEvent.VK_TAB);
        step("Tab goes on to its date", () -> isAt("Out by", ""));
        type("soon");
        press(KeyEvent.VK_ENTER);
        step(
                "what is no date is refused in place and stays",
                () -> says("Out by: Found \"soon\", expected a day and a time") && isAt("Out by", "soon"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_A);
        type("sat 9");
        press(KeyEvent.VK_SHIFT, KeyEvent.VK_SEMICOLON);
        type("00");
        press(KeyEvent.VK_ENTER);
        step("a day of the week is its date", () -> isAt("Out by", "2026-11-28 09:00") && file().contains("due = "));
        step("and it says whether that is in time", () -> says("to spare") || says("Too late"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_N);
        step("another key adds a load", () -> isAt("Load", "Load 2") && file().contains("Load 2"));
        press(KeyEvent.VK_ALT, KeyEvent.VK_UP);
        step("it moves up", () -> file().indexOf("Load 2") < file().indexOf("bowls"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step("which is undone, on disk too", () -> file().indexOf("Load 2") > file().indexOf("bowls"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_D);
        step("it is taken out again", () -> !file().contains("Load 2"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_E);
        step("one key shows the week itself with every caution", () -> says("Damp ware bursts at 100 °C"));
        press(KeyEvent.VK_F11);
        press(KeyEvent.VK_RIGHT);
        step("in the drawing the arrows go to a firing", () -> says("Below 50 °C, to unload"));
        String byHand = file().replace("bowls", "tiles").replace("[[load]]", "# the hall\n[[load]]");
        Files.writeString(folder.resolve("weeks/my-week.toml"), byHand);
        clock.set(SampleSnapshots.HOST_MS + 9_000);
        step("what is written by hand meanwhile is shown", () -> says("tiles") && says("was changed elsewhere"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_E);
        type("hall");
        press(KeyEvent.VK_ENTER);
        step(
                "and is put aside with its comments before it is written over",
                () -> says("now lies in my-week-2") && Files.exists(folder.resolve("weeks/my-week-2.toml")));
        Files.writeString(folder.resolve("weeks/my-week.toml"), "name = ");
        clock.set(SampleSnapshots.HOST_MS + 18_000);
        step("a file that is no week is said to be none", () -> says("The file of your week cannot be read"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_N);
        press(KeyEvent.VK_F2);
        press(KeyEvent.VK_F7);
        step("and left as it is", () -> file().equals("name = "));
    }

    private String file() {
        try {
            Path file = folder.resolve("weeks/my-week.toml");
            return Files.exists(file) ? Files.readString(file) : "";
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static boolean isAt(String name, String text) {
        Component owner = owner();
        return owner instanceof JTextField field
                && name.equals(field.getAccessibleContext().getAccessibleName())
                && field.getText().equals(text);
    }
}
