package org.kilnside.desktop;

import java.awt.Dimension;
import java.awt.Rectangle;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Where a window goes whose screen was taken away. */
final class InSight {
    /** What must be in sight of a window's upper edge to take hold of it, px. */
    private static final int GRIP_WIDTH = 80;

    private static final int GRIP_HEIGHT = 20;

    private InSight() {}

    /**
     * Where a window has to go to be seen.
     *
     * @param window where it is
     * @param screens the screens there are, each without what the system keeps for itself; the first is the main one
     * @return empty where it can be seen and taken hold of, or there is no screen at all
     */
    static Optional<Rectangle> place(Rectangle window, List<Rectangle> screens) {
        Rectangle edge = new Rectangle(window.x, window.y, window.width, Math.min(window.height, GRIP_HEIGHT * 2));
        boolean seen = screens.stream()
                .map(edge::intersection)
                .anyMatch(part -> part.width >= Math.min(GRIP_WIDTH, window.width) && part.height >= GRIP_HEIGHT);
        if (seen || screens.isEmpty()) {
            return Optional.empty();
        }
        // The screen that still holds most of it; the main one where none does.
        Rectangle screen = screens.stream()
                .max(Comparator.comparingLong((Rectangle its) -> area(its.intersection(window))))
                .filter(its -> area(its.intersection(window)) > 0)
                .orElse(screens.get(0));
        Dimension size = new Dimension(Math.min(window.width, screen.width), Math.min(window.height, screen.height));
        return Optional.of(new Rectangle(
                screen.x + (screen.width - size.width) / 2,
                screen.y + (screen.height - size.height) / 2,
                size.width,
                size.height));
    }

    private static long area(Rectangle part) {
        return part.isEmpty() ? 0 : (long) part.width * part.height;
    }
}
