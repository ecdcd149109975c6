package org.kilnside.desktop;

import java.awt.AWTError;
import java.awt.Dimension;
import java.awt.GraphicsEnvironment;
import java.awt.HeadlessException;
import java.awt.Rectangle;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.util.concurrent.atomic.AtomicReference;
import javax.swing.JFrame;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import javax.swing.WindowConstants;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.now.NowModel;
import org.kilnside.desktop.now.NowView;
import org.kilnside.desktop.theme.KilnIcon;
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
    private final AtomicReference<Snapshot> newest = new AtomicReference<>();
    private LiveFeed.Subscription subscription;
    private Settings settings;
    private Words words;
    private JFrame frame;
    private NowView now;
    private Keys keys;
    private Timer pickUp;
    private Timer everySecond;
    private boolean recordsHere;

    private Window(LiveFeed feed, HostClock clock, SettingsStore store, Closing closing) {
        this.feed = feed;
        this.clock = clock;
        this.store = store;
        this.closing = closing;
    }

    /**
     * Opens the window on a live firing. Returns at once; the window appears when Swing gets to it.
     *
     * @param feed the firing, recorded here or by another Kilnside
     * @param clock the host's clock by which readings were stamped
     * @param store where settings are looked after
     * @param closing what becomes of the recording when the window closes
     */
    public static Window open(LiveFeed feed, HostClock clock, SettingsStore store, Closing closing) {
        Window window = new Window(feed, clock, store, closing);
        window.settings = store.load();
        window.recordsHere = closing.recordsHere();
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

    private void build() {
        settings.theme().install(settings.textPercent());
        words = settings.words();
        frame = new JFrame("Kilnside");
        frame.setIconImages(KilnIcon.images());
        now = new NowView(
                words,
                note -> errands.run(() -> feed.note(note)),
                hand -> errands.run(hand == NowModel.Hand.IT_BEGINS ? feed::firingBegins : feed::firingEnds));
        JPanel whole = new JPanel(new MigLayout("insets 0, fill, wrap 1, gap 0", "[grow, fill]", "[grow, fill][]"));
        keys = new Keys();
        keys(whole);
        whole.setFocusable(true);
        whole.add(now, "grow, wmin 0, hmin 0");
        whole.add(keys, "growx, wmin 0");
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
        everySecond = new Timer(1000, event -> show());
        everySecond.start();
        say();
        show();
        frame.setVisible(true);
        whole.requestFocusInWindow();
    }

    private void keys(JPanel whole) {
        keys.add(whole, "F1", its -> its.text("cautions.title"), this::cautions);
        keys.add(whole, "F2", its -> its.text("key.large"), now::toggleLarge);
        keys.add(whole, "F3", its -> its.text("key.now"), () -> now.chart().backToNow());
        keys.add(whole, "F4", its -> its.text("key.whole"), () -> now.chart().whole());
        keys.add(whole, "F5", its -> its.text("key.quartz"), () -> change(settings.withQuartz(!settings.quartz())));
        keys.add(
                whole,
                "F6",
                its -> its.text("key.theme"),
                () -> change(settings.withTheme(settings.theme().other())));
        keys.add(
                whole,
                "F7",
                its -> its.language().next().ownName(),
                () -> change(settings.withLanguage(settings.language().next())));
        keys.add(
                whole,
                "F8",
                its -> its.preferences().unit() == TemperatureUnit.CELSIUS ? "°F" : "°C",
                () -> change(settings.withUnit(settings.unit().other())));
        keys.add(
                whole,
                "F9",
                its -> its.text(its.preferences().clock() == ClockStyle.TWELVE_HOURS ? "key.24_hours" : "key.12_hours"),
                () -> change(settings.withClock(settings.clock().other())));
        keys.add(
                whole,
                "F10",
                its -> its.text("key.text", settings.textPercent()),
                () -> change(settings.withNextTextSize()));
        for (String key : new String[] {"PLUS", "ADD", "EQUALS"}) {
            Keys.bind(whole, key, () -> now.chart().zoom(0.7));
        }
        for (String key : new String[] {"MINUS", "SUBTRACT"}) {
            Keys.bind(whole, key, () -> now.chart().zoom(1 / 0.7));
        }
        Keys.bind(whole, "LEFT", () -> now.chart().pan(-0.2));
        Keys.bind(whole, "RIGHT", () -> now.chart().pan(0.2));
        Keys.bind(whole, "ctrl LEFT", () -> now.chart().movePointer(-0.01));
        Keys.bind(whole, "ctrl RIGHT", () -> now.chart().movePointer(0.01));
        Keys.bind(whole, "HOME", () -> now.chart().whole());
        Keys.bind(whole, "END", () -> now.chart().backToNow());
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
        now.show(NowModel.of(newest.get(), clock.monotonicMs(), words, settings.quartz()), words);
    }

    private void say() {
        keys.show(words);
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
        Snapshot.Stage stage = newest.get().stage();
        boolean firing = stage != Snapshot.Stage.NO_READING_YET && stage != Snapshot.Stage.ENDED;
        boolean finished = org.kilnside.wording.ReadingAge.isOver(newest.get());
        if (!recordsHere || !firing || finished) {
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
    }
}
