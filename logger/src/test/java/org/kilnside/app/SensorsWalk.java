package org.kilnside.app;

import java.awt.AWTException;
import java.awt.Toolkit;
import java.awt.datatransfer.StringSelection;
import java.awt.event.KeyEvent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import javax.swing.text.JTextComponent;
import org.kilnside.book.Book;
import org.kilnside.book.ComparedPoint;
import org.kilnside.book.FittedSensor;
import org.kilnside.book.KilnHistory;
import org.kilnside.desktop.HandClock;
import org.kilnside.desktop.Settings;
import org.kilnside.desktop.SettingsStore;
import org.kilnside.desktop.Walk;
import org.kilnside.desktop.WholeBar;
import org.kilnside.desktop.Window;
import org.kilnside.desktop.kiln.HandShelf;
import org.kilnside.desktop.kiln.HandWorld;
import org.kilnside.desktop.kiln.KilnScreen;
import org.kilnside.desktop.kiln.SampleLines;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.session.HandFeed;
import org.kilnside.session.HostClock;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;

/**
 * Notes a sensor, a comparison and a new place by keyboard alone, before there is any book. Says each step that held; one
 * that does not hold ends the walk with status 1.
 */
final class SensorsWalk extends Walk {
    private static final Instant NOW = Instant.parse("2026-11-26T09:00:00Z");

    private final Path book;
    private final HandClock clock = new HandClock();
    private final AtomicInteger deeds = new AtomicInteger();

    private SensorsWalk(Path book) throws AWTException {
        super(Duration.ofSeconds(30));
        this.book = book;
    }

    public static void main(String[] arguments) throws Exception {
        new SensorsWalk(Path.of(arguments[0])).walk();
        System.exit(0);
    }

    private void walk() throws Exception {
        clock.set(SampleSnapshots.HOST_MS + 1_000);
        HostClock wall = new HostClock() {
            @Override
            public long monotonicMs() {
                return clock.monotonicMs();
            }

            @Override
            public Instant wallClock() {
                // A minute between one deed and the next.
                return NOW.plusSeconds(60L * deeds.incrementAndGet());
            }
        };
        HandWorld world = HandWorld.plugged();
        Window.open(
                new HandFeed(SampleSnapshots.heating()),
                clock,
                SettingsStore.forgetful(new Settings(
                        Theme.DARK,
                        Language.ENGLISH,
                        TemperatureUnit.CELSIUS,
                        ClockStyle.TWENTY_FOUR_HOURS,
                        Opening.LID,
                        false,
                        100)),
                quietly(),
                WholeBar.with(
                        "F5",
                        (words, errands) -> new KilnScreen(
                                SampleLines::good,
                                world,
                                world,
                                new HandShelf(),
                                new WindowSensors(book, wall),
                                errands)));
        windowOpens();
        press(KeyEvent.VK_F5);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_T);
        step("no sensor is known yet", () -> says("The book was told of no sensor"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_R);
        step("nothing can be compared before one is fitted", () -> says("note first which one was fitted"));
        fit();
        compare();
        move();
        anything();
    }

    private void fit() {
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_N);
        step("a new one has its name to be given", () -> named("What you call it"));
        type("spring");
        press(KeyEvent.VK_TAB);
        step("then its place", () -> named("Where its tip is"));
        type("left wall");
        press(KeyEvent.VK_ENTER);
        step(
                "Enter notes it, in a book that is made for it",
                () -> Files.exists(book)
                        && says("spring · left wall")
                        && sensors().size() == 1);
        step("and the keyboard is in the list", () -> spoken().startsWith("spring · left wall"));
    }

    private void compare() {
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_R);
        step("a comparison begins with what it read", () -> named("It read"));
        type("1000");
        press(KeyEvent.VK_TAB);
        type("hot");
        press(KeyEvent.VK_ENTER);
        step("what is no temperature is said in place", () -> says("“hot” is no temperature") && named("It was"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_A);
        type("1011");
        press(KeyEvent.VK_ENTER);
        step("and taken when mended", () -> says("at 1000 °C add +11 °C") && points().size() == 1);
        press(KeyEvent.VK_DOWN);
        step("down leads to it", () -> spoken().startsWith("Comparison 1"));
        press(KeyEvent.VK_DELETE);
        step("Delete strikes it out", () -> points().isEmpty());
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step("and one key undoes that", () -> points().size() == 1 && says("at 1000 °C add +11 °C"));
    }

    private void move() {
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_M);
        step("a move asks for the place", () -> named("Where its tip is"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_A);
        type("lid");
        press(KeyEvent.VK_F8);
        step("in any language, with what was typed kept", () -> named("Waar zijn punt zit") && owned().equals("lid"));
        press(KeyEvent.VK_ENTER);
        step("and ends what was known", () -> says("spring · lid") && sensors().size() == 2);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step("until it is undone", () -> sensors().size() == 1);
    }

    /** Whatever is pasted into a field is taken in one line, or said to be too long. */
    private void anything() {
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_N);
        step("another form", () -> named("Hoe jij hem noemt"));
        paste("x".repeat(10_000));
        press(KeyEvent.VK_ENTER);
        step("ten thousand letters are too many", () -> says("Hooguit 80 letters"));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_A);
        paste("a\nb\u0007 \uD83C\uDFFA \u05E9\u05DC\u05D5\u05DD");
        press(KeyEvent.VK_ENTER);
        step(
                "all else is a name",
                () -> sensors().size() == 2
                        && sensors().get(1).sensor().sensor().equals("a b \uD83C\uDFFA \u05E9\u05DC\u05D5\u05DD"));
    }

    private static void paste(String text) {
        Toolkit.getDefaultToolkit().getSystemClipboard().setContents(new StringSelection(text), null);
        try {
            SwingUtilities.invokeAndWait(() -> ((JTextComponent) owner()).paste());
        } catch (InterruptedException | java.lang.reflect.InvocationTargetException e) {
            throw new IllegalStateException(e);
        }
    }

    private List<FittedSensor> sensors() {
        try (Book open = Book.open(book)) {
            return open.history("Tall Drum").sensors();
        }
    }

    private List<ComparedPoint> points() {
        try (Book open = Book.open(book)) {
            KilnHistory history = open.history("Tall Drum");
            return history.points(history.sensors().get(0).number());
        }
    }

    private static String spoken() {
        String name = owner() == null ? null : owner().getAccessibleContext().getAccessibleName();
        return name == null ? "" : name;
    }

    private static boolean named(String label) {
        return owner() instanceof JTextField && spoken().equals(label);
    }

    private static String owned() {
        return owner() instanceof JTextField field ? field.getText() : "";
    }
}
