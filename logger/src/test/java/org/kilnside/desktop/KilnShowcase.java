package org.kilnside.desktop;

import java.awt.Component;
import java.util.Optional;
import java.util.function.Supplier;
import javax.swing.JComponent;
import javax.swing.JFrame;
import javax.swing.JList;
import javax.swing.SwingUtilities;
import org.kilnside.desktop.kiln.HandSensors;
import org.kilnside.desktop.kiln.HandShelf;
import org.kilnside.desktop.kiln.HandWorld;
import org.kilnside.desktop.kiln.KilnScreen;
import org.kilnside.desktop.kiln.Recordings;
import org.kilnside.desktop.kiln.SampleLines;
import org.kilnside.desktop.kiln.Wire;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.session.HandFeed;
import org.kilnside.session.LineView;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.TemperatureUnit;

/**
 * Opens the Kiln screen in one state after the other and writes pictures of it. Each argument is one picture: {@code
 * STATE,THEME,LANGUAGE,WIDTHxHEIGHT,FILE}. For each it says what is clipped, if anything.
 */
final class KilnShowcase {
    private KilnShowcase() {}

    /** What the screen is shown in. */
    enum State {
        LINES(Scene.HEATING, SampleLines.good(), State::recording),
        DISTURBED(Scene.HEATING, SampleLines.disturbed(), State::recording),
        PICKED(Scene.HEATING, SampleLines.disturbed(), State::recording),
        SILENT(Scene.NO_READING, SampleLines.silent(), State::recording),
        NO_LINES(Scene.NOTHING_YET, LineView.NONE, State::recording),
        KILN(Scene.HEATING, SampleLines.good(), State::recording),
        SENSORS(Scene.HEATING, SampleLines.good(), State::recording),
        COMPARING(Scene.HEATING, SampleLines.good(), State::recording),
        START(Scene.NOTHING_YET, LineView.NONE, HandWorld::plugged),
        AGAIN(Scene.NOTHING_YET, LineView.NONE, State::again),
        COLD(Scene.NOTHING_YET, LineView.NONE, HandWorld::plugged, 1),
        FOUND(Scene.NOTHING_YET, LineView.NONE, () -> hearing(HandWorld.readings()), 1, 1),
        PROPOSAL(Scene.NOTHING_YET, LineView.NONE, () -> hearing(HandWorld.foreign()), 1, 1),
        AMPLIFIER(Scene.NOTHING_YET, LineView.NONE, () -> hearing(HandWorld.foreign()), 1, 1, 1),
        CHIP(Scene.NOTHING_YET, LineView.NONE, () -> hearing(HandWorld.readings()), 1, 1, 1),
        NOISE(Scene.NOTHING_YET, LineView.NONE, () -> hearing(HandWorld.noise()), 1, 1),
        REFUSED(
                Scene.NOTHING_YET,
                LineView.NONE,
                () -> hearing(HandWorld.refused("/dev/ttyUSB0 is used by another program: close that one, or the other"
                        + " window of it, and choose the port again.")),
                1,
                1),
        ABOUT(Scene.NOTHING_YET, LineView.NONE, HandWorld::plugged, 1, 2);

        private final Scene scene;
        private final LineView lines;
        private final Supplier<HandWorld> world;
        private final int[] options;

        /** @param options the options chosen one after the other, counted from 1 */
        State(Scene scene, LineView lines, Supplier<HandWorld> world, int... options) {
            this.scene = scene;
            this.lines = lines;
            this.world = world;
            this.options = options;
        }

        private static HandWorld recording() {
            HandWorld world = HandWorld.plugged();
            world.role = Recordings.Role.HERE;
            return world;
        }

        private static HandWorld again() {
            HandWorld world = HandWorld.plugged();
            world.last = Optional.of(new Recordings.Wish(
                    "serial:/dev/ttyUSB0?baud=115200", Optional.of("Tall Drum"), Optional.of("bisque")));
            return world;
        }

        private static HandWorld hearing(Wire.Heard heard) {
            HandWorld world = HandWorld.plugged();
            world.heard = heard;
            return world;
        }
    }

    public static void main(String[] pictures) {
        int exit = 0;
        try {
            for (String picture : pictures) {
                take(picture.split(",", -1));
            }
        } catch (Exception | Error e) {
            // An open window would keep this program, and the test that waits for it.
            e.printStackTrace();
            exit = 1;
        }
        System.exit(exit);
    }

    /** As the key does it on the option that has the keyboard. */
    private static void press(JFrame frame, String key) throws Exception {
        SwingUtilities.invokeAndWait(() -> {
            for (Component at = frame.getMostRecentFocusOwner(); at != null; at = at.getParent()) {
                if (at instanceof JComponent component
                        && component.getActionMap().get(key) != null) {
                    component.getActionMap().get(key).actionPerformed(null);
                    return;
                }
            }
            throw new IllegalStateException("nothing with the keyboard knows the key " + key);
        });
    }

    private static void take(String[] wish) throws Exception {
        State state = State.valueOf(wish[0]);
        Showcase.Shape shape = Showcase.Shape.of(wish[3]);
        Settings settings = new Settings(
                Theme.valueOf(wish[1]),
                Language.valueOf(wish[2]),
                TemperatureUnit.CELSIUS,
                ClockStyle.TWENTY_FOUR_HOURS,
                Opening.LID,
                false,
                shape.text());
        HandWorld world = state.world.get();
        HandClock clock = new HandClock();
        clock.set(state.scene.hostMs());
        HandFeed feed = new HandFeed(state.scene.snapshot());
        Window.open(
                feed,
                clock,
                SettingsStore.forgetful(settings),
                HandClosing.unheard(),
                WholeBar.with(
                        "F5",
                        (words, errands) -> new KilnScreen(
                                () -> state.lines, world, world, new HandShelf(), HandSensors.rookLane(), errands)));
        JFrame frame = Showcase.shown();
        SwingUtilities.invokeAndWait(() -> {
            frame.setSize(shape.width(), shape.height());
            ((javax.swing.JComponent) frame.getContentPane())
                    .getActionMap()
                    .get("F5")
                    .actionPerformed(null);
        });
        Stillness.await();
        for (int option : state.options) {
            press(frame, "typed " + option);
            Stillness.await();
            // The window looks at what has come meanwhile: once a second, and when there is news.
            clock.set(clock.monotonicMs() + 5_000);
            feed.show(state.scene.snapshot());
            Thread.sleep(100);
            Stillness.await();
        }
        if (state == State.KILN) {
            press(frame, "ctrl K");
        }
        if (state == State.SENSORS || state == State.COMPARING) {
            press(frame, "ctrl T");
            Stillness.await();
        }
        if (state == State.COMPARING) {
            press(frame, "ctrl R");
            Stillness.await();
            // Nothing filled in: each field says what it wants.
            press(frame, "ENTER");
        }
        Stillness.await();
        if (state == State.PICKED) {
            SwingUtilities.invokeAndWait(() -> ((JList<?>) frame.getMostRecentFocusOwner()).setSelectedIndex(86));
        }
        Stillness.await();
        Showcase.shoot(frame.getContentPane(), wish[4]);
        SwingUtilities.invokeAndWait(() -> Showcase.putAway(frame));
    }
}
