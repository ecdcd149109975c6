package org.kilnside.desktop.screen;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Component;
import java.awt.Container;
import java.awt.Dimension;
import java.awt.LayoutManager;
import java.awt.event.ActionEvent;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import javax.swing.AbstractAction;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.KeyStroke;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.wording.Words;

/** The row of what can be done from here, each with its key in sight: the screen's own first, then the window's. */
public final class KeyRow extends JPanel {
    private static final long serialVersionUID = 1L;
    private final transient List<Entry> entries = new ArrayList<>();

    private record Entry(KeyButton button, String key, Function<Words, String> text) {}

    public KeyRow() {
        super(new Rows());
        setOpaque(false);
        addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent event) {
                revalidate();
            }
        });
    }

    /**
     * Adds something to do, shown in the row.
     *
     * @param window where the key counts: anywhere in the window while this is showing
     * @param text what it does; an empty text hides it from the row
     * @param key a stroke as {@code KeyStroke} reads it: {@code F6}, {@code ctrl S}
     */
    public void add(JComponent window, String key, Function<Words, String> text, Runnable deed) {
        bind(window, key, deed);
        tell(key, text, deed);
    }

    /**
     * Adds something to do whose key is tied elsewhere, shown in the row while it has words.
     *
     * @param key as {@link org.kilnside.desktop.theme.KeyName} has it
     * @param text what it does; an empty text hides it
     */
    public void tell(String key, Function<Words, String> text, Runnable deed) {
        KeyButton button = new KeyButton();
        button.putClientProperty(FlatClientProperties.BUTTON_TYPE, FlatClientProperties.BUTTON_TYPE_BORDERLESS);
        button.putClientProperty(FlatClientProperties.STYLE, "margin: 2,8,2,8");
        button.addActionListener(event -> deed.run());
        entries.add(new Entry(button, key, text));
        add(button);
    }

    /** Ties a key that counts only while this component itself has the keyboard. */
    public static void bindHere(JComponent component, String key, Runnable deed) {
        component.getInputMap(JComponent.WHEN_FOCUSED).put(stroke(key), key);
        component.getActionMap().put(key, action(deed));
    }

    /** Ties a key without a place in the row. */
    public static void bind(JComponent window, String key, Runnable deed) {
        KeyStroke stroke = stroke(key);
        window.getInputMap(JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(stroke, key);
        window.getInputMap(JComponent.WHEN_IN_FOCUSED_WINDOW).put(stroke, key);
        window.getActionMap().put(key, action(deed));
    }

    private static KeyStroke stroke(String key) {
        KeyStroke stroke = KeyStroke.getKeyStroke(key);
        if (stroke == null) {
            throw new IllegalArgumentException("no key is called " + key);
        }
        return stroke;
    }

    private static AbstractAction action(Runnable deed) {
        return new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent event) {
                deed.run();
            }
        };
    }

    public void show(Words words) {
        for (Entry entry : entries) {
            String text = entry.text().apply(words);
            entry.button().setVisible(!text.isEmpty());
            entry.button().say(text, entry.key(), words);
        }
    }

    /** One row where the width allows, else as many as it takes; a row's spare width is shared out. */
    private static final class Rows implements LayoutManager {
        private static final int MARGIN = 6;

        @Override
        public void addLayoutComponent(String name, Component component) {
            // Components are laid out in the order they were added; names mean nothing here.
        }

        @Override
        public void removeLayoutComponent(Component component) {
            // Nothing is remembered of a component.
        }

        @Override
        public Dimension preferredLayoutSize(Container row) {
            int width = row.getWidth() > 0 ? row.getWidth() : Integer.MAX_VALUE;
            int height = 2 * MARGIN;
            for (List<Component> line : lines(row, width)) {
                height += line.get(0).getPreferredSize().height;
            }
            return new Dimension(300, height);
        }

        @Override
        public Dimension minimumLayoutSize(Container row) {
            return new Dimension(100, preferredLayoutSize(row).height);
        }

        @Override
        public void layoutContainer(Container row) {
            int y = MARGIN / 2;
            for (List<Component> line : lines(row, row.getWidth())) {
                int wanted = line.stream()
                        .mapToInt(it -> it.getPreferredSize().width)
                        .sum();
                int spare = line.size() < 2 ? 0 : (row.getWidth() - 2 * MARGIN - wanted) / (line.size() - 1);
                int x = MARGIN;
                for (Component component : line) {
                    Dimension size = component.getPreferredSize();
                    component.setBounds(x, y, size.width, size.height);
                    x += size.width + Math.max(0, Math.min(size.width, spare));
                }
                y += line.get(0).getPreferredSize().height;
            }
        }

        private static List<List<Component>> lines(Container row, int width) {
            List<List<Component>> lines = new ArrayList<>();
            long used = 0;
            for (Component component : row.getComponents()) {
                if (!component.isVisible()) {
                    continue;
                }
                int wanted = component.getPreferredSize().width;
                if (lines.isEmpty() || used + wanted > width - 2 * MARGIN) {
                    lines.add(new ArrayList<>());
                    used = 0;
                }
                lines.get(lines.size() - 1).add(component);
                used += wanted;
            }
            return lines;
        }
    }
}
