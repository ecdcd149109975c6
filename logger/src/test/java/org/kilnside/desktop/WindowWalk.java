package org.kilnside.desktop;

import java.awt.AWTException;
import java.awt.Frame;
import java.awt.event.KeyEvent;
import java.awt.event.WindowEvent;
import java.lang.management.ManagementFactory;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import javax.swing.JDialog;
import javax.swing.JFrame;
import javax.swing.SwingUtilities;
import org.kilnside.chart.ChartView;
import org.kilnside.desktop.now.ChartPane;
import org.kilnside.desktop.now.NowView;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;

/**
 * Walks through the window by keyboard alone, in a JVM of its own on a virtual screen. Says each step that held; a step
 * that does not hold within ten seconds ends the walk with status 1.
 */
final class WindowWalk extends Walk {
    private final SlowFeed feed = new SlowFeed(SampleSnapshots.heating());
    private final HandClock clock = new HandClock();
    private final List<Settings> saved = new CopyOnWriteArrayList<>();
    private final List<String> savedOn = new CopyOnWriteArrayList<>();
    private final List<String> closed = new CopyOnWriteArrayList<>();

    private WindowWalk() throws AWTException {
        super(Duration.ofSeconds(10));
    }

    public static void main(String[] none) throws Exception {
        new WindowWalk().walk();
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
        Window.open(feed, clock, store(settings), closing(), List.of());
        step("the window opens on the live firing", () -> {
            for (Frame candidate : Frame.getFrames()) {
                if (candidate instanceof JFrame window && window.isShowing()) {
                    frame = window;
                }
            }
            return frame != null && speaks("Heating to 600 °C, 6 minutes behind the plan. 412 °C, 0 s ago");
        });
        long started = ManagementFactory.getRuntimeMXBean().getStartTime();
        System.out.println("window after " + (System.currentTimeMillis() - started) + " ms");
        step("the window has the focus", () -> frame.isFocused());

        cautionsAndLarge();
        settings();
        chart();
        notes();
        oldReadings();
        ending();
    }

    private void cautionsAndLarge() {
        press(KeyEvent.VK_F1);
        step("one key shows the cautions", () -> dialog("Cautions"));
        press(KeyEvent.VK_ESCAPE);
        step("and one key puts them away", () -> !dialog("Cautions") && frame.isFocused());
        press(KeyEvent.VK_F11);
        step("the large mode is one key away", () -> view().isLarge());
        press(KeyEvent.VK_F11);
        step("and back", () -> !view().isLarge());
    }

    private void settings() {
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_9);
        step("the theme changes", () -> last(Theme.LIGHT));
        press(KeyEvent.VK_F8);
        step("the language changes", () -> speaks("Stookt naar 600 °C, 6 minuten achter op het plan."));
        press(KeyEvent.VK_F9);
        step("the unit changes", () -> speaks("Stookt naar 1112 °F"));
        press(KeyEvent.VK_F9);
        press(KeyEvent.VK_F8);
        press(KeyEvent.VK_F8);
        press(KeyEvent.VK_F10);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_0);
        step("all of it is remembered", () -> {
            Settings newest = saved.isEmpty() ? null : saved.get(saved.size() - 1);
            return newest != null
                    && newest.language() == Language.ENGLISH
                    && newest.clock() == ClockStyle.TWELVE_HOURS
                    && newest.textPercent() == 125;
        });
        step("and never on the Swing thread", () -> savedOn.stream().allMatch("kilnside-errands"::equals));
    }

    private void chart() {
        press(KeyEvent.VK_EQUALS);
        step("the chart comes closer", () -> !chartView().isWhole());
        press(KeyEvent.VK_RIGHT);
        step("and moves along the time", () -> !chartView().goesWithNow());
        press(KeyEvent.VK_END);
        step(
                "and goes back to now",
                () -> chartView().goesWithNow() && !chartView().isWhole());
        press(KeyEvent.VK_HOME);
        step("and shows the whole firing", () -> chartView().isWhole());
    }

    /** While the session takes its time over a note, the window goes on showing what comes. */
    private void notes() {
        feed.slownessMs = 4000;
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_1);
        step("a note is under way", () -> !feed.threads.isEmpty());
        feed.show(SampleSnapshots.holding());
        step("the window does not wait for it", () -> speaks("Holding at 998 °C") && feed.said.isEmpty());
        step("the note arrives", () -> feed.said.contains("Bung out"));
        step(
                "and was not taken on the Swing thread",
                () -> feed.threads.stream().allMatch("kilnside-errands"::equals));
        feed.slownessMs = 0;
    }

    private void oldReadings() {
        clock.set(SampleSnapshots.HOST_MS + 240_000);
        step("without any snapshot the number gives way", () -> speaks("No reading for 4 min. no reading for 4 min"));
        clock.set(SampleSnapshots.HOST_MS);
        step("and comes back", () -> speaks("Holding at 998 °C"));
    }

    private void ending() {
        SwingUtilities.invokeLater(() -> frame.dispatchEvent(new WindowEvent(frame, WindowEvent.WINDOW_CLOSING)));
        step("closing the window asks while it records", () -> dialog("Kilnside"));
        press(KeyEvent.VK_ESCAPE);
        step("and one can stay", () -> !dialog("Kilnside") && frame.isShowing());
        feed.show(SampleSnapshots.ended());
        step("the end tells the firing", () -> speaks("The firing has ended."));
        SwingUtilities.invokeLater(() -> frame.dispatchEvent(new WindowEvent(frame, WindowEvent.WINDOW_CLOSING)));
        step("then it closes without a question", () -> closed.contains("STOP on kilnside-errands"));
    }

    private boolean last(Theme theme) {
        return !saved.isEmpty() && saved.get(saved.size() - 1).theme() == theme;
    }

    private NowView view() {
        return Showcase.find(frame, NowView.class);
    }

    private ChartView chartView() {
        return Showcase.find(frame, ChartPane.class).view();
    }

    private boolean speaks(String words) {
        String spoken = view().getAccessibleContext().getAccessibleName();
        return spoken != null && spoken.startsWith(words);
    }

    private boolean dialog(String title) {
        for (java.awt.Window owned : frame.getOwnedWindows()) {
            if (owned instanceof JDialog dialog
                    && dialog.isShowing()
                    && dialog.isFocused()
                    && title.equals(dialog.getTitle())) {
                return true;
            }
        }
        return false;
    }

    private SettingsStore store(Settings first) {
        return new SettingsStore() {
            @Override
            public Settings load() {
                return first;
            }

            @Override
            public void save(Settings settings) {
                savedOn.add(Thread.currentThread().getName());
                saved.add(settings);
            }
        };
    }

    private Closing closing() {
        return new HandClosing(
                true,
                choice -> closed.add(choice + " on " + Thread.currentThread().getName()));
    }
}
