package org.kilnside.desktop.kiln;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Component;
import java.awt.Rectangle;
import java.awt.event.ActionEvent;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntConsumer;
import javax.swing.AbstractAction;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.KeyStroke;
import javax.swing.SwingConstants;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.Words;

/** What can be done here, below each other: arrows or digits choose, Enter does it. */
final class OptionList extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final int DIGITS = 9;

    private final transient IntConsumer choose;
    private final transient List<KeyButton> buttons = new ArrayList<>();
    private transient List<GuideStep.Option> shown = List.of();

    OptionList(IntConsumer choose) {
        super(new MigLayout("insets 0, fillx, wrap 1, gap 6, novisualpadding", "[grow, fill]", ""));
        this.choose = choose;
        setOpaque(false);
        for (int digit = 1; digit <= DIGITS; digit++) {
            int which = digit - 1;
            // Where the character arrives, not where the key goes down: else it would be typed into the next step's
            // field.
            tie("typed " + digit, () -> press(which));
        }
        tie("DOWN", () -> move(1));
        tie("UP", () -> move(-1));
        tie("ENTER", () -> press(focused()));
    }

    private void tie(String key, Runnable deed) {
        getInputMap(JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(KeyStroke.getKeyStroke(key), key);
        getActionMap().put(key, new AbstractAction() {
            private static final long serialVersionUID = 1L;

            @Override
            public void actionPerformed(ActionEvent event) {
                deed.run();
            }
        });
    }

    /** Shows options; the first has the keyboard when they are others than before. Says whether they are. */
    boolean show(List<GuideStep.Option> options, Words words) {
        if (options.equals(shown)) {
            return false;
        }
        shown = options;
        buttons.clear();
        removeAll();
        for (int i = 0; i < options.size(); i++) {
            add(option(i, options.get(i), words), "growx, wmin 0");
        }
        revalidate();
        repaint();
        return true;
    }

    private Component option(int which, GuideStep.Option option, Words words) {
        JPanel row = new JPanel(new MigLayout("insets 0, fillx, wrap 1, gap 2, novisualpadding", "[grow, fill]", ""));
        row.setOpaque(false);
        KeyButton button = new KeyButton();
        button.say(option.label(), which < DIGITS ? String.valueOf(which + 1) : "", words);
        button.setHorizontalAlignment(SwingConstants.LEADING);
        button.putClientProperty(
                FlatClientProperties.STYLE, which == 0 ? "font: bold; margin: 7,12,7,12" : "margin: 5,12,5,12");
        button.addActionListener(event -> choose.accept(which));
        button.addFocusListener(new FocusAdapter() {
            @Override
            public void focusGained(FocusEvent event) {
                row.scrollRectToVisible(new Rectangle(0, 0, row.getWidth(), row.getHeight()));
            }
        });
        buttons.add(button);
        row.add(button, "growx, wmin 0");
        if (!option.detail().isEmpty()) {
            JTextArea detail = Labels.wrapping(option.detail(), "foreground: $Kilnside.quiet");
            button.getAccessibleContext().setAccessibleDescription(option.detail());
            row.add(detail, "growx, wmin 0, gapleft 14, gapbottom 4");
        }
        return row;
    }

    void focusFirst() {
        if (!buttons.isEmpty()) {
            buttons.get(0).requestFocusInWindow();
        }
    }

    JComponent first() {
        return buttons.isEmpty() ? this : buttons.get(0);
    }

    private int focused() {
        for (int i = 0; i < buttons.size(); i++) {
            if (buttons.get(i).isFocusOwner()) {
                return i;
            }
        }
        return -1;
    }

    private void move(int by) {
        int next = focused() + by;
        if (next >= 0 && next < buttons.size()) {
            buttons.get(next).requestFocusInWindow();
        }
    }

    private void press(int which) {
        if (which >= 0 && which < buttons.size()) {
            choose.accept(which);
        }
    }
}
