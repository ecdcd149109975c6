package org.kilnside.host;

import java.awt.AWTException;
import java.awt.GraphicsEnvironment;
import java.awt.Image;
import java.awt.SystemTray;
import java.awt.TrayIcon;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Notices of the desktop, where there is one: through its own notice service, else through the tray. A notice is seen by
 * whoever looks and wakes nobody, so that one which cannot be shown is no trouble.
 */
public final class Notices implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Notices.class);

    /** A program that ends right after its notice gives it this long to be shown. */
    private static final long SHOWN_WITHIN_MS = 2_000;

    private Optional<TrayIcon> icon = Optional.empty();
    private volatile Optional<Thread> showing = Optional.empty();

    /**
     * Shows a notice.
     *
     * @param urgent whether it stays until it is clicked away
     */
    public void show(String title, String text, boolean urgent) {
        if (GraphicsEnvironment.isHeadless()) {
            return;
        }
        Thread thread = new Thread(
                () -> {
                    if (!bySystem(title, text, urgent)) {
                        byTray(title, text, urgent);
                    }
                },
                "notice");
        thread.setDaemon(true);
        showing = Optional.of(thread);
        thread.start();
    }

    /** The notice program of Linux desktops (the freedesktop.org notification service). */
    private static boolean bySystem(String title, String text, boolean urgent) {
        if (!System.getProperty("os.name").startsWith("Linux")) {
            return false;
        }
        try {
            Process process = new ProcessBuilder(List.of(
                            "notify-send", "-a", "Kilnside", "-u", urgent ? "critical" : "normal", "--", title, text))
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            if (!process.waitFor(5, TimeUnit.SECONDS)) {
                process.destroyForcibly();
                return false;
            }
            return process.exitValue() == 0;
        } catch (IOException e) {
            LOG.debug("no notice program here", e);
            return false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    private synchronized void byTray(String title, String text, boolean urgent) {
        try {
            if (!SystemTray.isSupported()) {
                return;
            }
            if (icon.isEmpty()) {
                TrayIcon made = new TrayIcon(dot(), "Kilnside");
                made.setImageAutoSize(true);
                SystemTray.getSystemTray().add(made);
                icon = Optional.of(made);
            }
            icon.get().displayMessage(title, text, urgent ? TrayIcon.MessageType.ERROR : TrayIcon.MessageType.INFO);
        } catch (AWTException | RuntimeException e) {
            LOG.debug("no tray here", e);
        }
    }

    private static Image dot() {
        BufferedImage image = new BufferedImage(32, 32, BufferedImage.TYPE_INT_ARGB);
        var graphics = image.createGraphics();
        graphics.setColor(new java.awt.Color(0xE0, 0x6A, 0x2C));
        graphics.fillOval(3, 3, 26, 26);
        graphics.dispose();
        return image;
    }

    @Override
    public void close() {
        try {
            if (showing.isPresent()) {
                showing.get().join(SHOWN_WITHIN_MS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        takeAway();
    }

    private synchronized void takeAway() {
        icon.ifPresent(shown -> SystemTray.getSystemTray().remove(shown));
        icon = Optional.empty();
    }
}
