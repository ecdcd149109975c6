package org.kilnside.app;

import java.awt.AWTException;
import java.awt.event.KeyEvent;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import javax.swing.JTable;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import javax.swing.text.JTextComponent;
import org.kilnside.book.Book;
import org.kilnside.book.BookEdit;
import org.kilnside.book.WrittenRecord;
import org.kilnside.desktop.HandClock;
import org.kilnside.desktop.HandClosing;
import org.kilnside.desktop.Settings;
import org.kilnside.desktop.SettingsStore;
import org.kilnside.desktop.Showcase;
import org.kilnside.desktop.Walk;
import org.kilnside.desktop.WholeBar;
import org.kilnside.desktop.Window;
import org.kilnside.desktop.book.BookScreen;
import org.kilnside.desktop.book.OverlayPane;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.session.HandFeed;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;

/**
 * Walks through the Book screen by keyboard alone, on a book in a file. Says each step that held; one that does not hold
 * within a minute ends the walk with status 1.
 */
final class BookWalk extends Walk {
    private final Path book;
    private final HandClock clock = new HandClock();
    private volatile boolean closed;

    private BookWalk(Path book) throws AWTException {
        super(Duration.ofSeconds(60));
        this.book = book;
    }

    public static void main(String[] arguments) throws Exception {
        new BookWalk(Path.of(arguments[0])).walk();
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
                new HandFeed(SampleSnapshots.coolingForecast()),
                clock,
                SettingsStore.forgetful(settings),
                new HandClosing(false, choice -> closed = true),
                WholeBar.with(
                        "F4", (words, errands) -> new BookScreen(words, new DeskBook(book, kiln -> Optional.empty()))));
        windowOpens();
        find();
        sort();
        overlay();
        load();
        others();
        close();
    }

    /** What was typed a moment before the window closes is in the book when it has. */
    private void close() throws Exception {
        press(KeyEvent.VK_HOME);
        press(KeyEvent.VK_ENTER);
        step("the firing is open again", () -> chart().isShowing());
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_4);
        step("the notes have the keyboard", () -> owner() instanceof JTextComponent);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_END);
        type(" last words");
        SwingUtilities.invokeAndWait(() ->
                frame.dispatchEvent(new java.awt.event.WindowEvent(frame, java.awt.event.WindowEvent.WINDOW_CLOSING)));
        step(
                "the window closes with the last words in the book",
                () -> closed && record().notes().orElse("").endsWith("last words"));
    }

    private void find() {
        press(KeyEvent.VK_F4);
        step("one key shows the book, with every firing", () -> table().isShowing() && table().getRowCount() == 24);
        step("and the keyboard is in the list", () -> table().isFocusOwner());
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_F);
        step("one key leads to the search", () -> owner() instanceof JTextField);
        type("planters 24");
        step("what is written finds the firing whose load has it", () -> table().getRowCount() == 1);
        press(KeyEvent.VK_DOWN);
        step("down leads into the list", () -> table().isFocusOwner());
        press(KeyEvent.VK_ESCAPE);
        step("and Esc forgets the search", () -> table().getRowCount() == 24);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_F);
        press(KeyEvent.VK_TAB);
        type("until october 2026");
        step("days narrow the list", () -> table().getRowCount() > 0 && table().getRowCount() < 24);
        press(KeyEvent.VK_ESCAPE);
        step("until Esc", () -> table().getRowCount() == 24);
    }

    private void sort() {
        Object newest = table().getValueAt(0, 0);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_SHIFT, KeyEvent.VK_O);
        step("one key turns the order round", () -> !table().getValueAt(0, 0).equals(newest));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_O);
        step("one key goes on to the next column", () -> sorted(3, 1));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_SHIFT, KeyEvent.VK_O);
        step("which turns round as well", () -> sorted(3, -1));
        for (int column = 0; column < 5; column++) {
            press(KeyEvent.VK_CONTROL, KeyEvent.VK_O);
        }
        step("and once round leads back", () -> table().getValueAt(0, 0).equals(newest));
    }

    /** Whether a column of text stands in order, downwards or upwards. */
    private boolean sorted(int column, int way) {
        boolean sorted = true;
        for (int row = 1; row < table().getRowCount(); row++) {
            int against = String.valueOf(table().getValueAt(row - 1, column))
                    .compareToIgnoreCase(String.valueOf(table().getValueAt(row, column)));
            sorted &= against * way <= 0;
        }
        return sorted;
    }

    private void overlay() {
        press(KeyEvent.VK_DOWN);
        press(KeyEvent.VK_DOWN);
        press(KeyEvent.VK_SPACE);
        press(KeyEvent.VK_HOME);
        step("the first firing is stood on", () -> table().getSelectedRow() == 0);
        press(KeyEvent.VK_ENTER);
        step(
                "Enter lays the marked one over it",
                () -> chart().isShowing() && chart().overlay().lines().size() == 2);
        step("from the begin of each", () -> chart().overlay().commonC().isEmpty());
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_T);
        step(
                "or from a temperature both came to",
                () -> chart().overlay().commonC().equals(java.util.OptionalDouble.of(600)));
        press(KeyEvent.VK_EQUALS);
        step("the chart comes closer", () -> !chart().view().isWhole());
        press(KeyEvent.VK_HOME);
        step("and shows the whole", () -> chart().view().isWhole());
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_6);
        step("the review is read", () -> says("What made it so"));
    }

    private void load() {
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_N);
        step(
                "a new batch is written with its name to be given",
                () -> owner() instanceof JTextField name && name.getText().equals("new batch"));
        type("test tiles");
        press(KeyEvent.VK_TAB);
        type("12");
        press(KeyEvent.VK_TAB);
        step(
                "each field is saved when the keyboard leaves it",
                () -> record().load().stream()
                        .anyMatch(batch -> batch.name().equals("test tiles")
                                && batch.pieces().equals(java.util.OptionalInt.of(12))));
        press(KeyEvent.VK_TAB);
        type("thick");
        press(KeyEvent.VK_ENTER);
        step("what is no number is said and not saved", () -> says("“thick” is no thickness"));
        press(KeyEvent.VK_ESCAPE);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step(
                "one key undoes the newest change",
                () -> record().load().stream()
                        .anyMatch(batch -> batch.name().equals("test tiles")
                                && batch.pieces().isEmpty()));
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        step("and again, until the batch is gone", () -> record().load().size() == 3);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Y);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Y);
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_Y);
        step(
                "and one does them again",
                () -> record().load().stream().anyMatch(batch -> batch.pieces().equals(java.util.OptionalInt.of(12))));
    }

    /** Another process writes into the same record. */
    private void others() {
        press(KeyEvent.VK_CONTROL, KeyEvent.VK_4);
        step(
                "the notes are shown",
                () -> owner() instanceof JTextComponent notes && notes.getText().startsWith("Cold night"));
        try (Book other = Book.open(book)) {
            WrittenRecord record = other.record(24);
            other.apply(new BookEdit.Notes(24, record.notes(), java.util.Optional.of("From the other window.")));
        }
        clock.set(SampleSnapshots.HOST_MS + 60_000);
        step(
                "what another window writes is seen here",
                () -> owner() instanceof JTextComponent notes && notes.getText().equals("From the other window."));
        press(KeyEvent.VK_ESCAPE);
        step("Esc leads back to the list", () -> table().isShowing() && table().isFocusOwner());
    }

    private WrittenRecord record() {
        try (Book opened = Book.open(book)) {
            WrittenRecord record = opened.record(24);
            for (LoadedBatch batch : record.load()) {
                if (batch.name().isBlank()) {
                    throw new IllegalStateException("a batch without a name");
                }
            }
            return record;
        }
    }

    private JTable table() {
        return Showcase.find(frame, JTable.class);
    }

    private OverlayPane chart() {
        return Showcase.find(frame, OverlayPane.class);
    }
}
