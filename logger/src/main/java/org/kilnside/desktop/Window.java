package org.kilnside.desktop;

import java.awt.AWTError;
import java.awt.CardLayout;
import java.awt.Dimension;
import java.awt.GraphicsDevice;
import java.awt.GraphicsEnvironment;
import java.awt.HeadlessException;
import java.awt.Rectangle;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import javax.swing.JFrame;
import javax.swing.JLabel;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import javax.swing.WindowConstants;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.now.AlarmLine;
import org.kilnside.desktop.now.NowModel;
import org.kilnside.desktop.now.NowScreen;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.desktop.theme.FrontCard;
import org.kilnside.desktop.theme.KilnIcon;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The one window. Snapshots arrive on the session's thread and are only put down there; the Swing thread picks up the
 * newest one, at most {@value #FRAMES_PER_SECOND} times a second, and once a second for the reading's age.
 */
public final class Window {
    private static final Logger LOG = LoggerFactory.getLogger(Window.class);
    private static final int FRAMES_PER_SECOND = 20;

    private final LiveFeed feed;
    private final HostClock clock;
    private final SettingsStore store;
    private final Closing closing;
    private final Errands errands = new Errands();

    /** What silences an alarm waits for no other errand. */
    private final Errands silencer = new Errands();

    private final AtomicReference<Snapshot> newest = new AtomicReference<>();
    private LiveFeed.Subscription subscription;
    private Settings settings;
    private Words words;
    private JFrame frame;
    private final List<ScreenMaker> others;
    private final List<Screen> screens = new ArrayList<>();
    private final List<KeyRow> keyRows = new ArrayList<>();
    private final CardLayout cards = new CardLayout();
    private final JPanel stage = new JPanel(cards);
    private final CardLayout rowCards = new CardLayout();
    private final JPanel rows = new FrontCard(rowCards);
    private ScreenBar bar;
    private AlarmLine ringing;
    private int front;
    private Timer pickUp;
    private Timer everySecond;

    /** Builds a screen of the window, on the Swing thread. */
    @FunctionalInterface
    public interface ScreenMaker {
        /**
         * A new screen.
         *
         * @param errands where it sends what may wait for the disk
         */
        Screen make(Words words, Errands errands);
    }

    private Window(LiveFeed feed, HostClock clock, SettingsStore store, Closing closing, List<ScreenMaker> others) {
        this.feed = feed;
        this.clock = clock;
        this.store = store;
        this.closing = closing;
        this.others = List.copyOf(others);
    }

    /**
     * Opens the window on a live firing. Returns at once; the window appears when Swing gets to it.
     *
     * @param feed the firing, recorded here or by another Kilnside
     * @param clock the host's clock by which readings were stamped
     * @param store where settings are looked after
     * @param closing what becomes of the recording when the window closes
     * @param others the screens beside the live one, in the order of their keys
     */
    public static Window open(
            LiveFeed feed, HostClock clock, SettingsStore store, Closing closing, List<ScreenMaker> others) {
        Window window = new Window(feed, clock, store, closing, others);
        window.settings = store.load();
        window.newest.set(feed.latest());
        SwingUtilities.invokeLater(window::build);
        window.subscription = feed.subscribe(window::arrived);
        return window;
    }

    /** Whether there is a display to open a window on: one that is named but does not answer is none. */
    public static boolean isPossible() {
        if (GraphicsEnvironment.isHeadless()) {
            return false;
        }
        try {
            return GraphicsEnvironment.getLocalGraphicsEnvironment().getScreenDevices().length > 0;
        } catch (HeadlessException | AWTError | LinkageError e) {
            // No display answers, or this Java came without the part that draws.
            LOG.info("no window can be opened here", e);
            return false;
        }
    }

    /**
     * Asks the person one question before there is a window. Returns at once.
     *
     * @param answered told on the Swing thread; empty when there is no answer
     */
    public static void ask(String question, Consumer<Optional<String>> answered) {
        SwingUtilities.invokeLater(() -> {
            Theme.DARK.install(100);
            JLabel wrapped = new JLabel("<html><div style='width: 360px'>"
                    + question.replace("&", "&amp;").replace("<", "&lt;") + "</div></html>");
            String answer = JOptionPane.showInputDialog(null, wrapped, "Kilnside", JOptionPane.PLAIN_MESSAGE);
            answered.accept(Optional.ofNullable(answer).filter(given -> !given.isBlank()));
        });
    }

    private void build() {
        settings.theme().install(settings.textPercent());
        words = settings.words();
        frame = new JFrame("Kilnside");
        frame.setIconImages(KilnIcon.images());
        screens.add(new NowScreen(
                words,
                note -> errands.run(() -> feed.note(note)),
                hand -> errands.run(hand == NowModel.Hand.IT_BEGINS ? feed::firingBegins : feed::firingEnds),
                alarm -> silencer.run(() -> feed.acknowledge(alarm)),
                () -> change(settings.withQuartz(!settings.quartz())),
                feed::takesNotes));
        others.forEach(maker -> screens.add(maker.make(words, errands)));
        JPanel whole = new JPanel(new MigLayout("insets 0, fill, gap 0", "[grow, fill]", "[][][grow, fill][]"));
        ringing = new AlarmLine(alarm -> silencer.run(() -> feed.acknowledge(alarm)));
        bar = new ScreenBar(screens.size(), this::open, this::cautions);
        for (int i = 0; i < screens.size(); i++) {
            int which = i;
            Screen screen = screens.get(i);
            KeyRow row = new KeyRow();
            screen.knows(() -> open(0));
            screen.keys(row);
            keys(row, whole);
            keyRows.add(row);
            stage.add(screen.view(), String.valueOf(i));
            rows.add(row, String.valueOf(i));
            KeyRow.bind(whole, ScreenBar.key(i), () -> open(which));
        }
        KeyRow.bind(whole, AlarmLine.KEY, () -> ringing.answer());
        KeyRow.bind(whole, "F1", this::cautions);
        stage.setOpaque(false);
        whole.setFocusable(true);
        // Each in a cell of its own: the line that is not shown leaves its row empty, and the screen keeps its own.
        whole.add(bar, "cell 0 0, growx, wmin 0");
        whole.add(ringing, "cell 0 1, growx, wmin 0, hidemode 3, gapx 16 16, gapy 4 2");
        whole.add(stage, "cell 0 2, grow, wmin 0, hmin 0");
        whole.add(rows, "cell 0 3, growx, wmin 0");
        frame.setContentPane(whole);
        frame.setDefaultCloseOperation(WindowConstants.DO_NOTHING_ON_CLOSE);
        frame.addWindowListener(new WindowAdapter() {
            @Override
            public void windowClosing(WindowEvent event) {
                askToClose();
            }
        });
        place();
        pickUp = new Timer(1000 / FRAMES_PER_SECOND, event -> show());
        pickUp.setRepeats(false);
        everySecond = new Timer(1000, event -> {
            show();
            stayInSight();
        });
        everySecond.start();
        say();
        show();
        for (int i = 0; i < screens.size(); i++) {
            if (screens.get(i).wantsToBeFirst()) {
                open(i);
                break;
            }
        }
        frame.setVisible(true);
        screens.get(front).firstFocus().requestFocusInWindow();
    }

    /** What counts on every screen, in sight at the end of each screen's row. */
    private void keys(KeyRow row, JPanel whole) {
        row.add(
                whole,
                "ctrl 9",
                its -> its.text("key.theme"),
                () -> change(settings.withTheme(settings.theme().other())));
        row.add(
                whole,
                "F8",
                its -> its.language().next().ownName(),
                () -> change(settings.withLanguage(settings.language().next())));
        row.add(
                whole,
                "F9",
                its -> its.preferences().unit() == TemperatureUnit.CELSIUS ? "°F" : "°C",
                () -> change(settings.withUnit(settings.unit().other())));
        row.add(
                whole,
                "F10",
                its -> its.text(its.preferences().clock() == ClockStyle.TWELVE_HOURS ? "key.24_hours" : "key.12_hours"),
                () -> change(settings.withClock(settings.clock().other())));
        row.add(
                whole,
                "ctrl 0",
                its -> its.text("key.text", settings.textPercent()),
                () -> change(settings.withNextTextSize()));
    }

    /** Brings a screen to the front, unless the one there has work that the person wants to see to first. */
    private void open(int which) {
        if (which == front || !screens.get(front).mayLeave(() -> open(which))) {
            return;
        }
        front = which;
        cards.show(stage, String.valueOf(which));
        rowCards.show(rows, String.valueOf(which));
        rows.revalidate();
        say();
        show();
        screens.get(which).firstFocus().requestFocusInWindow();
    }

    /** As large as the screen allows, within what reads well; the middle of the screen it is on. */
    private void place() {
        Rectangle screen = GraphicsEnvironment.getLocalGraphicsEnvironment().getMaximumWindowBounds();
        int line = frame.getContentPane()
                .getFontMetrics(frame.getContentPane().getFont())
                .getHeight();
        frame.setMinimumSize(new Dimension(Math.min(screen.width, line * 40), Math.min(screen.height, line * 28)));
        frame.setSize(Math.min(screen.width, line * 85), Math.min(screen.height, line * 54));
        frame.setLocationRelativeTo(null);
    }

    /** A screen may be taken away while the window is on it. */
    private void stayInSight() {
        GraphicsEnvironment here = GraphicsEnvironment.getLocalGraphicsEnvironment();
        List<Rectangle> screens = new ArrayList<>();
        for (GraphicsDevice device : here.getScreenDevices()) {
            Rectangle bounds = device.getDefaultConfiguration().getBounds();
            screens.add(device.equals(here.getDefaultScreenDevice()) ? 0 : screens.size(), bounds);
        }
        boolean iconified = (frame.getExtendedState() & JFrame.ICONIFIED) != 0;
        if (frame.isShowing() && !iconified) {
            InSight.place(frame.getBounds(), screens).ifPresent(frame::setBounds);
        }
    }

    /** On the session's thread: puts the snapshot down and asks for a frame. */
    private void arrived(Snapshot snapshot) {
        newest.set(snapshot);
        SwingUtilities.invokeLater(() -> {
            if (pickUp != null && !pickUp.isRunning()) {
                pickUp.start();
            }
        });
    }

    private void show() {
        Moment moment = new Moment(newest.get(), clock.monotonicMs(), words, settings.quartz());
        bar.show(screens, front, NowModel.of(moment.snapshot(), moment.nowMs(), words, moment.quartz()), words);
        // The Now screen has it large.
        ringing.show(front == 0 ? moment.snapshot().withAlarms(List.of()) : moment.snapshot(), words);
        screens.get(front).show(moment);
    }

    private void say() {
        keyRows.forEach(row -> row.show(words));
        frame.getAccessibleContext().setAccessibleDescription(words.text("window.description"));
    }

    private void change(Settings other) {
        boolean otherLook = other.theme() != settings.theme() || other.textPercent() != settings.textPercent();
        settings = other;
        words = settings.words();
        if (otherLook) {
            settings.theme().install(settings.textPercent());
        }
        say();
        show();
        errands.run(() -> store.save(other));
    }

    private void cautions() {
        new CautionsDialog(frame, words).setVisible(true);
    }

    private void askToClose() {
        if (!screens.get(front).mayLeave(this::askToClose)) {
            return;
        }
        Snapshot.Stage stage = newest.get().stage();
        boolean firing = stage != Snapshot.Stage.NO_READING_YET && stage != Snapshot.Stage.ENDED;
        boolean finished = org.kilnside.wording.ReadingAge.isOver(newest.get());
        if (!closing.recordsHere() || !firing || finished) {
            close(Closing.Choice.STOP);
            return;
        }
        Object[] answers = {words.text("closing.go_on"), words.text("closing.stop"), words.text("closing.stay")};
        int answer = JOptionPane.showOptionDialog(
                frame,
                words.text("closing.question"),
                "Kilnside",
                JOptionPane.DEFAULT_OPTION,
                JOptionPane.QUESTION_MESSAGE,
                null,
                answers,
                answers[0]);
        if (answer == 0) {
            close(Closing.Choice.GO_ON_RECORDING);
        } else if (answer == 1) {
            close(Closing.Choice.STOP);
        }
    }

    private void close(Closing.Choice choice) {
        everySecond.stop();
        pickUp.stop();
        frame.dispose();
        errands.run(() -> {
            subscription.close();
            closing.closed(choice);
        });
        errands.close();
        silencer.close();
    }
}
