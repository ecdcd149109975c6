package org.kilnside.desktop;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.event.ActionEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import javax.swing.AbstractAction;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.KeyStroke;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.wording.Words;

/** The row of what the window can do from everywhere, each with its key in sight. */
final class Keys extends JPanel {
    private static final long serialVersionUID = 1L;
    private final transient List<Entry> entries = new ArrayList<>();

    private record Entry(KeyButton button, String key, Function<Words, String> text) {}

    Keys() {
        super(new MigLayout("insets 2 8 6 8, fillx, gap 0", "", ""));
        setOpaque(false);
    }

    /** Adds something to do, shown in the row. */
    void add(JComponent window, String key, Function<Words, String> text, Runnable deed) {
        KeyButton button = new KeyButton();
        button.putClientProperty(FlatClientProperties.BUTTON_TYPE, FlatClientProperties.BUTTON_TYPE_BORDERLESS);
        button.putClientProperty(FlatClientProperties.STYLE, "margin: 2,8,2,8");
        button.addActionListener(event -> deed.run());
        bind(window, key, deed);
        entries.add(new Entry(button, key, text));
        add(button, "wmin 0");
    }

    /** Ties a key without a place in the row. */
    static void bind(JComponent window, String key, Runnable deed) {
        KeyStroke stroke = KeyStroke.getKeyStroke(key);
        if (stroke == null) {
            throw new IllegalArgumentException("no key is called " + key);
        }
        window.getInputMap(JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(stroke, key);
        window.getInputMap(JComponent.WHEN_IN_FOCUSED_WINDOW).put(stroke, key);
        window.getActionMap().put(key, new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent event) {
                deed.run();
            }
        });
    }

    void show(Words words) {
        for (Entry entry : entries) {
            entry.button().say(entry.text().apply(words), entry.key());
        }
    }
}
