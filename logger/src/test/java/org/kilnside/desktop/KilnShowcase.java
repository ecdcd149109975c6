package org.kilnside.desktop;

import java.awt.Container;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.File;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JFrame;
import javax.swing.JList;
import javax.swing.SwingUtilities;
import org.kilnside.desktop.kiln.KilnScreen;
import org.kilnside.desktop.kiln.SampleLines;
import org.kilnside.desktop.theme.Theme;
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
        LINES(Scene.HEATING, SampleLines.good()),
        DISTURBED(Scene.HEATING, SampleLines.disturbed()),
        PICKED(Scene.HEATING, SampleLines.disturbed()),
        SILENT(Scene.NO_READING, SampleLines.silent()),
        NO_LINES(Scene.NOTHING_YET, LineView.NONE);

        private final Scene scene;
        private final LineView lines;

        State(Scene scene, LineView lines) {
            this.scene = scene;
            this.lines = lines;
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

    private static void take(String[] wish) throws Exception {
        State state = State.valueOf(wish[0]);
        Settings settings = new Settings(
                Theme.valueOf(wish[1]),
                Language.valueOf(wish[2]),
                TemperatureUnit.CELSIUS,
                ClockStyle.TWENTY_FOUR_HOURS,
                Opening.LID,
                false,
                Integer.getInteger("showcase.text", 100));
        String[] size = wish[3].split("x", -1);
        HandClock clock = new HandClock();
        clock.set(state.scene.hostMs());
        Window.open(
                new HandFeed(state.scene.snapshot()),
                clock,
                SettingsStore.forgetful(settings),
                new Closing() {
                    @Override
                    public boolean recordsHere() {
                        return false;
                    }

                    @Override
                    public void closed(Choice choice) {
                        // The next picture opens a window of its own.
                    }
                },
                List.of((words, errands) -> new KilnScreen(() -> state.lines)));
        JFrame frame = Showcase.shown();
        SwingUtilities.invokeAndWait(() -> {
            frame.setSize(Integer.parseInt(size[0]), Integer.parseInt(size[1]));
            ((javax.swing.JComponent) frame.getContentPane())
                    .getActionMap()
                    .get("F3")
                    .actionPerformed(null);
        });
        Showcase.settle();
        if (state == State.PICKED) {
            SwingUtilities.invokeAndWait(() -> ((JList<?>) frame.getFocusOwner()).setSelectedIndex(86));
        }
        Showcase.settle();
        BufferedImage[] image = new BufferedImage[1];
        List<String> clipped = new ArrayList<>();
        SwingUtilities.invokeAndWait(() -> {
            Container shown = frame.getContentPane();
            image[0] = new BufferedImage(shown.getWidth(), shown.getHeight(), BufferedImage.TYPE_INT_RGB);
            Graphics2D g = image[0].createGraphics();
            shown.paint(g);
            g.dispose();
            Showcase.clipped(shown, clipped);
            frame.dispose();
        });
        Showcase.write(image[0], new File(wish[4]));
        System.out.println(wish[4] + " clipped: " + clipped);
    }
}
