package org.kilnside.desktop;

import java.awt.Component;
import java.awt.Container;
import java.awt.FocusTraversalPolicy;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import javax.swing.AbstractButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JList;
import javax.swing.JTable;
import javax.swing.KeyStroke;
import javax.swing.SwingUtilities;
import javax.swing.text.JTextComponent;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.KeyHints;
import org.kilnside.desktop.theme.KeyName;

/**
 * What on a screen could be done by the mouse alone: things to be worked with that Tab does not come to, buttons that show
 * a key which does nothing, and parts of our own that listen to the mouse and to no key.
 */
public final class ByKeyboard {
    private ByKeyboard() {}

    /** Looks through a screen in its window. */
    public static void faults(Container screen, List<String> found) {
        Set<Component> order = order(screen);
        Set<KeyStroke> keys = new HashSet<>();
        keys(SwingUtilities.getWindowAncestor(screen), keys);
        look(screen, order, keys, found);
    }

    /** All that Tab comes to, from the first on, once round. */
    private static Set<Component> order(Container screen) {
        Container root = SwingUtilities.getWindowAncestor(screen);
        FocusTraversalPolicy policy = root.getFocusTraversalPolicy();
        Set<Component> order = new HashSet<>();
        for (Component at = policy.getFirstComponent(root); at != null && order.add(at); ) {
            at = policy.getComponentAfter(root, at);
        }
        return order;
    }

    /** The keys that do something while this is showing. */
    private static void keys(Component component, Set<KeyStroke> keys) {
        if (!component.isShowing()) {
            return;
        }
        if (component instanceof JComponent its) {
            for (int when : new int[] {
                JComponent.WHEN_IN_FOCUSED_WINDOW,
                JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT,
                JComponent.WHEN_FOCUSED
            }) {
                KeyStroke[] strokes = its.getInputMap(when).allKeys();
                for (KeyStroke stroke : strokes == null ? new KeyStroke[0] : strokes) {
                    if (its.getActionMap().get(its.getInputMap(when).get(stroke)) != null) {
                        keys.add(stroke);
                    }
                }
            }
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                keys(child, keys);
            }
        }
    }

    private static void look(Component component, Set<Component> order, Set<KeyStroke> keys, List<String> found) {
        if (!component.isShowing()) {
            return;
        }
        boolean isReached = order.contains(component);
        if (isWorkedWith(component) && !isReached) {
            found.add("Tab does not come to: " + component.getClass().getSimpleName() + " "
                    + component.getAccessibleContext().getAccessibleName());
        }
        if (component instanceof KeyButton button && button.isEnabled()) {
            String name = button.getAccessibleContext().getAccessibleName();
            dead(KeyName.strokes(button.stroke()), keys).forEach(key -> found.add("its key does nothing: " + name));
        }
        if (component instanceof KeyHints hints) {
            dead(hints.strokes(), keys).forEach(key -> found.add("a key told of does nothing: " + key));
        }
        boolean listensToMouse = Arrays.stream(component.getMouseListeners())
                .anyMatch(listener -> listener.getClass().getName().startsWith("org.kilnside."));
        if (listensToMouse && !isReached && !hasKeys(component)) {
            found.add("by the mouse alone: " + component.getClass().getName());
        }
        if (component instanceof Container container) {
            for (Component child : container.getComponents()) {
                look(child, order, keys, found);
            }
        }
    }

    /** Those keys that nothing is tied to. */
    private static List<String> dead(List<String> strokes, Set<KeyStroke> keys) {
        return strokes.stream()
                .filter(stroke -> !stroke.isEmpty()
                        && !keys.contains(KeyStroke.getKeyStroke(stroke))
                        && !keys.contains(KeyStroke.getKeyStroke("typed " + stroke)))
                .toList();
    }

    /** Whether it, or what it lies in within our own screens, has keys of its own beside those of its look. */
    private static boolean hasKeys(Component component) {
        for (Component at = component; at != null; at = at.getParent()) {
            if (at instanceof JComponent its
                    && (at == component || its.getClass().getName().startsWith("org.kilnside."))
                    && its.getActionMap().keys() != null) {
                return true;
            }
        }
        return false;
    }

    private static boolean isWorkedWith(Component component) {
        boolean kind = component instanceof AbstractButton
                || component instanceof JComboBox
                || component instanceof JTable
                || component instanceof JList
                || (component instanceof JTextComponent text && text.isEditable());
        // The arrows of a drop-down list and of a scroll bar are parts of what Tab comes to.
        boolean isPart = SwingUtilities.getAncestorOfClass(JComboBox.class, component) != null
                || SwingUtilities.getAncestorOfClass(javax.swing.JScrollBar.class, component) != null;
        return kind && !isPart && component.isEnabled();
    }
}
