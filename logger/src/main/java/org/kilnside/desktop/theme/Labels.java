package org.kilnside.desktop.theme;

import com.formdev.flatlaf.FlatClientProperties;
import javax.swing.JLabel;
import javax.swing.JTextArea;
import javax.swing.text.Caret;
import javax.swing.text.DefaultCaret;

/** Labels in the screen's few kinds of type. */
public final class Labels {
    private Labels() {}

    /** Secondary words. */
    public static JLabel quiet(String text) {
        return styled(text, "foreground: $Kilnside.quiet");
    }

    /** A figure's value. */
    public static JLabel value(String text) {
        return styled(text, "font: 140%; foreground: $Kilnside.text");
    }

    /** The head of a card. */
    public static JLabel head(String text) {
        return styled(text, "font: bold; foreground: $Kilnside.quiet");
    }

    /** Words that wrap; not to be edited, and not a stop of the tabulator key. */
    public static JTextArea wrapping(String text, String style) {
        JTextArea area = new JTextArea(text) {
            private static final long serialVersionUID = 1L;

            @Override
            public void setCaret(Caret caret) {
                super.setCaret(caret);
                // Each look and each size of text brings a caret of its own. Else a text that changes pulls the page
                // around it down to itself.
                if (caret instanceof DefaultCaret its) {
                    its.setUpdatePolicy(DefaultCaret.NEVER_UPDATE);
                }
            }
        };
        area.setEditable(false);
        area.setFocusable(false);
        area.setLineWrap(true);
        area.setWrapStyleWord(true);
        area.setOpaque(false);
        area.setBorder(null);
        area.setHighlighter(null);
        area.putClientProperty(FlatClientProperties.STYLE, style);
        return area;
    }

    private static JLabel styled(String text, String style) {
        JLabel label = new JLabel(text);
        label.putClientProperty(FlatClientProperties.STYLE, style);
        return label;
    }
}
