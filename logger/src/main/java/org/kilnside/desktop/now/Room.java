package org.kilnside.desktop.now;

import java.awt.Component;
import java.awt.Window;
import javax.swing.SwingUtilities;
import org.kilnside.desktop.theme.Theme;

/** How much room the window gives: on a large screen what is read first grows, so that it reads from further away. */
final class Room {
    /** Up to this many lines of text in the window's height nothing grows. */
    private static final double LINES = 42;

    private static final double LARGEST = 2.2;

    private Room() {}

    /** 1 in a small window, up to {@value #LARGEST} in a large one. */
    static double factor(Component component) {
        Window window = SwingUtilities.getWindowAncestor(component);
        if (window == null) {
            return 1;
        }
        double line = component.getFontMetrics(Theme.font(1)).getHeight();
        double byHeight = window.getHeight() / line / LINES;
        double byWidth = window.getWidth() / line / (LINES * 1.4);
        return Math.max(1, Math.min(LARGEST, Math.min(byHeight, byWidth)));
    }
}
