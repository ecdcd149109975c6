package org.kilnside.desktop;

import java.awt.Component;
import java.awt.Container;
import java.awt.Frame;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import javax.swing.JFrame;
import javax.swing.JPanel;
import javax.swing.SwingUtilities;
import org.kilnside.desktop.now.NowView;
import org.kilnside.desktop.now.StatusPane;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.session.HandFeed;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.TemperatureUnit;

/**
 * Opens the window on one scene after the other and writes pictures of it. Each argument is one picture:
 * {@code SCENE,THEME,LANGUAGE,WIDTHxHEIGHT,FILE}, with {@code ,LARGE} or {@code ,CAUTIONS} behind it for those. For each
 * it says what is clipped, if anything.
 */
public final class Showcase {
    private Showcase() {}

    public static void main(String[] pictures) throws Exception {
        for (String picture : pictures) {
            take(picture.split(",", -1));
        }
        System.exit(0);
    }

    private static void take(String[] wish) throws Exception {
        Scene scene = Scene.valueOf(wish[0]);
        Settings settings = new Settings(
                Theme.valueOf(wish[1]),
                Language.valueOf(wish[2]),
                TemperatureUnit.CELSIUS,
                ClockStyle.TWENTY_FOUR_HOURS,
                Opening.LID,
                scene == Scene.HEATING || scene == Scene.COOLING,
                Integer.getInteger("showcase.text", 100));
        String[] size = wish[3].split("x", -1);
        String mode = wish.length > 5 ? wish[5] : "";
        HandClock clock = new HandClock();
        clock.set(scene.hostMs());
        Window.open(
                new HandFeed(scene.snapshot()),
                clock,
                SettingsStore.forgetful(settings),
                HandClosing.unheard(),
                WholeBar.names());
        JFrame frame = shown();
        SwingUtilities.invokeAndWait(() -> frame.setSize(Integer.parseInt(size[0]), Integer.parseInt(size[1])));
        if (mode.equals("LARGE")) {
            SwingUtilities.invokeAndWait(() -> find(frame, NowView.class).toggleLarge());
        }
        Stillness.await();
        BufferedImage[] image = new BufferedImage[1];
        List<String> clipped = new ArrayList<>();
        if (mode.equals("CAUTIONS")) {
            SwingUtilities.invokeAndWait(() -> {
                CautionsDialog dialog = new CautionsDialog(frame, settings.words());
                dialog.setVisible(true);
            });
            Stillness.await();
        }
        SwingUtilities.invokeAndWait(() -> {
            Container shown = mode.equals("CAUTIONS")
                    ? ((javax.swing.JDialog) frame.getOwnedWindows()[0]).getContentPane()
                    : frame.getContentPane();
            image[0] = picture(shown);
            Legibility.faults(shown, image[0], clipped);
            ByKeyboard.faults(shown, clipped);
            if (mode.isEmpty()) {
                unused(find(frame, NowView.class), clipped);
            }
            for (java.awt.Window owned : frame.getOwnedWindows()) {
                owned.dispose();
            }
            putAway(frame);
        });
        write(image[0], new File(wish[4]));
        System.out.println(wish[4] + " clipped: " + clipped);
    }

    /**
     * How a window is shown.
     *
     * @param text how large its text is, in percent
     */
    public record Shape(int width, int height, int text) {
        /** From {@code 1600x900}, or {@code 1600x900@200} for twice the text. */
        public static Shape of(String wish) {
            String[] parts = wish.split("[x@]", -1);
            int text = parts.length > 2 ? Integer.parseInt(parts[2]) : Integer.getInteger("showcase.text", 100);
            return new Shape(Integer.parseInt(parts[0]), Integer.parseInt(parts[1]), text);
        }
    }

    /** Writes what a part of a window shows, and says what of it nobody could read or reach. */
    public static void shoot(Container shown, String file) throws Exception {
        BufferedImage[] image = new BufferedImage[1];
        List<String> clipped = new ArrayList<>();
        SwingUtilities.invokeAndWait(() -> {
            shown.validate();
            image[0] = picture(shown);
            Legibility.faults(shown, image[0], clipped);
            ByKeyboard.faults(shown, clipped);
        });
        write(image[0], new File(file));
        System.out.println(file + " clipped: " + clipped);
    }

    /** What a part of a window shows, in as many pixels as its screen has for it. */
    public static BufferedImage picture(Container shown) {
        double scale = shown.getGraphicsConfiguration().getDefaultTransform().getScaleX();
        BufferedImage image = new BufferedImage(
                (int) Math.ceil(shown.getWidth() * scale),
                (int) Math.ceil(shown.getHeight() * scale),
                BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.scale(scale, scale);
        shown.paint(g);
        g.dispose();
        return image;
    }

    /** The states stand at the screen's lower edge: what is above them has all the room there is. */
    private static void unused(NowView screen, List<String> found) {
        StatusPane states = find(screen, StatusPane.class);
        int below = screen.getHeight() - SwingUtilities.convertPoint(states, 0, states.getHeight(), screen).y;
        if (below > states.getHeight() * 2) {
            found.add(below + " pixels below the states are not used");
        }
    }

    /** The window, once it is there. */
    public static JFrame shown() throws Exception {
        for (int i = 0; i < 1200; i++) {
            for (Frame frame : Frame.getFrames()) {
                if (frame instanceof JFrame window && window.isShowing()) {
                    return window;
                }
            }
            Thread.sleep(25);
        }
        throw new IllegalStateException("no window within half a minute");
    }

    /** The look of the next window is put on every window there has been: this one leaves nothing to put it on. */
    public static void putAway(JFrame frame) {
        frame.dispose();
        frame.setContentPane(new JPanel());
    }

    public static <T> T find(Container within, Class<T> kind) {
        for (Component child : within.getComponents()) {
            if (kind.isInstance(child)) {
                return kind.cast(child);
            }
            if (child instanceof Container container) {
                T found = find(container, kind);
                if (found != null) {
                    return found;
                }
            }
        }
        return null;
    }

    private static void write(BufferedImage image, File file) throws IOException {
        File folder = file.getAbsoluteFile().getParentFile();
        if (!folder.isDirectory() && !folder.mkdirs()) {
            throw new IOException("cannot make the folder " + folder);
        }
        ImageIO.write(image, "png", file);
    }
}
