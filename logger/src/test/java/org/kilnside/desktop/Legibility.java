package org.kilnside.desktop;

import java.awt.Color;
import java.awt.Component;
import java.awt.Container;
import java.awt.Dimension;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.accessibility.Accessible;
import javax.swing.AbstractButton;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JTable;
import javax.swing.JViewport;
import javax.swing.SwingUtilities;
import javax.swing.UIManager;
import javax.swing.text.JTextComponent;
import org.kilnside.desktop.theme.ContrastTest;

/**
 * What is wrong with a screen as it is shown: words that are cut off, words that do not stand out from the ground they are
 * really painted on, and things to be worked with that have no name for a screen reader.
 */
public final class Legibility {
    private static final double LEAST_CONTRAST = 4.5;

    private Legibility() {}

    /**
     * Looks through a screen.
     *
     * @param picture the screen as painted, in its own or in more pixels
     */
    public static void faults(Container screen, BufferedImage picture, List<String> found) {
        look(screen, screen, picture, found);
    }

    private static void look(Component component, Container screen, BufferedImage picture, List<String> found) {
        if (!component.isShowing()) {
            return;
        }
        words(component).filter(text -> !text.isBlank()).ifPresent(text -> {
            if (!(component instanceof JTextComponent)) {
                cut(component, text, found);
            }
            if (component instanceof JTextComponent marked && isMarked(marked)) {
                pale(text, marked.getSelectedTextColor(), marked.getSelectionColor(), found);
            } else if (component.isEnabled()) {
                pale(component, text, screen, picture, found);
            }
        });
        if (isWorkedWith(component) && name(component).isEmpty()) {
            found.add("no name for a screen reader: " + component.getClass().getSimpleName());
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                look(child, screen, picture, found);
            }
        }
    }

    private static Optional<String> words(Component component) {
        if (component instanceof JLabel label) {
            return Optional.ofNullable(label.getText());
        }
        if (component instanceof AbstractButton button) {
            return Optional.ofNullable(button.getText());
        }
        return component instanceof JTextComponent text ? Optional.ofNullable(text.getText()) : Optional.empty();
    }

    /** A label or a button whose place is narrower or lower than its words, or reaches out of what it lies in. */
    private static void cut(Component component, String text, List<String> found) {
        Dimension wanted = component.getPreferredSize();
        boolean cut = component.getWidth() < wanted.width - 1 || component.getHeight() < wanted.height - 2;
        Rectangle place = component.getBounds();
        // What lies in a viewport can be scrolled to.
        for (Container at = component.getParent(); at != null && !(at instanceof JViewport); at = at.getParent()) {
            cut |= place.x < -1
                    || place.y < -1
                    || place.x + place.width > at.getWidth() + 1
                    || place.y + place.height > at.getHeight() + 1;
            place.translate(at.getX(), at.getY());
        }
        if (cut) {
            found.add(text);
        }
    }

    /** The ground is the colour most of the component's dots have. */
    private static void pale(
            Component component, String text, Container screen, BufferedImage picture, List<String> found) {
        double scale = (double) picture.getWidth() / screen.getWidth();
        // What is scrolled out of sight has the dots of something else in its place.
        Rectangle seen =
                component instanceof JComponent its ? its.getVisibleRect() : new Rectangle(component.getSize());
        Point corner = SwingUtilities.convertPoint(component, seen.x, seen.y, screen);
        Rectangle place = new Rectangle(
                        (int) Math.round(corner.x * scale),
                        (int) Math.round(corner.y * scale),
                        (int) Math.round(seen.width * scale),
                        (int) Math.round(seen.height * scale))
                .intersection(new Rectangle(picture.getWidth(), picture.getHeight()));
        if (place.width < 4 || place.height < 4) {
            return;
        }
        Map<Integer, Integer> dots = new HashMap<>();
        int across = Math.max(1, place.width / 60);
        int down = Math.max(1, place.height / 12);
        for (int x = place.x; x < place.x + place.width; x += across) {
            for (int y = place.y; y < place.y + place.height; y += down) {
                dots.merge(picture.getRGB(x, y), 1, Integer::sum);
            }
        }
        Color ground = new Color(dots.entrySet().stream()
                .max(Map.Entry.comparingByValue())
                .orElseThrow()
                .getKey());
        pale(text, ink(component), ground, found);
    }

    private static void pale(String text, Color ink, Color ground, List<String> found) {
        double contrast = ContrastTest.contrast(ink, ground);
        if (contrast < LEAST_CONTRAST) {
            found.add("pale (" + Math.round(contrast * 10) / 10.0 + "): " + text);
        }
    }

    /** What is marked in a field that has the keyboard has colours of its own. */
    private static boolean isMarked(JTextComponent field) {
        return field.isFocusOwner() && field.getSelectionStart() != field.getSelectionEnd();
    }

    /** The button that Enter presses is painted in a colour of its own. */
    private static Color ink(Component component) {
        return component instanceof JButton button && button.isDefaultButton()
                ? UIManager.getColor("Button.default.foreground")
                : component.getForeground();
    }

    private static boolean isWorkedWith(Component component) {
        boolean kind = component instanceof AbstractButton
                || component instanceof JComboBox
                || component instanceof JTable
                || component instanceof JList
                || (component instanceof JTextComponent text && text.isEditable());
        // The arrow of a drop-down list and the arrows of a scroll bar are parts of what has the name.
        return kind && component.isFocusable() && component.isEnabled();
    }

    private static Optional<String> name(Component component) {
        return component instanceof Accessible accessible
                ? Optional.ofNullable(accessible.getAccessibleContext().getAccessibleName())
                        .filter(name -> !name.isBlank())
                : Optional.empty();
    }
}
