package org.kilnside.host;

import java.awt.Desktop;
import java.awt.GraphicsEnvironment;
import java.io.IOException;
import java.nio.file.Path;

/** Shows a page in the person's own browser, where this system lets a program do that. */
public final class PageOpener {
    private PageOpener() {}

    /** @return whether the system was asked to; a person can always open the file by hand */
    public static boolean open(Path page) {
        if (GraphicsEnvironment.isHeadless()
                || !Desktop.isDesktopSupported()
                || !Desktop.getDesktop().isSupported(Desktop.Action.BROWSE)) {
            return false;
        }
        try {
            Desktop.getDesktop().browse(page.toUri());
            return true;
        } catch (IOException | UnsupportedOperationException e) {
            return false;
        }
    }
}
