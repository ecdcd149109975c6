package org.kilnside.desktop.theme;

import com.formdev.flatlaf.FlatClientProperties;
import java.util.regex.Pattern;
import javax.swing.JLabel;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import javax.swing.text.Caret;
import javax.swing.text.DefaultCaret;

/** Labels in the screen's few kinds of type. */
public final class Labels {
    private static final Pattern CLOCK = Pattern.compile("(\\d):(\\d\\d)");

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
        JTextArea area = new JTextArea() {
            private static final long serialVersionUID = 1L;

            @Override
            public void setText(String words) {
                super.setText(together(words));
            }

            @Override
            public void setBounds(int x, int y, int width, int height) {
                boolean other = width != getWidth();
                super.setBounds(x, y, width, height);
                if (other) {
                    // How high its words are is known only now that their width is: what is around it is told.
                    SwingUtilities.invokeLater(this::revalidate);
                }
            }

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
        letterByLetter(area);
        area.setText(text);
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

    /** A number stays with its degrees or its per cent where a line is broken, and a time of day is never torn apart. */
    private static String together(String words) {
        String joined = words.replace(" °", "\u00a0°\ufeff").replace(" %", "\u00a0%");
        // A line may be broken after a colon, a time's too, and after a degree sign: the character of no width forbids
        // it.
        return CLOCK.matcher(joined).replaceAll("$1:\ufeff$2");
    }

    /**
     * Has a text area lay out its words letter by letter, whatever they are. Where they have letters of many parts (an
     * emoji, Arabic) it would lay itself out in another way, which asks for being laid out again each time its size is
     * asked for: within a page that asks twice that never comes to rest, and one pasted emoji stopped the window.
     */
    public static void letterByLetter(JTextArea area) {
        // The property is Swing's own: it is looked at and changed only while it is false.
        area.getDocument().putProperty("i18n", "never");
    }

    private static JLabel styled(String text, String style) {
        JLabel label = new JLabel(text);
        label.putClientProperty(FlatClientProperties.STYLE, style);
        return label;
    }
}
