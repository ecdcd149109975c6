package org.kilnside.desktop.theme;

import java.awt.BorderLayout;
import javax.swing.BorderFactory;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JTextArea;

/** A row of a {@link WrappingList}: a time, and what happened then, in words that wrap. */
public final class MomentRow extends JPanel {
    private static final long serialVersionUID = 1L;
    private final JLabel when = Labels.quiet("");
    private final JTextArea what = Labels.wrapping("", "foreground: $Kilnside.text");

    /** @param gap above and below the words, in pixels */
    public MomentRow(int gap) {
        super(new BorderLayout(10, 0));
        setOpaque(false);
        setBorder(BorderFactory.createEmptyBorder(gap, 0, gap, 8));
        JPanel top = new JPanel(new BorderLayout());
        top.setOpaque(false);
        top.add(when, BorderLayout.NORTH);
        add(top, BorderLayout.WEST);
        add(what, BorderLayout.CENTER);
    }

    /**
     * Takes the words of a row, as wide as they may be in the list.
     *
     * @param marked whether this is the row one stands on
     */
    public MomentRow saying(String time, String happened, boolean marked, JList<?> list) {
        when.setText(time);
        when.setForeground(Theme.colour("quiet"));
        when.setFont(Theme.font(1));
        what.setFont(Theme.font(1));
        what.setForeground(Theme.colour(marked ? "ember" : "text"));
        what.setText(happened);
        int indent = when.getFontMetrics(when.getFont()).stringWidth(time) + 18;
        what.setSize(Math.max(40, list.getParent().getWidth() - indent - 12), Short.MAX_VALUE);
        getAccessibleContext().setAccessibleName(time + " " + happened);
        return this;
    }
}
